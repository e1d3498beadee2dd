"""Meat that heats slowly in, in smoke or in a cool oven; how hot its air is and for how long it is warm, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import FISH, MeatFact
from generator.compute.safety.facts.meats import SMOKES
from generator.compute.safety.facts.pieces import MeatPiece, inches, meat_inside, pieces, thickest
from generator.compute.safety.words import at_least, both_scales, minutes_words
from generator.compute.transfer.heat import FAST_MM2_S, Surround, from_fahrenheit, minutes_to
from generator.model.recipe import Stage

AIR, WARM = "smoker-air", "come-up-time"

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


def smoker_air(case: Case) -> None:
    """Raw, uncured meat: air of at least 225 °F. Hotter air is never a fault here; cured meat and fish are not judged."""
    index, raw = case.facts.first_stage("hot smoke"), _uncured(case)
    if index is None or raw is None or _is_cooked_before(index, case):
        return
    stage, least = case.stages[index], case.constant("smoker_air_minimum_f")
    because = f"{raw.because}, raw and without a curing salt"
    if stage.at is None:
        case.cannot_tell(AIR, f"{because}, and the air is not told", ("course",), raw, stage=index)
    elif stage.at.low.fahrenheit >= least:
        case.box(AIR, because, raw, stage=index)
    else:
        air = f"in air of {both_scales(stage.at.low.fahrenheit)}"
        case.refuse(
            AIR,
            stage,
            raw,
            message=f"Raw meat without a curing salt is smoked {air}, below {at_least(least)}.",
            hint="Smoke it in hotter air: hot smoke: 4 h at 225–250 °F to 165 °F inside. Or cure it with a curing salt.",
            because=f"{because}, {air}",
            stage=index,
        )


def _uncured(case: Case) -> MeatFact | None:
    """The first meat of the recipe without a curing salt; fish has rules of its own."""
    if case.facts.nitrite:
        return None
    return next((meat for meat in case.facts.meats if meat.animal.group not in FISH), None)


def _is_cooked_before(index: int, case: Case) -> bool:
    enough = case.constant("cured_smoked_minimum_f")
    return any(
        case.tables.stages.get(stage.name, False)
        and stage.inside is not None
        and stage.inside.fahrenheit >= enough
        for stage in case.stages[:index]
    )


def come_up(case: Case) -> None:
    """From 50 to 130 °F inside: at most 6 hours, a box from 4. Hotter air only ever shortens it."""
    slow = _slow_stages(case)
    if _hangs_lukewarm(case) or not slow:
        return
    thick = thickest(pieces(case.facts, case.tables))
    hottest = max((stage for _, stage in slow if stage.at is not None), key=_air_f, default=None)
    fast = None if thick is None or hottest is None else _fastest_min(thick, hottest, case)
    if thick is not None and hottest is not None and fast is not None and fast > _most_min(case):
        _refuse_thick(case, slow[0][0], hottest, thick, fast)
    else:
        _judge_length(case, slow, is_told=thick is not None and _are_told(case))


def _are_told(case: Case) -> bool:
    """False where of one of several meats in whole pieces the thickness is not told: it may be the slowest."""
    own = (piece for piece in pieces(case.facts, case.tables) if piece.is_own and not piece.is_small)
    return all(piece.thickness_mm for piece in own)


def _most_min(case: Case) -> Fraction:
    return case.constant("come_up_most_h") * MIN_PER_H


def _judge_length(case: Case, slow: list[tuple[int, Stage]], *, is_told: bool) -> None:
    """By the length of the stages alone. A long one may be mostly above 130 °F: a box, where the thickness clears it."""
    index, stages = slow[0][0], [stage for _, stage in slow]
    met = (*stages, *(meat.written for meat in meat_inside(case.facts)[:1]))
    lengths = [stage.minutes.high for stage in stages if stage.minutes is not None]
    if len(lengths) < len(slow):
        because = "raw meat heats slowly, and nothing says for how long"
        case.cannot_tell(WARM, because, ("course",), *met, stage=index)
        return
    minutes = sum(lengths)
    because = (
        f"the meat heats slowly for up to {minutes_words(int(minutes))}; look at its middle after 4 hours"
    )
    if minutes > _most_min(case) and not is_told:
        case.cannot_tell(WARM, because, ("meat.thickness",), *met, stage=index)
    elif minutes > case.constant("come_up_warn_h") * MIN_PER_H:
        case.box(WARM, because, *met, stage=index)


def _hangs_lukewarm(case: Case) -> bool:
    """Smoke whose air itself is between 50 and 130 °F, around raw meat without a curing salt: never for over 6 hours.

    True where something was said of it.
    """
    low, high = case.constant("come_up_from_f"), case.constant("come_up_to_f")
    raw = _uncured(case)
    found = [
        (index, stage)
        for index, stage in enumerate(case.stages)
        if stage.name in SMOKES and low < _air_f(stage) <= high
    ]
    if not found or raw is None:
        return False
    index, stages = found[0][0], [stage for _, stage in found]
    because = f"{raw.because}, without a curing salt, in lukewarm smoke"
    lengths = [stage.minutes.high for stage in stages if stage.minutes is not None]
    if len(lengths) < len(stages):
        case.cannot_tell(WARM, because, ("course",), *stages, raw, stage=index)
        return True
    if sum(lengths) <= _most_min(case):
        return False
    case.refuse(
        WARM,
        *stages,
        raw,
        message=f"Raw meat without a curing salt hangs for {minutes_words(int(sum(lengths)))} in smoke of at most "
        f"{both_scales(high)}; 6 hours are the most.",
        hint="Smoke it hotter or for a shorter time, or cure it with a curing salt.",
        because=because,
        stage=index,
    )
    return True


def _slow_stages(case: Case) -> list[tuple[int, Stage]]:
    """The slow heating of raw meat: the first stages of heat, as long as they are slow."""
    slow: list[tuple[int, Stage]] = []
    if not (case.facts.meats or case.facts.raw_components):
        return slow
    for index, stage in enumerate(case.stages):
        if not case.tables.stages.get(stage.name, False):
            continue
        is_slow = stage.name == "hot smoke" or (stage.at is not None and _air_f(stage) < SLOW_AIR_F)
        if not (is_slow and stage.name in SLOW_HEAT):
            break
        slow.append((index, stage))
    return slow


def _air_f(stage: Stage) -> Fraction:
    return stage.at.high.fahrenheit if stage.at is not None else Fraction(0)


def _fastest_min(piece: MeatPiece, stage: Stage, case: Case) -> float | None:
    """Minutes of the fast case. None where the air itself is not hotter than 130 °F, which is a rule of its own."""
    if piece.is_small:
        return None
    start, end = (from_fahrenheit(case.constant(key)) for key in ("come_up_from_f", "come_up_to_f"))
    air = from_fahrenheit(_air_f(stage))
    if air <= end:
        return None
    around = Surround(outside_c=air, h=FAST_AIR_H, diffusivity_mm2_s=FAST_MM2_S)
    return minutes_to(piece.body(fast=True), around, start_c=start, target_c=end) or float("inf")


def _refuse_thick(case: Case, index: int, stage: Stage, piece: MeatPiece, fast: float) -> None:
    air, thick = both_scales(_air_f(stage)), inches(piece.thickness_mm or 0)
    soonest = (
        "after more than a week" if fast == float("inf") else f"in {minutes_words(int(fast))} at the soonest"
    )
    case.refuse(
        WARM,
        stage,
        piece.written,
        message=f"In air of {air} the middle of a piece {thick} thick comes to 130 °F (54 °C) {soonest}, by an "
        "estimate; 6 hours are the most.",
        hint=WAYS_OUT,
        because=f"the piece is {thick} thick, in air of {air}",
        stage=index,
    )


RULES = (
    Rule(slugs=(AIR,), look=smoker_air),
    Rule(slugs=(WARM,), look=come_up),
)
