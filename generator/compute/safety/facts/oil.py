"""A recipe with oil in; what of it is fresh, whether it was made sour as tested, whether it is eaten at once, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.facts.acid import own_lines, says
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.weight.measures import weigh_measures
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Ingredient, Recipe
from generator.tables import Tables
from generator.tables.garden import spaced

DRY = frozenset(
    {"dried", "dry", "powder", "powdered", "granulated", "ground", "flakes", "seed", "seeds", "peppercorns"}
)
"Words of things too dry for Clostridium botulinum. Source: common practice, no source."
DRIED = frozenset({"dried", "dry", "powder", "powdered", "flakes", "crumbled", "rubbed"})
"Words that a preparation of something dry is made of. Source: common practice, no source."
TESTED_ACID = Fraction(3, 100)
"Source: Abo et al. 2014: citric acid of 3 %, 24 hours; garlic in three times its weight, herbs in ten times theirs."
GARLIC_TIMES, HERB_TIMES = Fraction(3), Fraction(10)
"Source: as above."


def fresh_lines(recipe: Recipe, tables: Tables) -> list[Ingredient]:
    """Garlic, herbs, mushrooms and vegetables that are not dry."""
    return [line for line in own_lines(recipe) if says(line, "infused", tables) and not _is_dry(line)]


def _is_dry(line: Ingredient) -> bool:
    """By the name, or by a preparation that says only that: garlic that is rinsed and dried is as wet as ever."""
    named, prepared = set(spaced(line.name).split()), set(spaced(line.preparation).split())
    return bool(named & DRY) or bool(prepared and prepared <= DRIED)


def is_eaten_at_once(recipe: Recipe) -> bool:
    """Served as a dish, and nothing says that it is put by."""
    put_by = any(stage.name in ("jar", "pack", "infuse") for stage in recipe.stages)
    return recipe.serves is not None and recipe.makes is None and not recipe.keep and not put_by


def is_met_in_oil(facts: Facts, tables: Tables) -> bool:
    """Every line is told, and nothing of them is fresh; or it was made sour first."""
    own = own_lines(facts.recipe)
    dry = bool(own) and not fresh_lines(facts.recipe, tables)
    named = any(tables.garden.says(line.name, "infused") for line in own)
    return (dry and named) or is_acidified(facts, tables)


def is_acidified(facts: Facts, tables: Tables) -> bool:
    """A day in citric acid of 3 %, in three times the weight of garlic or ten of herbs; and nothing else is fresh."""
    own, fresh = own_lines(facts.recipe), fresh_lines(facts.recipe, tables)
    acid = [line for line in own if " citric acid " in spaced(line.name)]
    water = [line for line in own if spaced(line.name).split()[-1:] == ["water"]]
    soaked = any(
        stage.name in ("soak", "marinate", "pickle")
        and stage.minutes is not None
        and stage.minutes.low >= DAY_MIN
        for stage in facts.recipe.stages
    )
    if not (acid and water and soaked) or not all(says(line, "acidified for oil", tables) for line in fresh):
        return False
    acid_g, water_g, fresh_g = (_known(facts, lines, tables) for lines in (acid, water, fresh))
    times = GARLIC_TIMES if all(" garlic " in spaced(line.name) for line in fresh) else HERB_TIMES
    return 0 < TESTED_ACID * water_g <= acid_g and water_g >= times * fresh_g > 0


def _known(facts: Facts, lines: list[Ingredient], tables: Tables) -> Fraction:
    """The weight [g] of the lines; nothing where one of them is not known."""
    found = [weight_of(facts, line, tables) for line in lines]
    return (
        sum((one.high for one in found if one is not None), Fraction(0)) if None not in found else Fraction(0)
    )


def weight_of(facts: Facts, line: Ingredient, tables: Tables) -> Span | None:
    """[g]; what has no weight but a volume counts as water."""
    if line.quantity is None or line.quantity.is_vague:
        return None
    found = weigh_measures(line.quantity, line.name, tables, facts.config.house_weights)
    return found.grams if found is not None else line.quantity.total(Dimension.VOLUME)
