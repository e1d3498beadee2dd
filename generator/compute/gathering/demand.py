"""Guests and their dishes in, every recipe that is made for them out, each once, at the scale that all ask of it.

    needed = dishes served + sum over the makings that use it of (batches per batch x their batches)
    made   = needed - on hand, never below nothing; whole where the gathering asks for whole batches

A line that ends in (fixed) takes its amount once for each making, however large.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.recipe import Kitchen, compute_recipe
from generator.compute.scale.wish import AS_WRITTEN, Wish, scale_for
from generator.compute.weight.losses import weights_of
from generator.model.book import Book
from generator.model.gathering import Dish, Guests, Invited
from generator.model.plan import Making

NONE = Fraction(0)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Asked:
    """Batches of one recipe."""

    needed: Fraction
    on_hand: Fraction
    batches: Fraction


def make_demand(book: Book, invited: Invited, kitchen: Kitchen) -> tuple[Making, ...]:
    """Dishes in the order of the file, then components, each before what it is made of.

    Raises NotScalable for a dish that does not say how many it serves.
    """
    served = _served(invited)
    asked = _asked(book, invited, served)
    users = {slug: _users(book, slug, asked) for slug in asked}
    dishes = [slug for slug in served if not users[slug]]
    below = [slug for slug in reversed(book.order) if slug in asked and slug not in dishes]
    return tuple(
        _making(book, kitchen, slug, asked[slug], served.get(slug), users[slug]) for slug in (*dishes, *below)
    )


def servings_of(dish: Dish, guests: Guests) -> Fraction:
    """Servings [1] of a dish: as told, else the share of the guests' helpings."""
    if dish.servings is not None:
        return dish.servings
    assert dish.share is not None, "a dish has servings or a share"
    return dish.share * guests.helpings


def _served(invited: Invited) -> dict[str, Fraction]:
    """Servings by slug, in the order of the file; a dish that stands twice counts twice."""
    served: dict[str, Fraction] = {}
    for dish, slug in invited.dishes:
        served[slug] = served.get(slug, NONE) + servings_of(dish, invited.gathering.guests)
    return served


def _asked(book: Book, invited: Invited, served: dict[str, Fraction]) -> dict[str, _Asked]:
    """Down the graph: when a recipe is looked at, all who take from it are known."""
    needed = {
        slug: scale_for(book.recipes[slug], Wish(serves=servings)).batches
        for slug, servings in served.items()
    }
    asked: dict[str, _Asked] = {}
    components: set[str] = set()
    for slug in reversed(book.order):
        if slug not in needed:
            continue
        # Never more than is needed: what is left over on hand is no batch to give back.
        there = min(needed[slug], _on_hand(invited, slug))
        # Whole batches are of components: a dish is made for its guests.
        whole = invited.gathering.whole_batches and slug in components
        asked[slug] = _Asked(
            needed=needed[slug], on_hand=there, batches=_batches_made(needed[slug] - there, whole=whole)
        )
        for component, batches in _taken(book, slug, asked[slug].batches):
            components.add(component)
            needed[component] = needed.get(component, NONE) + batches
    return asked


def _batches_made(batches: Fraction, *, whole: bool) -> Fraction:
    return Fraction(batches.__ceil__()) if whole else batches


def _on_hand(invited: Invited, slug: str) -> Fraction:
    return sum((batches for _, of, batches in invited.components if of == slug), NONE)


def _taken(book: Book, slug: str, batches: Fraction) -> Iterable[tuple[str, Fraction]]:
    """What so many batches take of each component; nothing where nothing is made, not even of a fixed line."""
    if not batches:
        return ()
    return [(use.component, use.batches * use.line.batches(batches)) for use in book.uses_of(slug)]


def _users(book: Book, slug: str, asked: dict[str, _Asked]) -> tuple[str, ...]:
    """Who takes from a component, among what is made."""
    taking = {use.dish for use in book.used_by(slug) if use.dish in asked and asked[use.dish].batches}
    return tuple(sorted(taking))


def _making(
    book: Book,
    kitchen: Kitchen,
    slug: str,
    asked: _Asked,
    servings: Fraction | None,
    users: tuple[str, ...],
) -> Making:
    wish = Wish(batches=asked.batches) if asked.batches else AS_WRITTEN
    weights = weights_of(book.recipes[slug], asked.batches, kitchen.tables)
    return Making(
        recipe=compute_recipe(book, slug, kitchen, wish),
        slug=slug,
        servings=servings,
        needed=asked.needed,
        on_hand=asked.on_hand,
        batches=asked.batches,
        amount_g=weights.amount_g,
        green_weight_g=weights.green_g,
        used_by=users,
        note=weights.note,
        sources=weights.sources,
    )
