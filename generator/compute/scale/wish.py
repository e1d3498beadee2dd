"""A recipe and a wish in (so many servings, so much made, so many batches, this meat), batches out, exact."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.scale.by_line import LineWish, Weigh, batches_by_line, is_of_meat
from generator.compute.scale.not_scalable import NotScalable
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import Ingredient, Recipe
from generator.model.results import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """How a recipe is asked for; at most one of the first five is given."""

    serves: Fraction | None = None
    makes: Quantity | None = None
    batches: Fraction | None = None
    meat_g: Fraction | None = None
    line: LineWish | None = None
    water_g: Fraction | None = None
    "The water of a brine as it stands in the vessel, instead of the written water times the batches."


AS_WRITTEN = Wish()


def _not_weighed(_: Ingredient) -> None:
    """Of who scales by no line."""


def scale_for(recipe: Recipe, wish: Wish, weigh: Weigh = _not_weighed) -> Scale:
    """Batches for a wish. Linear and exact: scaling by a and then by b is scaling by a x b."""
    scale = _scale(recipe, wish, weigh)
    return scale if wish.water_g is None else replace(scale, water_g=_vessel_water(recipe, wish.water_g))


def _vessel_water(recipe: Recipe, water_g: Fraction) -> Fraction:
    if recipe.cure is None or recipe.cure.method != "brine":
        raise NotScalable(
            f"{recipe.name} has no brine, so no water can be given for it.", "Leave --water out."
        )
    return _positive(water_g, "the water")


def _scale(recipe: Recipe, wish: Wish, weigh: Weigh) -> Scale:
    if wish.serves is not None:
        return Scale(batches=_by_serves(recipe, wish.serves), by="serves")
    if wish.makes is not None:
        return Scale(batches=_by_makes(recipe, wish.makes), by="makes")
    if wish.batches is not None:
        return Scale(batches=_positive(wish.batches, "batches"), by="batches")
    if wish.meat_g is not None:
        return Scale(batches=_by_meat(recipe, wish.meat_g), by="meat")
    if wish.line is not None:
        return Scale(batches=_by_line(recipe, wish.line, weigh), by="line")
    return Scale(batches=Fraction(1))


def _by_line(recipe: Recipe, wish: LineWish, weigh: Weigh) -> Fraction:
    weight = wish.amount.total(Dimension.WEIGHT)
    if is_of_meat(recipe, wish) and weight is not None:
        return _by_meat(recipe, weight.high)
    return batches_by_line(recipe, wish, weigh)


def _positive(value: Fraction, what: str) -> Fraction:
    if value <= 0:
        raise NotScalable(f"{what} must be more than nothing.", "Write a number above 0.")
    return value


def _by_serves(recipe: Recipe, serves: Fraction) -> Fraction:
    if recipe.serves is None:
        raise NotScalable(
            f"{recipe.name} does not say how many it serves.",
            "Scale it by what it makes, by batches, or add `serves:` to it.",
        )
    return _positive(serves, "servings") / recipe.serves


def _by_makes(recipe: Recipe, wanted: Quantity) -> Fraction:
    for asked, made in recipe.makes.compared_with(wanted) if recipe.makes else ():
        # High end over high end: who asks for what is written gets one batch.
        return _positive(asked.high, "the amount") / made.high
    made_words = recipe.makes.quantity.written if recipe.makes else "nothing that is written down"
    raise NotScalable(
        f"{recipe.name} makes {made_words}, which cannot be compared with '{wanted.written}'.",
        "Ask for it in the measure of its `makes:`, or add the other measure there in brackets.",
    )


def written_meat_g(recipe: Recipe) -> Fraction | None:
    """The green weight [g] of all meats a recipe is written for; None where there is none, or one is not weighed."""
    weights = [meat.green_g for meat in recipe.meats]
    told = [weight for weight in weights if weight is not None]
    return sum(told, Fraction(0)) if told and len(told) == len(weights) else None


def meat_shares(recipe: Recipe) -> dict[str, Fraction]:
    """The share [1] of all the meat that each of several is, by its id; nothing where they are not all weighed."""
    whole = written_meat_g(recipe)
    if not whole:
        return {}
    return {meat.id: (meat.green_g or Fraction(0)) / whole for meat in recipe.several_meats}


def green_meat_g(recipe: Recipe, batches: Fraction) -> Fraction | None:
    """The green weight [g] for so many batches."""
    written = written_meat_g(recipe)
    return None if written is None else written * batches


def _by_meat(recipe: Recipe, meat_g: Fraction) -> Fraction:
    written = written_meat_g(recipe)
    if written is None or written == 0:
        raise NotScalable(
            f"{recipe.name} does not say which weight of meat it is written for.",
            "Add `weight:` under `meat:`, or scale it another way.",
        )
    return _positive(meat_g, "the meat") / written
