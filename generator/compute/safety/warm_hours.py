"""A course in; how long meat is warm while it heats slowly or lies out of the cold, and the refusal of too long, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import FISH, Facts
from generator.compute.safety.facts.meats import SMOKES
from generator.compute.safety.facts.pieces import Piece, inches, pieces
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import both_scales, minutes_words, sentence_start
from generator.compute.transfer.heat import FAST_MM2_S, Body, Surround, minutes_to
from generator.model.quantity import Temperature
from generator.model.recipe import Stage
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

SLOW_HEAT = ("hot smoke", "roast", "bake", "cook")
"Stages in moving air, in which a middle may rise slowly."
SLOW_AIR_F = Fraction(250)
"[degF] Roasting and baking in hotter air is not slow. Source: FSIS Revised Appendix A 2021, large pieces in 250 °F."
FAST_AIR_H = 20.0
"[W/m2K] Source: moving air of a smoker, 5 to 20, an engineering judgement (Incropera: forced gas 25 to 250)."
MIN_PER_H = Fraction(60)
"Source: a definition."
WAYS_OUT = (
    "Take the bone out or halve the piece, smoke it hotter, or take it out at 4 hours and finish it in the oven or in "
    "hot water."
)


def come_up(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """From 50 to 130 °F inside: at most 6 hours, a box from 4. Hotter air only ever shortens it."""
    lukewarm = _lukewarm(facts, tables, log)
    slow = _slow_stages(facts, tables)
    if lukewarm or not slow:
        return lukewarm
    index = slow[0][0]
    most, warn = (tables.constant(key) * MIN_PER_H for key in ("come_up_most_h", "come_up_warn_h"))
    thick = max((one for one in pieces(facts, tables) if one.thickness_mm), key=_thickness, default=None)
    hottest = max((one for _, one in slow if one.at is not None), key=_air_f, default=None)
    fast = None if thick is None or hottest is None else _fastest_min(thick, hottest, tables)
    if thick is not None and hottest is not None and fast is not None and fast > most:
        return _refuse(index, hottest, thick, fast, facts, tables, log)
    lengths = [one.minutes.high for _, one in slow if one.minutes is not None]
    if len(lengths) < len(slow):
        because = "raw meat heats slowly, and nothing says for how long"
        return cannot_tell("come-up-time", because, ("course",), tables, stage=index)
    if sum(lengths) <= warn:
        return []
    because = f"the meat heats slowly for up to {minutes_words(int(sum(lengths)))}; look at its middle after 4 hours"
    if sum(lengths) > most and thick is None:
        return cannot_tell("come-up-time", because, ("meat.thickness",), tables, stage=index)
    return [box("come-up-time", because, tables, stage=index)]


def _lukewarm(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Smoke whose air itself is between 50 and 130 °F, around raw meat without a curing salt: never for over 6 hours."""
    low, high = tables.constant("come_up_from_f"), tables.constant("come_up_to_f")
    land = [meat for meat in facts.meats if meat.animal.group not in FISH]
    found = [
        (index, stage)
        for index, stage in enumerate(facts.recipe.stages)
        if stage.name in SMOKES and low < _air_f(stage) <= high
    ]
    if not found or not land or facts.nitrite:
        return []
    index, stage = found[0]
    because = f"{land[0].because}, without a curing salt, in lukewarm smoke"
    if any(one.minutes is None for _, one in found):
        return cannot_tell("come-up-time", because, ("course",), tables, stage=index)
    hours = sum(one.minutes.high for _, one in found if one.minutes is not None)
    if hours <= tables.constant("come_up_most_h") * MIN_PER_H:
        return []
    return contradict(
        "come-up-time",
        facts,
        tables,
        log,
        position=stage.position,
        message=f"Raw meat without a curing salt hangs for {minutes_words(int(hours))} in smoke of at most "
        f"{both_scales(high)}; 6 hours are the most.",
        hint="Smoke it hotter or for a shorter time, or cure it with a curing salt.",
        because=because,
        stage=index,
    )


def _slow_stages(facts: Facts, tables: Tables) -> list[tuple[int, Stage]]:
    """The slow heating of raw meat: the first stages of heat, as long as they are slow."""
    slow: list[tuple[int, Stage]] = []
    if not (facts.meats or facts.raw_components):
        return slow
    for index, stage in enumerate(facts.recipe.stages):
        if not tables.stages.get(stage.name, False):
            continue
        is_slow = stage.name == "hot smoke" or (
            stage.at is not None and stage.at.high.fahrenheit < SLOW_AIR_F
        )
        if not (is_slow and stage.name in SLOW_HEAT):
            break
        slow.append((index, stage))
    return slow


def _air_f(stage: Stage) -> Fraction:
    return stage.at.high.fahrenheit if stage.at is not None else Fraction(0)


def _thickness(piece: Piece) -> float:
    return piece.thickness_mm or 0.0


def _fastest_min(piece: Piece, stage: Stage, tables: Tables) -> float | None:
    """Minutes of the fast case. None where the air itself is not hotter than 130 °F, which is a rule of its own."""
    if piece.thickness_mm is None or stage.at is None or piece.is_small:
        return None
    start, end = (_celsius(tables.constant(key)) for key in ("come_up_from_f", "come_up_to_f"))
    air = float(stage.at.high.celsius)
    if air <= end:
        return None
    body = Body(thickness_mm=piece.thickness_mm, shape=piece.shape or "lump")
    around = Surround(outside_c=air, h=FAST_AIR_H, diffusivity_mm2_s=FAST_MM2_S)
    return minutes_to(body, around, start_c=start, target_c=end) or float("inf")


def _celsius(fahrenheit: Fraction) -> float:
    return float(Temperature(fahrenheit, "F").celsius)


