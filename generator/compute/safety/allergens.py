"""A recipe and its components in, the line that says which allergens its ingredients name out."""

from __future__ import annotations

from generator.compute.safety.facts.gather import Facts
from generator.model.recipe import Recipe
from generator.tables import Tables

SHELLFISH = {"crayfish": "crustaceans", "clam": "molluscs", "mussel": "molluscs"}
"Animals of the group shellfish. Source: zoology."


def allergen_line(facts: Facts, tables: Tables) -> list[str]:
    """`Contains milk, wheat.` By the names of United States and European law; components count."""
    found = dict.fromkeys(
        allergen for recipe in (facts.recipe, *facts.parts) for allergen in allergens_of(recipe, tables)
    )
    return [f"Contains {', '.join(sorted(found))}, as far as the ingredients' names tell."] if found else []


def allergens_of(recipe: Recipe, tables: Tables) -> list[str]:
    """Of one recipe's own meat and lines."""
    found = _of_animal(recipe.meat.animal if recipe.meat else "", tables)
    for line in recipe.ingredients:
        if line.link is None:
            found += tables.garden.allergens_in(line.name)
            found += _of_line(line.name, tables)
    return found


def _of_line(name: str, tables: Tables) -> list[str]:
    """Fish by the name of its kind: 1 lb walleye."""
    padded = f" {tables.garden.without_plants(name)} "
    for spelling in tables.animal_spellings:
        if f" {spelling} " in padded:
            return _of_animal(spelling, tables)
    return []


def _of_animal(name: str, tables: Tables) -> list[str]:
    animal = tables.animal(name) if name else None
    if animal is None:
        return []
    if animal.group == "fish":
        return ["fish"]
    return [SHELLFISH[animal.key]] if animal.key in SHELLFISH else []
