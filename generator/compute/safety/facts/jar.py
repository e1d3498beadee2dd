"""A recipe in, what it seals in a jar out: how, how large, low in acid or not, cured or not."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.safety.facts.acid import (
    Sour,
    how_sour,
    is_called_pickle,
    low_acid_lines,
    own_lines,
    says,
)
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.heat import CANNERS, MOVES, is_hot_jar
from generator.compute.safety.facts.jar_food import Tested, is_stock, tested
from generator.compute.safety.facts.meats import SMOKES
from generator.compute.safety.facts.pieces import Inside
from generator.compute.safety.facts.times import stages_named
from generator.model.quantity import Dimension
from generator.model.recipe import Ingredient, Recipe, Stage
from generator.tables import Tables
from generator.tables.garden import spaced

SIZES = {"us_pint": "pint", "us_quart": "quart", "us_gallon": ""}
"Units of what a recipe makes that name its jars."
MUCH_DAIRY = Fraction(30)
"[g or mL] Less, a nut of butter against foam, makes no food of dairy. Source: house choice."
DRIED = frozenset({"dried", "dry", "dehydrated", "freeze", "powdered", "powder"})
"Words of what may stand in a jar as it is. Source: words of the trade."


@dataclass(frozen=True, slots=True, kw_only=True)
class Jar:
    """A jar that is sealed from the air."""

    stage: Stage
    index: int
    method: str
    "pressure canner, water bath, or empty where the course does not say."
    pints: Fraction | None
    "Size of the jar."
    time: Tested | None
    "None where no tested time is known."
    low_acid: Inside | None
    "What makes it low in acid; None where nothing does, or where acid enough keeps it."
    sour: Sour
    "Of the vegetables."
    cured: Inside | None
    "What is cured, brined or smoked."
    thick: Inside | None
    "What keeps the heat from getting through."

    @property
    def is_only_packed(self) -> bool:
        """No stage heats the filled jar."""
        return self.stage.name == "pack"


def jar_of(facts: Facts, tables: Tables) -> Jar | None:
    """The first sealing of a recipe. A jar that is only put in the cold is not sealed."""
    recipe = facts.recipe
    heated = any(stage.place in CANNERS and seals(stage, recipe) for stage in recipe.stages)
    for index, stage in enumerate(recipe.stages):
        # A jar that is packed is not yet sealed where a canner follows.
        if seals(stage, recipe) and not (heated and stage.name == "pack"):
            low = low_acid_lines(recipe, tables)
            sour = how_sour(facts, low, tables)
            return Jar(
                stage=stage,
                index=index,
                method=stage.place if stage.place in CANNERS else "",
                pints=jar_pints(stage, recipe, tables),
                time=tested(facts, tables),
                low_acid=_low_acid(facts, low, sour, tables),
                sour=sour,
                cured=_cured(facts, tables),
                thick=_thick(facts, low, sour, tables),
            )
    return None


def seals(stage: Stage, recipe: Recipe) -> bool:
    """`jar` anywhere but in the cold; a canner; a jar for the shelf."""
    if stage.place == "water bath":
        return stage.name in MOVES and (stage.name == "jar" or _has_jars(recipe))
    if stage.place in CANNERS or is_hot_jar(stage, recipe):
        return True
    on_shelf = any(keep.place == "shelf" for keep in recipe.keep)
    return stage.name == "pack" and stage.place == "jar" and on_shelf


def _has_jars(recipe: Recipe) -> bool:
    """A custard in a water bath is none."""
    packed = any(stage.name == "jar" or stage.place == "jar" for stage in recipe.stages)
    return packed or any(keep.place == "shelf" for keep in recipe.keep)


def jar_pints(stage: Stage, recipe: Recipe, tables: Tables) -> Fraction | None:
    """As the stage says; else by what the recipe makes, 6 pints."""
    size = stage.jar_size
    if not size and recipe.makes is not None:
        keys = {measure.unit.key for measure in recipe.makes.quantity.measures}
        size = SIZES.get(keys.pop(), "") if len(keys) == 1 else ""
    return next((jar.pints for jar in tables.garden.jars.values() if jar.size == size), None)


def made_pints(recipe: Recipe, tables: Tables) -> Fraction | None:
    """How much goes into all the jars."""
    made = recipe.makes.quantity.total(Dimension.VOLUME) if recipe.makes is not None else None
    return made.high / tables.units["us_pint"].factor if made is not None else None


def _line_with(recipe: Recipe, kind: str, tables: Tables) -> Ingredient | None:
    return next((line for line in own_lines(recipe) if says(line, kind, tables)), None)


def _cured(facts: Facts, tables: Tables) -> Inside | None:
    """The recipe's own cure or smoke, that of a component, or a line that says so."""
    for recipe in (facts.recipe, *facts.parts):
        smokes = stages_named(recipe, SMOKES)
        has_meat = recipe.meat is not None or (recipe is facts.recipe and bool(facts.meats))
        if recipe.cure is not None or (smokes and has_meat):
            what = recipe.meat_name or recipe.name
            written = facts.brought_by.get(recipe.slug) or recipe.cure or smokes[0]
            return Inside(because=f"{what} is {'smoked' if smokes else 'cured'}", written=written)
    return _as_ingredient(_line_with(facts.recipe, "cured", tables))


