"""The course of a recipe and a moment in, the start and the end of each of its stages out.

Forwards from a start, or backwards from the moment when it must be ready. Ranges of length give an earliest and a
latest moment. Backwards the longer ends are taken, so that nobody is late. Whole minutes: the shorter end of a
length is rounded down, the longer one up.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor

from generator.model.moment import Moment, StageTime, Window, later
from generator.model.recipe import Recipe, Stage

NO_LENGTH = "no length is written"
ONLY_WORK = "no length is written: only its work is counted"


def is_timed(recipe: Recipe) -> bool:
    """True for a course, and for one that was read from a method where it tells every length."""
    read = recipe.read_course
    if read is None:
        return bool(recipe.stages)
    return recipe.course_read and read.is_whole and all(stage.minutes is not None for stage in recipe.stages)


def times_from(stages: Sequence[Stage], start: Moment) -> tuple[StageTime, ...]:
    """Every stage of a course that begins at a moment."""
    times: list[StageTime] = []
    low = high = 0
    for stage in stages:
        begins = _window(start, low, high)
        shorter, longer = stage_minutes(stage)
        low, high = low + shorter, high + longer
        ends = _window(start, low, high)
        times.append(StageTime(stage=stage.title, start=begins, end=ends, note=_note(stage)))
    return tuple(times)


def times_until(stages: Sequence[Stage], ready: Moment) -> tuple[StageTime, ...]:
    """Every stage of a course that must be over at a moment; its first start is the latest that is safe."""
    return times_from(stages, latest_start(stages, ready))


def latest_start(stages: Sequence[Stage], ready: Moment) -> Moment:
    """When a course begins at the latest, so that even its longest ends are over in time."""
    return later(ready, -sum(stage_minutes(stage)[1] for stage in stages))


def uncounted(stages: Sequence[Stage]) -> tuple[str, ...]:
    """Names of the stages that tell no length: the time they take comes on top."""
    return tuple(dict.fromkeys(stage.title for stage in stages if stage.minutes is None))


def stage_minutes(stage: Stage) -> tuple[int, int]:
    """The least and the most of a stage in whole minutes [min]: its length, else its work alone, else nothing."""
    length = stage.minutes or stage.hands_minutes
    # Down and up: a window that is a minute too wide makes nobody late.
    return (0, 0) if length is None else (floor(length.low), ceil(length.high))


def _window(start: Moment, low: int, high: int) -> Window:
    return Window(earliest=later(start, low), latest=later(start, high))


def _note(stage: Stage) -> str:
    if stage.minutes is not None:
        return ""
    return NO_LENGTH if stage.hands_minutes is None else ONLY_WORK
