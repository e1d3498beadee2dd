"""Stages that leave meat out of the cold in; the refusal of too long, one by one and all together, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Met, Rule
from generator.compute.safety.facts.places import COLD, IN_WATER, ROOM
from generator.compute.safety.told import LONG_MIN, OUT_OF_COLD, OUT_OF_COLD_LONG
from generator.compute.safety.words import minutes_words, sentence_start
from generator.model.recipe import Stage

HOURS, LONG = OUT_OF_COLD, OUT_OF_COLD_LONG

OUT = frozenset(
    {
        *("trim", "rinse", "dry", "rest", "stuff", "grind", "chill", "turn", "soak", "age"),
        *("inject", "marinate", "mix", "press", "strain"),
    }
)
"Stages in which meat may lie out of the cold; a cure has a rule of its own. Source: words of the trade."
CURED_DRYING_MIN = 2 * 24 * 60
"As long a drying of cured meat is a process of its own. Source: house choice, two days."
HOT_F = Fraction(130)
"[degF] A dryer this hot heats the meat. Source: USDA FSIS, Jerky and Food Safety."
MIN_PER_H = Fraction(60)
"Source: a definition."


def danger_hours(case: Case) -> None:
    """Meat out of the cold: 2 hours in all, 1 hour above 90 °F; past 4 hours it is DANGER, which nobody accepts.

    Met, without a box. Cannot be told: no place, no length.
    """
    if case.recipe.meat is None and not case.facts.meats:
        return
    out = [
        (index, stage)
        for index, stage in enumerate(case.stages)
        if stage.name in OUT and not _is_own_process(stage, case) and not _is_cold(stage, case)
    ]
    # every one is judged; together they are counted only where none is too long by itself
    spoken = [_is_too_long(case, index, stage) for index, stage in out]
    if not any(spoken):
        _out_in_all(case, out)


def _is_too_long(case: Case, index: int, stage: Stage) -> bool:
    """One stage by itself: True where something was said of it."""
    most, is_warm = _most_min(stage, case), _is_warm(stage)
    where = f"the meat lies {stage.place_written or 'in a place that is not told'}"
    if stage.minutes is None:
        because = f"{where} in '{stage.title}', and nothing says for how long"
        if is_warm:
            case.cannot_tell(HOURS, because, ("course",), stage, _meat(case), stage=index)
        return is_warm
    if stage.minutes.high <= most:
        return False
    length = minutes_words(int(stage.minutes.high))
    if is_warm:
        _refuse(case, index, stage, length, minutes_words(int(most)))
    else:
        because = f"{where} for {length}, and nothing says how cold it is"
        case.cannot_tell(HOURS, because, ("course",), stage, _meat(case), stage=index)
    return True


def _meat(case: Case) -> Met:
    """The meat that lies there: the recipe's own, else the first of its lines."""
    return case.facts.meats[0] if case.facts.meats else case.recipe.meat or case.recipe


def _refuse(case: Case, index: int, stage: Stage, length: str, most: str) -> None:
    because = f"the meat lies out of the cold for {length} in '{stage.title}'"
    case.refuse(
        _slug(stage.minutes.high if stage.minutes is not None else LONG_MIN),
        stage,
        _meat(case),
        message=f"{sentence_start(because)}; {most} is the most.",
        hint=_in_the_fridge("it", stage),
        because=because,
        stage=index,
    )


def _slug(minutes: Fraction) -> str:
    return LONG if minutes > LONG_MIN else HOURS


def _in_the_fridge(what: str, stage: Stage) -> str:
    return f"Do {what} in the fridge, and write it: {stage.title}: {stage.length_written} in the fridge."


def _out_in_all(case: Case, out: list[tuple[int, Stage]]) -> None:
    """Stages that are short enough one by one, and together are not; heat begins the count anew."""
    warm = {index for index, stage in out if _is_warm(stage) and stage.minutes is not None}
    runs: list[list[int]] = [[]]
    for index, stage in enumerate(case.stages):
        if case.tables.stages.get(stage.name, False):
            runs.append([])
        if index in warm:
            runs[-1].append(index)
    for run in runs:
        spent = [case.stages[index] for index in run]
        if sum(_minutes(one) / _most_min(one, case) for one in spent) > 1:
            _refuse_in_all(case, run[-1], spent)
            return


def _minutes(stage: Stage) -> Fraction:
    return stage.minutes.high if stage.minutes is not None else Fraction(0)


def _refuse_in_all(case: Case, index: int, spent: list[Stage]) -> None:
    names = ", ".join(f"'{stage.title}'" for stage in spent)
    most = minutes_words(int(min(_most_min(stage, case) for stage in spent)))
    minutes = sum(map(_minutes, spent), Fraction(0))
    because = f"the meat lies out of the cold for {minutes_words(int(minutes))} in all, in {names}"
    case.refuse(
        _slug(minutes),
        # the last one is where the error stands
        *reversed(spent),
        _meat(case),
        message=f"{sentence_start(because)}; {most} is the most for all of them together.",
        hint=_in_the_fridge("one of them", spent[-1]),
        because=because,
        stage=index,
    )


def _is_cold(stage: Stage, case: Case) -> bool:
    cold = case.constant("cold_holding_maximum_f")
    return stage.place in COLD | IN_WATER or (stage.at is not None and stage.at.high.fahrenheit <= cold)


def _is_warm(stage: Stage) -> bool:
    """Of a stage that is not cold: whether it says so."""
    return stage.at is not None or stage.place in ROOM


def _most_min(stage: Stage, case: Case) -> Fraction:
    """The most minutes out of the cold, in the air of a stage."""
    is_hot = stage.at is not None and stage.at.high.fahrenheit > case.constant("hot_air_f")
    return case.constant("hot_air_most_h" if is_hot else "warm_most_h") * MIN_PER_H


def _is_own_process(stage: Stage, case: Case) -> bool:
    """Drying and ageing of cured meat over days, and a dryer that is hot."""
    if stage.at is not None and stage.at.low.fahrenheit >= HOT_F:
        return True
    long = stage.minutes is not None and stage.minutes.high >= CURED_DRYING_MIN
    return case.recipe.cure is not None and stage.name in ("dry", "age") and long


RULES = (Rule(slugs=(LONG, HOURS), look=danger_hours),)
