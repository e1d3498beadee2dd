"""A recipe and so much of one of its lines in (`cabbage=8 lb`), batches out, exact."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.scale.not_scalable import NotScalable
from generator.model.quantity import Dimension, Quantity, Span
from generator.model.recipe import Ingredient, Makes, Recipe
from generator.model.slug import slugify
from generator.problems import nearest

MEAT = "meat"
TOTAL = "total"
"By which the only whole of a recipe may be asked for too."
Weigh = Callable[[Ingredient], Span | None]
"The weight [g] of a line as written, or None."


@dataclass(frozen=True, slots=True, kw_only=True)
class LineWish:
    """So much of a line, of the meat, or of a whole that lines are shares of."""

    name: str
    "An id, a name, or a unique ending of a name."
    amount: Quantity


def is_of_meat(recipe: Recipe, wish: LineWish) -> bool:
    """True where all of the meat is asked for."""
    return wish.name.strip().lower() == MEAT and recipe.meat is not None


def batches_by_line(recipe: Recipe, wish: LineWish, weigh: Weigh) -> Fraction:
    """Asked over written, high end over high end: who asks for what is written gets one batch."""
    weight = wish.amount.total(Dimension.WEIGHT)
    meat = _meat(recipe, wish.name) if weight is not None else None
    if weight is not None and meat is not None:
        return weight.high / meat
    known = recipe.wholes
    id = slugify(wish.name)
    if id == TOTAL and len(known) == 1:
        id = next(iter(known))
    written = known.get(id)
    line = None if written is not None else _line(recipe, wish.name, known)
    if line is not None:
        written = line.quantity
    assert written is not None
    makes = Makes(quantity=written, noun="", position=recipe.position)
    pairs = list(makes.compared_with(wish.amount))
    grams = weigh(line) if line is not None else None
    pairs += [(weight, grams)] if weight is not None and grams is not None else []
    for wanted, whole in pairs:
        if whole.high > 0 and wanted.high > 0:
            return wanted.high / whole.high
    raise NotScalable(
        f"'{wish.amount.written}' cannot be compared with '{line.written if line else wish.name}'.",
        "Give it as it is written there, or as a weight where that is known.",
    )


def _meat(recipe: Recipe, name: str) -> Fraction | None:
    """The green weight [g] of the one of several meats that is called so, where no line is."""
    if slugify(name) in recipe.scalable_lines or slugify(name) in recipe.wholes:
        return None
    meats = recipe.several_meats
    found = [one for one in meats if one.id == slugify(name)] or [one for one in meats if one.is_called(name)]
    return found[0].green_g if len(found) == 1 else None


def _line(recipe: Recipe, name: str, known: Mapping[str, Quantity]) -> Ingredient:
    """The one line that is called so."""
    lines, id = recipe.scalable_lines, slugify(name)
    found = [lines[id]] if id in lines else [line for line in lines.values() if line.is_called(name)]
    if len(found) == 1:
        return found[0]
    names = [line.id for line in found] or [*lines, *known, *(meat.id for meat in recipe.several_meats)]
    one = next((line for line in recipe.ingredients if line.id == id and id not in lines), None)
    if one is not None:
        raise NotScalable(
            f"'{one.written}' does not scale, so nothing scales by it.", f"Known are {', '.join(names)}."
        )
    if found:
        raise NotScalable(f"'{name}' could be {' or '.join(names)}.", f"Write one of them: {names[0]}=2 lb.")
    hint = nearest(name, names) or (f"Known are {', '.join(names)}." if names else "Scale it by batches.")
    raise NotScalable(f"'{name}' is no line of {recipe.name} that has an amount.", hint)
