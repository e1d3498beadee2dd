"""A ground cure in, the fat and the raw meat among its ingredients, which it does not count, out: each is told."""

from __future__ import annotations

from generator.compute.meat.cut import cut_class
from generator.compute.safety.facts.animals import animal_in
from generator.model.published import PORK_FAT
from generator.model.quantity import Dimension
from generator.model.recipe import Ingredient, Meat, Recipe
from generator.problems import ProblemLog
from generator.tables import Tables

FAT = frozenset({"fat", "fats", "fatback", "backfat", "suet", "lard", "tallow"})
"Last words of what is fat. Source: words of the trade."


def tell_uncounted(recipe: Recipe, tables: Tables, log: ProblemLog) -> tuple[str, ...]:
    """A warning for each, with the lines to write; and the line that a page says of it."""
    found = _uncounted(recipe, tables)
    for line in found:
        log.add(
            "meat-not-counted",
            line.position,
            f"'{line.name}' is ground with the meat, and the cure is worked out without it: too little salt for all of it.",
            f"Delete the line, and write `meat:` as a list: {_as_list(recipe, line, tables)}.",
        )
    names = " and ".join(line.name for line in found)
    return (f"The cure does not count the {names}: it stands among the ingredients.",) if found else ()


def _uncounted(recipe: Recipe, tables: Tables) -> list[Ingredient]:
    """By weight alone: a spoon of lard fries, a pound of it is ground."""
    if recipe.cure is None or not recipe.meats or cut_class(recipe, tables) != "ground":
        return []
    return [line for line in recipe.ingredients if _is_weighed(line) and _is_meat(line, tables)]


def _is_weighed(line: Ingredient) -> bool:
    quantity = line.quantity
    return line.link is None and quantity is not None and quantity.total(Dimension.WEIGHT) is not None


def _is_meat(line: Ingredient, tables: Tables) -> bool:
    return line.name.lower().split()[-1] in FAT or animal_in(line.name, tables) is not None


def _as_list(recipe: Recipe, line: Ingredient, tables: Tables) -> str:
    return " and ".join(f"`- {one}`" for one in (*map(_written, recipe.meats), _of_its_animal(line, tables)))


def _written(meat: Meat) -> str:
    weight = meat.weight.written if meat.weight is not None else ""
    return f"{weight} {meat.name}{f', {meat.preparation}' if meat.preparation else ''}".strip()


def _of_its_animal(line: Ingredient, tables: Tables) -> str:
    """The line, with an animal before a fat that does not name one."""
    assert line.quantity is not None
    name = line.name.lower()
    named = any(one.kind == "animal" for one in tables.lexicon.find(name, whole=True)) or name in PORK_FAT
    animal = "" if named else "beef " if "suet" in name or "tallow" in name else "pork "
    return f"{line.quantity.written} {animal}{line.name}"