def _as_ingredient(line: Ingredient | None) -> Inside | None:
    return Inside(because=f"{line.name} is an ingredient", written=line) if line is not None else None


def _low_acid(facts: Facts, low: list[Ingredient], sour: Sour, tables: Tables) -> Inside | None:
    """Meat, stock, milk and eggs always; vegetables unless acid enough keeps them: a spoon of vinegar is none."""
    if facts.meats:
        return Inside(because=facts.meats[0].because, written=facts.meats[0])
    for part in facts.parts:
        if part.meat is not None or _line_with(part, "stock", tables):
            return Inside(because=f"{part.name} is in it", written=facts.brought_by[part.slug])
    stock = _line_with(facts.recipe, "stock", tables)
    if stock is not None or is_stock(facts.recipe, tables):
        brings = stock or facts.recipe
        return Inside(because=f"{brings.name} is in it", written=brings)
    dairy = next((line for line in own_lines(facts.recipe) if _is_dairy(line, tables)), None)
    if dairy is not None:
        return _as_ingredient(dairy)
    fresh = [line for line in low if not _is_dried(facts.recipe, line)]
    return None if sour is Sour.YES or not fresh else _as_ingredient(fresh[0])


def _is_dairy(line: Ingredient, tables: Tables) -> bool:
    """More than a nut of it."""
    garden = tables.garden
    if not garden.says(garden.words["not dairy"].cut_from(line.name), "dairy"):
        return False
    if line.quantity is None or line.quantity.is_vague:
        return True
    sizes = [line.quantity.total(kind) for kind in (Dimension.VOLUME, Dimension.WEIGHT)]
    return all(one is None or one.high > MUCH_DAIRY for one in sizes)


def _is_dried(recipe: Recipe, line: Ingredient) -> bool:
    """Dry goods in a jar: nothing wet is in the recipe, and a stage dries it or the line says so."""
    if any(stage.place in CANNERS or stage.name == "jar" for stage in recipe.stages):
        return False
    words = set(spaced(f"{line.name} {line.preparation}").split())
    return any(stage.name == "dry" for stage in recipe.stages) or bool(words & DRIED)


def _thick(facts: Facts, low: list[Ingredient], sour: Sour, tables: Tables) -> Inside | None:
    """Flour and the like in low-acid food; what is mashed or pureed; curd, cake, gravy by their names."""
    recipe = facts.recipe
    is_low = bool(low or facts.meats) and sour is Sour.NO
    thickener = _line_with(recipe, "thickener", tables) if is_low or is_stock(recipe, tables) else None
    if thickener is not None:
        return Inside(because=f"'{thickener.name}' thickens what is canned", written=thickener)
    for line in low if sour is not Sour.YES else ():
        words = f"{line.name}, {line.preparation}"
        if tables.garden.says(words, "thick"):
            return Inside(because=f"'{words.rstrip(', ')}' is thick", written=line)
    dairy = any(_is_dairy(line, tables) for line in own_lines(recipe))
    named = tables.garden.says(recipe.name, "thick")
    if named and (dairy or (is_low and not is_called_pickle(facts))):
        return Inside(because=f"'{recipe.name}' is thick", written=recipe)
    return None
