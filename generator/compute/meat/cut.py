"""A recipe in, the class of its cut out, by which its limit for nitrite is chosen: whole, ground or belly."""

from __future__ import annotations

import re

from generator.model.recipe import Recipe
from generator.tables import Tables

GROUND_WORDS = frozenset({"ground", "mince", "minced", "burger", "burgers", "sausage", "sausages", "chopped"})
"Words of a cut that say that it is ground. Source: words of the trade."
GROUND_STAGES = frozenset({"grind", "stuff"})
"Stages that only ground meat goes through."


def cut_class(recipe: Recipe, tables: Tables) -> str:
    """Which limit applies, by what is stricter to assume: ground by form, name or stage before belly by name."""
    meat = recipe.meat
    words = re.findall(r"[a-z]+", meat.cut.lower()) if meat is not None else []
    if (meat is not None and meat.form == "ground") or GROUND_WORDS.intersection(words):
        return "ground"
    if any(stage.name in GROUND_STAGES for stage in recipe.stages):
        return "ground"
    return "belly" if any(tables.product(word) == "belly" for word in words) else "whole"
