"""A recipe in, the tested time of what is in its jars out: of one food, or of a mixture the longest of any part."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.safety.facts.acid import low_acid_lines, own_lines
from generator.compute.safety.facts.gather import FISH, Facts
from generator.compute.safety.facts.meats import is_ground, is_smoked
from generator.model.recipe import Ingredient, Recipe
from generator.tables import Tables
from generator.tables.garden import CanningTime, Names, spaced

BIRDS_AND_SMALL = frozenset({"poultry", "small game", "upland bird", "waterfowl"})
MEATS = frozenset({"bear", "deer family", "domestic", "wild pig", "other game"})
"Groups that the table has times for, by their kinds."
LIQUID = frozenset({"water", "stock", "broth"})
"A soup is half solids and half of these. Source: Michigan State University Extension 01600886."
FLAVOUR = frozenset({"garlic", "garlic scapes"})
"Beside another food they have no time of their own. Source: house choice."
CUBES = frozenset({"cubed", "cubes", "diced", "chunks", "cut"})
"Pumpkin has a time in cubes alone. Source: USDA AIB 539."
WILD = frozenset({"wild", "foraged"})
"The time for mushrooms is for those of a farm. Source: Michigan State University Extension 01600287."


@dataclass(frozen=True, slots=True, kw_only=True)
class Tested:
    """Tested minutes in a pressure canner."""

    title: str
    pint_min: Fraction | None
    quart_min: Fraction | None
    packs: tuple[str, ...]
    is_from_memory: bool
    untold: str = ""
    "What the lines do not tell, though the time hangs on it."

    def minutes(self, pints: Fraction) -> Fraction | None:
        """For a jar of so many pints; a smaller jar has the time of the pint, a larger one than a quart has none."""
        if pints <= 1:
            return self.pint_min
        return self.quart_min if pints <= 2 else None


def tested(facts: Facts, tables: Tables) -> Tested | None:
    """None where a part has no tested time that is known here."""
    rows = _rows(facts, tables)
    if not rows:
        return None
    quarts = [row.quart_min for row in rows]
    packs = [pack for pack in rows[0].packs if all(pack in row.packs for row in rows)]
    longest = "; the longest time of any part" if len(rows) > 1 else ""
    return Tested(
        title=f"{', '.join(row.title for row in rows)}{longest}",
        pint_min=max(row.pint_min or Fraction(0) for row in rows),
        quart_min=max((one for one in quarts if one is not None), default=None)
        if None not in quarts
        else None,
        packs=tuple(packs) or ("hot",),
        is_from_memory=any(row.certainty == "from memory" for row in rows),
        untold=_untold(facts.recipe, rows, tables),
    )


def is_stock(recipe: Recipe, tables: Tables) -> bool:
    """By its name."""
    return bool(tables.garden.says(recipe.name, "stock"))


def _rows(facts: Facts, tables: Tables) -> tuple[CanningTime, ...]:
    """Every part's row; nothing where a part has none, or where nothing is known for certain."""
    recipe, times = facts.recipe, tables.garden.canning
    if is_stock(recipe, tables):
        return (times["stock"],)
    low = low_acid_lines(recipe, tables)
    if _is_chili(facts, tables):
        return (times["chili"],)
    if _is_soup(facts, low):
        return () if any(meat.animal.group in FISH for meat in facts.meats) else (times["soup"],)
    keys = [*_meat_keys(facts), *_plant_keys(low, tables, has_meat=bool(facts.meats))]
    return tuple(times[key] for key in dict.fromkeys(keys)) if keys and "" not in keys else ()


def _is_chili(facts: Facts, tables: Tables) -> bool:
    names = Names.of(tables.garden.canning["chili"].names)
    return bool(facts.meats) and bool(names.first_in(facts.recipe.name))


def _is_soup(facts: Facts, low: Sequence[Ingredient]) -> bool:
    if "soup" in facts.recipe.name.lower().split():
        return True
    wet = any(LIQUID & set(spaced(line.name).split()[-1:]) for line in own_lines(facts.recipe))
    return bool(facts.meats and low) and wet


def _meat_keys(facts: Facts) -> list[str]:
    groups, recipe = {meat.animal.group for meat in facts.meats}, facts.recipe
    if not groups:
        return []
    if groups == {"fish"}:
        return [_of_fish(facts)]
    if groups <= MEATS:
        return ["ground meat" if any(is_ground(meat, recipe) for meat in facts.meats) else "meat"]
    if groups <= BIRDS_AND_SMALL:
        with_bones = any(meat.bone == "in" for meat in recipe.meats)
        return [f"poultry or rabbit {'with' if with_bones else 'without'} bones"]
    return [""]


def _of_fish(facts: Facts) -> str:
    if is_smoked(facts.recipe):
        return "smoked fish"
    tuna = any(meat.animal.key == "tuna" for meat in facts.meats)
    return "" if tuna or facts.recipe.cure is not None else "fish"


def _plant_keys(low: Sequence[Ingredient], tables: Tables, *, has_meat: bool) -> list[str]:
    found = [_plant_key(line, tables) for line in low]
    rest = [key for key in found if key != "garlic"]
    return rest if rest or has_meat else [""] * bool(found)


def _plant_key(line: Ingredient, tables: Tables) -> str:
    """The row that has the word of the line; empty where none has, `garlic` for what only flavours."""
    garden = tables.garden
    words = garden.words["seasoning"].cut_from(line.name)
    word = garden.canned_plants.first_in(words)
    if word in FLAVOUR:
        return "garlic"
    if garden.says(words, "greens") == word:
        return "greens"
    row = garden.canned_by_name.get(word)
    is_wild = row is not None and row.food == "mushrooms" and WILD & set(spaced(line.name).split())
    return "" if row is None or is_wild else row.food


def _untold(recipe: Recipe, rows: Sequence[CanningTime], tables: Tables) -> str:
    if not any(row.food == "pumpkin" for row in rows):
        return ""
    pumpkins = [line for line in low_acid_lines(recipe, tables) if _plant_key(line, tables) == "pumpkin"]
    cut = all(CUBES & set(spaced(f"{line.name} {line.preparation}").split()) for line in pumpkins)
    return "" if cut else "the pumpkin is not said to be in cubes, and mashed it has no time"
