"""A laid course in; the daily turning of what lies in a brine out."""

from __future__ import annotations

from dataclasses import dataclass

from generator.compute.gathering.laid import Course, Given
from generator.compute.gathering.lengths import DAY

TURN_MIN = 5
"[min] of work. Source: common practice, no source."


@dataclass(frozen=True, slots=True, kw_only=True)
class Turn:
    """One turning."""

    start: int
    end: int
    day: int
    "Of the cure; the first is a day after it began."
    place: str


def turns(given: Given, course: Course) -> tuple[Turn, ...]:
    """Every 24 h after a cure in a brine began, as long as it lasts."""
    cure = given.book.recipes[course.slug].cure
    if cure is None or cure.method != "brine":
        return ()
    return tuple(
        Turn(start=at, end=at + TURN_MIN, day=day, place=one.stage.place_written)
        for one in course.stages
        if one.stage.name == "cure"
        for day, at in enumerate(range(one.start + DAY, one.end, DAY), 1)
    )
