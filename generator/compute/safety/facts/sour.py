"""What lies in vinegar or ferments in; whether it is a preserve, which its acid or its salt must keep, out."""

from __future__ import annotations

from collections.abc import Collection
from fractions import Fraction

from generator.compute.safety.facts.times import DAY_MIN
from generator.model.recipe import Ingredient, Recipe, Stage
from generator.tables.garden import spaced

RISES_OR_SETS = frozenset({"flour", "yeast", "milk", "yogurt"})
"Words of what ferments without being kept by salt: dough, drink, yogurt. Source: house choice."
A_MEAL_DAYS = Fraction(4)
"Pickles kept no longer than this are a salad, not a preserve. Source: fridge life of cooked leftovers, 3 to 4 days."


def lines_with(recipe: Recipe, words: Collection[str]) -> list[Ingredient]:
    """The lines whose names have one of these words."""
    return [line for line in recipe.ingredients if not set(words).isdisjoint(spaced(line.name).split())]


def rises_or_sets(recipe: Recipe) -> bool:
    """A dough, a drink or yogurt: its salt does not keep it."""
    return bool(lines_with(recipe, RISES_OR_SETS))


def is_kept(stage: Stage, recipe: Recipe) -> bool:
    """False for an hour's onions that are eaten within days."""
    if stage.minutes is None or stage.minutes.high > DAY_MIN:
        return True
    jarred = any(later.name == "jar" for later in recipe.stages)
    return jarred or any(keep.place != "freezer" and keep.days.high > A_MEAL_DAYS for keep in recipe.keep)
