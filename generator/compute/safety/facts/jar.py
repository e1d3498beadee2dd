"""A recipe in, what it seals in a jar out: how, how large, low in acid or not, cured or not."""

from __future__ import annotations

from dataclasses import dataclass

from generator.compute.safety.facts.gather import FISH, Facts
from generator.compute.safety.facts.heat import is_hot_jar
from generator.compute.safety.facts.meats import SMOKES, is_ground, is_smoked
from generator.compute.safety.facts.pieces import Inside
from generator.compute.safety.facts.times import stages_named
from generator.model.recipe import Ingredient, Recipe, Stage
from generator.tables import Tables

CANNERS = ("pressure canner", "water bath")
SIZES = {"us_pint": "pint", "us_quart": "quart"}
BIRDS_AND_SMALL = frozenset({"poultry", "small game", "upland bird", "waterfowl"})
MEATS = frozenset({"bear", "deer family", "domestic", "wild pig", "other game"})
"Groups that the table has times for, by their kinds."


@dataclass(frozen=True, slots=True, kw_only=True)
class Jar:
    """A jar that is sealed from the air."""

    stage: Stage
    index: int
    method: str
    "pressure canner, water bath, or empty where the course does not say."
    size: str
    "pint, quart, or empty."
    food: str
    "Key of canning.csv, or empty where no tested time is known."
    low_acid: Inside | None
    "What makes it low in acid; None where nothing does, or where it is pickled in acid."
    cured: Inside | None
    "What is cured, brined or smoked."
    thickener: Ingredient | None


def jar_of(facts: Facts, tables: Tables) -> Jar | None:
    """The first sealing of a recipe. A jar in the fridge is not sealed."""
    recipe = facts.recipe
    for index, stage in enumerate(recipe.stages):
        if _seals(stage, recipe):
            return Jar(
                stage=stage,
                index=index,
                method=stage.place if stage.place in CANNERS else "",
                size=_size(recipe),
                food=_food(facts, tables),
                low_acid=_low_acid(facts, tables),
                cured=_cured(facts, tables),
                thickener=_line_with(recipe, "thickener", tables),
            )
    return None


def _seals(stage: Stage, recipe: Recipe) -> bool:
    """`jar` anywhere but in the cold; a canner; a jar for the shelf."""
    if stage.place in CANNERS or is_hot_jar(stage):
        return True
    on_shelf = any(keep.place == "shelf" for keep in recipe.keep)
    return stage.name == "pack" and stage.place == "jar" and on_shelf


def _size(recipe: Recipe) -> str:
    """By what the recipe makes: 6 pints."""
    if recipe.makes is None:
        return ""
    keys = {measure.unit.key for measure in recipe.makes.quantity.measures}
    return SIZES.get(keys.pop(), "") if len(keys) == 1 else ""


def _names(recipe: Recipe) -> list[str]:
    return [line.name for line in recipe.ingredients if line.link is None]


def _line_with(recipe: Recipe, kind: str, tables: Tables) -> Ingredient | None:
    own = (line for line in recipe.ingredients if line.link is None)
    return next((line for line in own if tables.garden.says(line.name, kind)), None)


def _cured(facts: Facts, tables: Tables) -> Inside | None:
    """The recipe's own cure or smoke, that of a component, or a line that says so."""
    for recipe in (facts.recipe, *facts.parts):
        smokes = stages_named(recipe, SMOKES)
        has_meat = recipe.meat is not None or (recipe is facts.recipe and bool(facts.meats))
        if recipe.cure is not None or (smokes and has_meat):
            what = recipe.meat.name if recipe.meat is not None else recipe.name
            written = facts.brought_by.get(recipe.slug) or recipe.cure or smokes[0]
            return Inside(because=f"{what} is {'smoked' if smokes else 'cured'}", written=written)
    return _as_ingredient(_line_with(facts.recipe, "cured", tables))


def _as_ingredient(line: Ingredient | None) -> Inside | None:
    return Inside(because=f"{line.name} is an ingredient", written=line) if line is not None else None


def _low_acid(facts: Facts, tables: Tables) -> Inside | None:
    """Meat and stock always; vegetables unless they are pickled in acid: a spoon of vinegar in a stew is none."""
    if facts.meats:
        return Inside(because=facts.meats[0].because, written=facts.meats[0])
    for part in facts.parts:
        if part.meat is not None or _line_with(part, "stock", tables):
            return Inside(because=f"{part.name} is in it", written=facts.brought_by[part.slug])
    stock = _line_with(facts.recipe, "stock", tables)
    if stock is not None or _is_stock(facts.recipe, tables):
        brings = stock or facts.recipe
        return Inside(because=f"{brings.name} is in it", written=brings)
    plant = _line_with(facts.recipe, "low acid", tables) or _line_with(facts.recipe, "greens", tables)
    is_sour = facts.first_stage("pickle") is not None and _line_with(facts.recipe, "acid", tables) is not None
    return None if is_sour else _as_ingredient(plant)


def _is_stock(recipe: Recipe, tables: Tables) -> bool:
    return bool(tables.garden.says(recipe.name, "stock"))


def _food(facts: Facts, tables: Tables) -> str:
    """The row of canning.csv that a recipe falls under; nothing where it falls under none for certain."""
    recipe, meats = facts.recipe, facts.meats
    if _is_stock(recipe, tables):
        return "stock"
    vegetables = [name for name in _names(recipe) if tables.garden.says(name, "low acid")]
    is_soup = "soup" in recipe.name.lower().split()
    if (meats and vegetables) or is_soup:
        return "" if any(meat.animal.group in FISH for meat in meats) else "soup"
    groups = {meat.animal.group for meat in meats}
    if groups == {"fish"}:
        return _of_fish(facts)
    if groups and groups <= MEATS:
        return "ground meat" if any(is_ground(meat, recipe) for meat in meats) else "meat"
    if groups and groups <= BIRDS_AND_SMALL:
        with_bones = recipe.meat is not None and recipe.meat.bone == "in"
        return f"poultry or rabbit {'with' if with_bones else 'without'} bones"
    greens = _line_with(recipe, "greens", tables)
    return "greens" if greens and not meats and len(vegetables) == 0 else ""


def _of_fish(facts: Facts) -> str:
    if is_smoked(facts.recipe):
        return "smoked fish"
    tuna = any(meat.animal.key == "tuna" for meat in facts.meats)
    return "" if tuna or facts.recipe.cure is not None else "fish"