def _refuse(
    index: int, stage: Stage, piece: Piece, fast: float, facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    assert stage.at is not None
    assert piece.thickness_mm is not None
    air = both_scales(stage.at.high.fahrenheit)
    soonest = (
        "after more than a week" if fast == float("inf") else f"in {minutes_words(int(fast))} at the soonest"
    )
    return contradict(
        "come-up-time",
        facts,
        tables,
        log,
        position=stage.position,
        message=f"In air of {air} the middle of a piece {inches(piece.thickness_mm)} thick comes to 130 °F "
        f"(54 °C) {soonest}, by an estimate; 6 hours are the most.",
        hint=WAYS_OUT,
        because=f"the piece is {inches(piece.thickness_mm)} thick, in air of {air}",
        stage=index,
    )


OUT = frozenset({"trim", "rinse", "dry", "rest", "stuff", "grind", "chill", "turn", "soak", "age"})
"Stages in which meat may lie out of the cold; a cure has a rule of its own. Source: words of the trade."
WARM_PLACES = frozenset({"counter", "pantry", "shade"})
"Places that are warm unless a temperature says otherwise. Source: house choice."
COLD_PLACES = frozenset({"fridge", "freezer", "cold water", "ice bath"})
"Source: house choice."
CURED_DRYING_MIN = 2 * 24 * 60
"As long a drying of cured meat is a process of its own. Source: house choice, two days."
HOT_F = Fraction(130)
"[degF] A dryer this hot heats the meat. Source: USDA FSIS, Jerky and Food Safety."


def danger_hours(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Meat out of the cold: 2 hours in all, 1 hour above 90 °F. Met, without a box. Cannot be told: no place, no length."""
    found: list[Caution] = []
    if facts.recipe.meat is None and not facts.meats:
        return found
    for index, stage in enumerate(facts.recipe.stages):
        if stage.name in OUT and not _is_own_process(stage, facts):
            found += _out(index, stage, facts, tables, log)
    return found or _out_in_all(facts, tables, log)


def _out_in_all(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Stages that are short enough one by one, and together are not; heat begins the count anew."""
    spent: list[Stage] = []
    for index, stage in enumerate(facts.recipe.stages):
        if tables.stages.get(stage.name, False):
            spent = []
        if stage.name not in OUT or _is_own_process(stage, facts) or not _is_warm(stage, tables):
            continue
        spent.append(stage)
        minutes = [one.minutes.high for one in spent if one.minutes is not None]
        shares = [one.minutes.high / _most_min(one, tables) for one in spent if one.minutes is not None]
        if sum(shares) > 1:
            return _refuse_in_all(index, spent, sum(minutes, Fraction(0)), facts, tables, log)
    return []


def _refuse_in_all(
    index: int, spent: list[Stage], minutes: Fraction, facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    names = ", ".join(f"'{stage.name}'" for stage in spent)
    most = minutes_words(int(min(_most_min(stage, tables) for stage in spent)))
    because = f"the meat lies out of the cold for {minutes_words(int(minutes))} in all, in {names}"
    return contradict(
        "danger-hours",
        facts,
        tables,
        log,
        position=spent[-1].position,
        message=f"{sentence_start(because)}; {most} is the most for all of them together.",
        hint=f"Do one of them in the fridge, and write it: {spent[-1].name}: {spent[-1].length_written} in the fridge.",
        because=because,
        stage=index,
    )


def _is_cold(stage: Stage, tables: Tables) -> bool:
    cold = tables.constant("cold_holding_maximum_f")
    return stage.place in COLD_PLACES or (stage.at is not None and stage.at.high.fahrenheit <= cold)


def _is_warm(stage: Stage, tables: Tables) -> bool:
    return not _is_cold(stage, tables) and (stage.at is not None or stage.place in WARM_PLACES)


def _most_min(stage: Stage, tables: Tables) -> Fraction:
    """The most minutes out of the cold, in the air of a stage."""
    is_hot = stage.at is not None and stage.at.high.fahrenheit > tables.constant("hot_air_f")
    return tables.constant("hot_air_most_h" if is_hot else "warm_most_h") * MIN_PER_H


def _is_own_process(stage: Stage, facts: Facts) -> bool:
    """Drying and ageing of cured meat over days, and a dryer that is hot."""
    if stage.at is not None and stage.at.low.fahrenheit >= HOT_F:
        return True
    long = stage.minutes is not None and stage.minutes.high >= CURED_DRYING_MIN
    return facts.recipe.cure is not None and stage.name in ("dry", "age") and long


def _out(index: int, stage: Stage, facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    if _is_cold(stage, tables):
        return []
    most, is_warm = _most_min(stage, tables), _is_warm(stage, tables)
    where = stage.place_written or "in a place that is not told"
    if stage.minutes is None:
        because = f"the meat lies {where} in '{stage.name}', and nothing says for how long"
        return cannot_tell("danger-hours", because, ("course",), tables, stage=index) if is_warm else []
    if stage.minutes.high <= most:
        return []
    length = minutes_words(int(stage.minutes.high))
    if not is_warm:
        because = f"the meat lies {where} for {length}, and nothing says how cold it is"
        return cannot_tell("danger-hours", because, ("course",), tables, stage=index)
    return contradict(
        "danger-hours",
        facts,
        tables,
        log,
        position=stage.position,
        message=f"The meat lies out of the cold for {length} in '{stage.name}'; {minutes_words(int(most))} is the most.",
        hint=f"Do it in the fridge, and write it: {stage.name}: {stage.length_written} in the fridge.",
        because=f"the meat lies out of the cold for {length} in '{stage.name}'",
        stage=index,
    )
