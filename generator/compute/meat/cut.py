"""A recipe in, the class of its cut out, by which its limit for nitrite is chosen: whole, ground or belly."""

from __future__ import annotations

import re

from generator.model.published import Animal
from generator.model.recipe import Meat, Recipe
from generator.tables import Tables

GROUND_WORDS = frozenset({"ground", "mince", "minced", "burger", "burgers", "sausage", "sausages", "chopped"})
"Words of a cut that say that it is ground. Source: words of the trade."
GROUND_STAGES = frozenset({"grind", "stuff"})
"Stages that only ground meat goes through."


def cut_class(recipe: Recipe, tables: Tables) -> str:
    """Which limit applies: of several meats that of the piece whose limit is lowest under this method."""
    land = [meat for meat in recipe.meats if fish_of(meat, tables) is None]
    classes = [class_of(meat, recipe, tables) for meat in land or recipe.meats]
    if not classes:
        return "ground" if _grinds(recipe) else "whole"
    method = recipe.cure.method if recipe.cure is not None else "dry"
    # Of equals the belly, which is counted without its skin and may have no nitrate.
    return min(classes, key=lambda cut: (tables.limit(cut, method).limit_ppm, cut != "belly"))


def fish_of(meat: Meat, tables: Tables) -> Animal | None:
    """The animal of a meat, where it is a fish."""
    animal = tables.animal(meat.animal)
    return animal if animal is not None and animal.group in ("fish", "shellfish") else None


def belly_of(recipe: Recipe, tables: Tables) -> tuple[Meat, ...]:
    """The meats that are belly: whatever the limit is, they may have no nitrate, and count without their skin."""
    land = (meat for meat in recipe.meats if fish_of(meat, tables) is None)
    return tuple(meat for meat in land if class_of(meat, recipe, tables) == "belly")


def has_belly(recipe: Recipe, tables: Tables) -> bool:
    """True where the meat, or one of several, is belly."""
    return bool(belly_of(recipe, tables))


def is_mixed_through(recipe: Recipe) -> bool:
    """All of it is ground, by its form or, of several meats, by a stage that comes before any time in the cure."""
    if recipe.meats and all(meat.form == "ground" for meat in recipe.meats):
        return True
    names = [stage.name for stage in recipe.stages]
    return bool(recipe.several_meats) and "grind" in names and "cure" not in names[: names.index("grind")]


def _grinds(recipe: Recipe) -> bool:
    return any(stage.name in GROUND_STAGES for stage in recipe.stages)


def class_of(meat: Meat, recipe: Recipe, tables: Tables) -> str:
    """The class of one meat, by what is stricter to assume: ground by form, name or stage before belly by name."""
    if _grinds(recipe):
        return "ground"
    words = re.findall(r"[a-z]+", meat.cut.lower())
    if meat.form == "ground" or GROUND_WORDS.intersection(words):
        return "ground"
    return "belly" if any(tables.product(word) == "belly" for word in words) else "whole"
