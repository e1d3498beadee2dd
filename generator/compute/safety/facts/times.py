"""The stages of a recipe in, how long it cures, equalises, dries or ages out, in days."""

from __future__ import annotations

from collections.abc import Callable, Collection
from fractions import Fraction

from generator.model.quantity import Span
from generator.model.recipe import Recipe, Stage

DAY_MIN = Fraction(1440)
"Source: minutes in a day, a definition."


def stages_named(recipe: Recipe, names: Collection[str]) -> list[Stage]:
    """The stages of these names, in order."""
    return [stage for stage in recipe.stages if stage.name in names]


def days_in(
    recipe: Recipe, names: Collection[str], counts: Callable[[Stage], bool] = lambda stage: True
) -> Span | None:
    """Days of all stages of these names together, without those that do not count.

    None where one that counts has no length: the time cannot be told. No such stage is no time at all.
    """
    total = Span.of(0)
    for stage in stages_named(recipe, names):
        if not counts(stage):
            continue
        if stage.minutes is None:
            return None
        total = total.plus(stage.minutes.times(1 / DAY_MIN))
    return total


def last_stage(recipe: Recipe, names: Collection[str]) -> int | None:
    """Index of the last stage of these names."""
    found = [index for index, stage in enumerate(recipe.stages) if stage.name in names]
    return found[-1] if found else None
