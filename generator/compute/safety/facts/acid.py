"""What of a recipe is sour and what is low in acid in, whether the acid is enough to call it a pickle out.

Measures of vinegar and food are compared, never the pH: nothing in a recipe tells that.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from enum import StrEnum
from fractions import Fraction

from generator.compute.safety.facts.gather import Facts
from generator.compute.weight.measures import weigh_measures
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Ingredient, Recipe
from generator.tables import Tables
from generator.tables.garden import spaced

ENOUGH = Fraction(1, 5)
"mL of 5 % vinegar or bottled juice a gram of low-acid food. Source: USDA Guide 6, from memory: pickled asparagus 0.23."
TOO_LITTLE = Fraction(1, 10)
"Source: house choice, half of the least of the tested pickles."
A_SPOON_ML = Fraction(60)
"Source: house choice, a quarter cup; so little makes no pickle of what cannot be weighed."
CITRIC_AS_JUICE = Fraction(12)
"Source: USDA AIB 539, tomatoes: 1/4 tsp citric acid does what 1 tbsp bottled lemon juice does, by volume."
VINEGAR_AS_JUICE = Fraction(1, 2)
"Source: as above: 4 tbsp of 5 % vinegar do what 2 tbsp bottled lemon juice do."
FERMENTED_MIN = Fraction(7 * 1440)
"Source: house choice, a week; USDA Guide 6 gives kraut 3 weeks or more."
PICKLED = frozenset(
    {
        "pickle",
        "pickles",
        "pickled",
        "relish",
        "chutney",
        "salsa",
        "piccalilli",
        "dilly",
        "giardiniera",
        "chowchow",
    }
)
"Words of a name. Source: words of the trade."
EACH_JAR = re.compile(
    r"\b(?:per|each|every|a) (?:jar|pint|quart|half-pint)\b|\b(?:per|to|in) (?:each|every)\b|\beach\b"
)


class Sour(StrEnum):
    """Whether acid keeps what is low in it."""

    YES = "yes"
    NO = "no"
    UNTOLD = "untold"
    "It is called a pickle, and the measures do not tell; or they lie between."


def own_lines(recipe: Recipe) -> list[Ingredient]:
    """The lines that are no components."""
    return [line for line in recipe.ingredients if line.link is None]


def says(line: Ingredient, kind: str, tables: Tables) -> str:
    """The first word of a kind in a line's name, spices that are named after a vegetable left out."""
    return tables.garden.says(tables.garden.words["seasoning"].cut_from(line.name), kind)


def low_acid_lines(recipe: Recipe, tables: Tables) -> list[Ingredient]:
    """Vegetables, beans, mushrooms and greens."""
    return [
        line for line in own_lines(recipe) if says(line, "low acid", tables) or says(line, "greens", tables)
    ]


def acid_lines(recipe: Recipe, tables: Tables) -> list[Ingredient]:
    """Vinegar, lemon or lime juice, citric acid."""
    return [line for line in own_lines(recipe) if says(line, "acid", tables)]


def how_sour(facts: Facts, low: Sequence[Ingredient], tables: Tables) -> Sour:
    """By weeks of fermenting, else by the measures of acid and food."""
    recipe = facts.recipe
    if _ferments(recipe, low, tables):
        return Sour.YES
    acid = acid_lines(recipe, tables)
    if not acid:
        return Sour.NO
    juice, food = juice_ml(acid, in_vinegar=True), grams(facts, low, tables)
    if juice is None or food is None:
        spoon = juice is not None and juice.high < A_SPOON_ML
        return Sour.NO if spoon or not is_called_pickle(facts) else Sour.UNTOLD
    if juice.low >= ENOUGH * food.high:
        return Sour.YES
    return Sour.NO if juice.high < TOO_LITTLE * food.low else Sour.UNTOLD


def is_called_pickle(facts: Facts) -> bool:
    """By a stage, its name or a tag."""
    words = {word for text in (facts.recipe.name, *facts.recipe.tags) for word in spaced(text).split()}
    return facts.first_stage("pickle") is not None or bool(words & PICKLED)


def _ferments(recipe: Recipe, low: Sequence[Ingredient], tables: Tables) -> bool:
    """Kraut: weeks in its own salt make it sour before it goes into the jar."""
    long = any(
        stage.name == "ferment" and (stage.minutes is None or stage.minutes.low >= FERMENTED_MIN)
        for stage in recipe.stages
    )
    kraut = all("sauerkraut" in spaced(line.name).split() for line in low)
    return bool(low) and (kraut or (long and all(says(line, "fermented vegetable", tables) for line in low)))


def juice_ml(lines: Iterable[Ingredient], *, in_vinegar: bool) -> Span | None:
    """The acid of all lines together, as bottled juice [mL]; None where one has no size.

    For tomatoes vinegar counts half of juice; `in_vinegar`, where a pickle's measures are of vinegar, it counts whole.
    """
    total = Span.of(0)
    for line in lines:
        volume = _size(line)
        if volume is None:
            return None
        words = spaced(line.name)
        weaker = VINEGAR_AS_JUICE if " vinegar " in words and not in_vinegar else Fraction(1)
        total = total.plus(volume.times(CITRIC_AS_JUICE if " citric acid " in words else weaker))
    return total


def _size(line: Ingredient) -> Span | None:
    """mL, or grams taken as mL."""
    if line.quantity is None or line.quantity.is_vague:
        return None
    found = (line.quantity.total(kind) for kind in (Dimension.VOLUME, Dimension.WEIGHT))
    return next((one for one in found if one is not None), None)


def grams(facts: Facts, lines: Iterable[Ingredient], tables: Tables) -> Span | None:
    """The weight of all lines together; None where one of them cannot be weighed. A cup of anything is called a cup."""
    total = Span.of(0)
    for line in lines:
        if line.quantity is None or line.quantity.is_vague:
            return None
        found = weigh_measures(line.quantity, line.name, tables, facts.config.house_weights)
        weight = found.grams if found is not None else line.quantity.total(Dimension.VOLUME)
        if weight is None:
            return None
        total = total.plus(weight)
    return total
