"""A dish at a scale in, all the components it needs out, to the last shank: batches, weight, green meat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from generator.compute.scale.wish import green_meat_g
from generator.model.book import Book
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Recipe
from generator.model.results import ComponentNeed, Shown, UsedBy
from generator.model.shown import SYSTEMS, Shower


def component_needs(book: Book, dish: str, batches: Fraction, shower: Shower) -> tuple[ComponentNeed, ...]:
    """Every component of a dish, and every component of those, each with the path that leads to it."""
    return tuple(_needs(book, (dish,), batches, shower, fixed=False))


def _needs(
    book: Book, path: tuple[str, ...], batches: Fraction, shower: Shower, *, fixed: bool
) -> Iterator[ComponentNeed]:
    for use in book.uses_of(path[-1]):
        taken = use.batches * use.line.batches(batches)
        below = (*path, use.component)
        stays = fixed or use.line.fixed
        yield replace(_need(book, below, taken, shower), fixed=stays)
        yield from _needs(book, below, taken, shower, fixed=stays)


def _need(book: Book, path: tuple[str, ...], batches: Fraction, shower: Shower) -> ComponentNeed:
    component = book.recipes[path[-1]]
    weight = component.makes_total(Dimension.WEIGHT)
    # Of a range the high end is told below, so that whoever makes it has enough.
    amount = None if weight is None else weight.times(batches)
    green = green_meat_g(component, batches)
    return ComponentNeed(
        recipe=path[-1],
        path=path,
        batches=batches,
        amount_g=None if amount is None else amount.high,
        amount_shown=_amount_made(component, batches, shower),
        green_weight_g=green,
        green_weight_shown=None
        if green is None
        else shower.base_everywhere(Span.of(green), use="ingredient weight"),
        meat_name=component.meat_name,
    )


def _amount_made(component: Recipe, batches: Fraction, shower: Shower) -> Shown | None:
    """What those batches make, in the component's own measure: 1 shank, 2 qt."""
    if component.makes is None:
        return None
    made = component.makes.quantity.times(batches)
    shown, noun = shower.everywhere(made), component.makes.noun_for(made)
    return Shown(**{s: f"{shown.in_units(s)} {noun}".strip() for s in SYSTEMS})


def used_by(book: Book, component: str) -> tuple[UsedBy, ...]:
    """The published dishes that use a component, with how much of one batch each takes, in order of slug."""
    totals: dict[str, Fraction] = {}
    for use in book.used_by(component):
        if not book.recipes[use.dish].draft:
            totals[use.dish] = totals.get(use.dish, Fraction(0)) + use.batches
    return tuple(UsedBy(dish=dish, batches=totals[dish]) for dish in sorted(totals))
