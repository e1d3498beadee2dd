"""A laid course in; the daily turning of what lies in a brine out."""

from __future__ import annotations

from dataclasses import dataclass

from generator.compute.gathering.laid import Course, Given
from generator.compute.gathering.lengths import DAY
from generator.model.recipe import Recipe, Stage

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
    recipe = given.book.recipes[course.slug]
    return tuple(
        Turn(start=at, end=at + TURN_MIN, day=day, place=one.stage.place_written)
        for one in course.stages
        for day, at in enumerate(turn_starts(recipe, one.stage, one.start, one.end), 1)
    )


def turn_starts(recipe: Recipe, stage: Stage, start: int, end: int) -> range:
    """Of one stage; none where it is no cure in a brine."""
    is_brine = recipe.cure is not None and recipe.cure.method == "brine"
    return range(start + DAY, end if is_brine and stage.name == "cure" else start, DAY)
