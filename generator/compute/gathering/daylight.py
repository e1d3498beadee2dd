"""A plan in; components moved earlier, so that as little hand work as can be begins at night, out."""

from __future__ import annotations

from collections.abc import Iterable

from generator.compute.gathering.kit import SMOKES
from generator.compute.gathering.laid import Course, Given, Laid, LaidStage, lay_out
from generator.compute.gathering.lengths import DAY, HOUR
from generator.compute.gathering.slack import movable, moved
from generator.compute.gathering.smokes import Groups
from generator.compute.gathering.turning import turns

FROM_H, TO_H = 7, 21
"Hours by the local clock in which hand work begins. Source: house choice."
STEP = 30
"[min] Source: house choice."
WORK = frozenset({"trim", "rinse", "turn", "pack", "grind", "stuff", "jar"}) | SMOKES
"Stages that begin with somebody's hands; a smoke is lit. Source: words of the trade."


def by_daylight(given: Given, earlier: dict[str, int], groups: Groups) -> dict[str, int]:
    """What is moved already stays together; each component, or group of them, moves by the least that helps most."""
    done: set[str] = set()
    for slug in movable(given):
        group = next((one for one in groups if slug in one), frozenset((slug,)))
        is_last = not (group - done - {slug})
        done.add(slug)
        if is_last and group <= set(movable(given)):
            earlier = _best(given, earlier, group)
    return earlier


def _best(given: Given, earlier: dict[str, int], group: frozenset[str]) -> dict[str, int]:
    before = lay_out(given, earlier)
    best, fewest = earlier, nights(given, before, group)
    for by in range(STEP, DAY, STEP):
        if not fewest:
            break
        tried = earlier | {slug: earlier.get(slug, 0) + by for slug in group}
        after = moved(given, before, tried)
        if after is not None and nights(given, after, group) < fewest:
            best, fewest = tried, nights(given, after, group)
    return best


def nights(given: Given, laid: Laid, slugs: Iterable[str]) -> int:
    """How many starts of hand work there are at night."""
    starts = (start for slug in slugs for start in _starts(given, laid.courses[slug]))
    return sum(not is_day(given, start) for start in starts)


def _starts(given: Given, course: Course) -> list[int]:
    turned = [turn.start for turn in turns(given, course)]
    return [one.start for one in course.stages if is_work(one)] + turned


def is_work(one: LaidStage) -> bool:
    """It begins with somebody's hands."""
    return one.stage.name in WORK or one.stage.hands_minutes is not None


def is_day(given: Given, minutes: int) -> bool:
    """From 07:00 until before 21:00 by the local clock."""
    moment = given.moment(minutes)
    return FROM_H * HOUR <= moment.hour * HOUR + moment.minute < TO_H * HOUR
