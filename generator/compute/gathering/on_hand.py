"""What is on hand of components in, what is taken of it out, as the first lines of the list: each where it lies."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from generator.compute.gathering.places import ON_HAND
from generator.compute.recipe import Kitchen
from generator.model.gathering import Invited, OnHand
from generator.model.plan import Item, Making
from generator.model.quantity import Dimension, Quantity
from generator.model.results import Shown
from generator.model.shown import SYSTEMS, Shower

NOTE = "Made already."


def taken_items(invited: Invited, makings: tuple[Making, ...], kitchen: Kitchen) -> Iterator[Item]:
    """In the order of the file: of what lies in two places, what is written first is taken first."""
    made = {making.slug: making for making in makings}
    left = {slug: making.on_hand for slug, making in made.items()}
    for one, slug, there in invited.components:
        taken = min(there, left.get(slug, Fraction(0)))
        if taken > 0:
            left[slug] -= taken
            yield _item(one, made[slug], taken / there, kitchen.shower)


def _item(one: OnHand, making: Making, share: Fraction, shower: Shower) -> Item:
    assert one.line.quantity is not None, "what is on hand has an amount"
    quantity = _whole(one.line.quantity, share)
    itself = () if making.servings is None else (making.slug,)
    return Item(
        name=one.line.name,
        place=one.place or ON_HAND,
        grams=quantity.total(Dimension.WEIGHT),
        shown=Shown(**{system: shower.quantity(quantity, system) for system in SYSTEMS}),
        needed_for=(*itself, *making.used_by),
        note=NOTE,
        is_made=True,
    )


def _whole(quantity: Quantity, share: Fraction) -> Quantity:
    """So much of it; pieces are taken whole, and never more than there are."""
    count = quantity.total(Dimension.COUNT)
    if count is None or not count.high:
        return quantity.times(share)
    return quantity.times(min(Fraction(1), Fraction((count.high * share).__ceil__()) / count.high))
