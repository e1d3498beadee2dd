"""A line of a recipe in, where it is fetched from out: freezer, garden, woods, smokehouse shelf, shop."""

from __future__ import annotations

from generator.compute.safety.facts.gather import animal_in
from generator.compute.safety.facts.plants import plants_in
from generator.model.recipe import Ingredient, Recipe
from generator.tables import Tables

FREEZER, GARDEN, WOODS, SHELF, SHOP = "freezer", "garden", "woods", "smokehouse shelf", "shop"
ON_HAND = "on hand"
"Of what is there already, where the place is not told."
PLACES = (FREEZER, "fridge", "shelf", ON_HAND, GARDEN, WOODS, SHELF, SHOP)
"In the order of the list."
GROWN = ("vegetable", "herb", "fruit")
"Kinds of words of food_words.csv that a kitchen garden grows."
KEPT = "kept"
"Words that say a thing came dried or in a jar."


def foraged_in(recipe: Recipe, tables: Tables) -> frozenset[str]:
    """Ids of the lines whose plant or fungus was gathered wild."""
    return frozenset(fact.line.id for fact in plants_in(recipe, (), tables) if fact.is_foraged)


def place_of(line: Ingredient, foraged: frozenset[str], tables: Tables) -> str:
    """Meat and game lie in the freezer; the garden has only what a table of words says it grows."""
    if line.id in foraged:
        return WOODS
    if tables.garden.says(line.name, KEPT):
        return SHOP
    if animal_in(line.name, tables) is not None:
        return FREEZER
    return GARDEN if any(tables.garden.says(line.name, kind) for kind in GROWN) else SHOP
