"""A stage and the minutes counted for it in, what else it may take so that nobody gets up for it, out.

Only what lies in the fridge can: a thaw may begin sooner, and a stage with a written range may be over sooner. Cooling,
chilling and holding hot are clocks of safety: they are as counted.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil

from generator.compute.gathering.keeping import cold_keep, most
from generator.compute.gathering.laid import FRIDGE, Given
from generator.compute.gathering.lengths import DAY, HOUR, Length
from generator.compute.safety.facts.cure_days import hold, rules_for
from generator.model.recipe import Recipe, Stage

STEP = 30
"[min] Source: house choice."
NIGHT = 10 * HOUR
"""[min] Sooner a thaw never begins: what thawed in the fridge keeps a day at the least. Source: University of Maryland
Extension, University of Illinois Extension: ground meat, poultry and fish 1 to 2 days, pieces of red meat 3 to 5."""
RESTING = frozenset({"cure", "equalise", "dry", "soak", "age", "rest", "pickle", "infuse"})
"Stages that lie in the fridge for as long as is written. Source: words of the trade."
CURES = frozenset({"cure", "equalise"})
"Stages whose days are published."


def course_choices(given: Given, slug: str) -> tuple[tuple[int, ...], ...]:
    """For each stage of a recipe, the minutes that it may take, those that are counted first."""
    recipe = given.book.recipes[slug]
    pairs = zip(recipe.stages, given.lengths[slug], strict=True)
    return tuple(_choices(given, recipe, stage, length) for stage, length in pairs)


def _choices(given: Given, recipe: Recipe, stage: Stage, length: Length) -> tuple[int, ...]:
    counted = length.minutes
    if length.is_unknown:
        return (counted,)
    if stage.name == "thaw" and stage.place in ("", FRIDGE):
        taken = (use.component for use in given.book.uses_of(recipe.slug))
        return tuple(counted + sooner for sooner in thaw_choices(given, taken))
    least = _least(given, recipe, stage, counted) if _rests(stage) else counted
    # Within a day it can end at every hour of the clock.
    return tuple(range(counted, max(least, counted - DAY) - 1, -STEP))


def thaw_choices(given: Given, components: Iterable[str]) -> tuple[int, ...]:
    """How much sooner a thaw may begin: no more than what is thawed keeps unfrozen."""
    keeps = [cold_keep(given.book.recipes[slug]) for slug in components]
    bound = min((NIGHT, *(most(keep) for keep in keeps if keep is not None)))
    return tuple(range(0, bound + 1, STEP))


def _rests(stage: Stage) -> bool:
    """It lies in the fridge, and nothing but the clock says when it is over."""
    return stage.place == FRIDGE and stage.name in RESTING and not stage.until and stage.inside is None


def _least(given: Given, recipe: Recipe, stage: Stage, counted: int) -> int:
    """The shorter end of what is written; of a cure only where no published time asks for more than that."""
    if stage.minutes is None or (stage.name in CURES and not _is_long_enough(given, recipe)):
        return counted
    return min(counted, ceil(stage.minutes.low))


def _is_long_enough(given: Given, recipe: Recipe) -> bool:
    tables, meat = given.kitchen.tables, recipe.meat
    if meat is None:
        return False
    held = [hold(rule, recipe, meat, tables) for rule in rules_for(recipe, tables)]
    return bool(held) and all(one.is_told and not one.is_longer for one in held)
