"""What a recipe makes, whom it serves and how much of it is taken, in words for page, terminal and JSON."""

from __future__ import annotations

from fractions import Fraction

from generator.model.results import ComputedRecipe
from generator.model.rounding import round_up
from generator.model.shown import GLYPHS, show_number
from generator.render.amounts import Amounts, AmountView, keyed

HUNDREDTH = Fraction(1, 100)
"Batches that are no kitchen fraction are shown to this step, rounded up so that there is enough."
TENTH, THOUSANDTH = Fraction(1, 10), Fraction(1, 1000)
"Below a tenth of a batch the step is finer. Source: house choice."


def serves_words(recipe: ComputedRecipe) -> str:
    """`12`, or nothing."""
    return "" if recipe.serves is None else show_number(recipe.serves)


def written_for(recipe: ComputedRecipe) -> str:
    """`4–6, counted as 4`, of a recipe that is written for a range; else nothing."""
    most, least = recipe.recipe.serves_most, recipe.recipe.serves
    if most is None or least is None:
        return ""
    return f"{show_number(least)}–{show_number(most)}, counted as {show_number(least)}"


def servings_words(servings: Fraction | None) -> str:
    """`32 servings`; empty for a component."""
    if servings is None:
        return ""
    return f"{show_number(servings)} {'serving' if servings == 1 else 'servings'}"


def makes_view(amounts: Amounts, recipe: ComputedRecipe) -> AmountView | None:
    """`4 shanks`, and its weight behind it."""
    if recipe.makes is None or recipe.recipe.makes is None:
        return None
    made = amounts.made(recipe.makes, recipe.recipe.makes.noun_for(recipe.makes))
    return keyed(made, "makes")


def made_words(recipe: ComputedRecipe, units: str) -> str:
    """`4 shanks` in one system of units; empty where the recipe does not say."""
    if recipe.makes_shown is None or recipe.makes is None or recipe.recipe.makes is None:
        return ""
    return f"{recipe.makes_shown.in_units(units)} {recipe.recipe.makes.noun_for(recipe.makes)}".strip()


def yield_words(amounts: Amounts, recipe: ComputedRecipe) -> str:
    """In one short phrase, for lists: `serves 12`, else `makes 4 shanks`."""
    if recipe.serves is not None:
        return f"serves {serves_words(recipe)}"
    makes = makes_view(amounts, recipe)
    return f"makes {makes.first}" if makes else ""


def batches_words(batches: Fraction) -> str:
    """`¼ of one batch`, `one batch`, `1½ batches`; never too few."""
    if batches == 1:
        return "one batch"
    if batches - batches.__floor__() not in {Fraction(0), *GLYPHS}:
        batches = round_up(batches, HUNDREDTH if batches >= TENTH else THOUSANDTH)
    number = show_number(batches)
    return f"{number} of one batch" if batches < 1 else f"{number} batches"
