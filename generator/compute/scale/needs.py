"""A dish at a scale in, all the components it needs out, to the last shank: batches, weight, green meat."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.compute.scale.wish import written_meat_g
from generator.model.book import Book
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Recipe
from generator.model.results import ComponentNeed, Shown, UsedBy
from generator.model.shown import SYSTEMS, Shower


def component_needs(book: Book, dish: str, batches: Fraction, shower: Shower) -> tuple[ComponentNeed, ...]:
    """Every component of a dish, and every component of those, each with the path that leads to it."""
    needs: list[ComponentNeed] = []
    _gather(book, (dish,), batches, shower, needs, fixed=False)
    return tuple(needs)


def _gather(
    book: Book,
    path: tuple[str, ...],
    batches: Fraction,
    shower: Shower,
    needs: list[ComponentNeed],
    *,
    fixed: bool,
) -> None:
    for use in book.uses_of(path[-1]):
        taken = use.batches * use.line.batches(batches)
        below = (*path, use.component)
        stays = fixed or use.line.fixed
        needs.append(replace(_need(book, below, taken, shower), fixed=stays))
        _gather(book, below, taken, shower, needs, fixed=stays)


def _need(book: Book, path: tuple[str, ...], batches: Fraction, shower: Shower) -> ComponentNeed:
    component = book.recipes[path[-1]]
    weight = component.makes.of(Dimension.WEIGHT) if component.makes else None
    amount = None if weight is None else weight.times(batches)
    green = written_meat_g(component)
    green = None if green is None else green * batches
    return ComponentNeed(
        recipe=path[-1],
        path=path,
        batches=batches,
        amount_g=None if amount is None else amount.high,
        amount_shown=_made(component, batches, shower),
        green_weight_g=green,
        green_weight_shown=None
        if green is None
        else shower.base_everywhere(Span.of(green), use="ingredient weight"),
        meat_name=component.meat.name if component.meat else "",
    )


def _made(component: Recipe, batches: Fraction, shower: Shower) -> Shown | None:
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
