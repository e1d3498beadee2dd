"""Makings and what is on hand in, the list of what is fetched out: merged by food, as bought, grouped by place.

Sums are exact until the end and rounded once, up, to what can be bought. A curing salt goes up to the next gram at
most, and its line says the exact grams: what is weighed into a cure stands on the recipe, never here.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.gathering.fetch import CURING, FOR_CURE, ON_HAND, PLACES, Fetch, as_bought, fetches_of
from generator.compute.gathering.foods import Amount, amount_of, food_of, less, name_for
from generator.compute.recipe import Kitchen
from generator.compute.scale.lines import compute_line
from generator.compute.weight.measures import is_liquid
from generator.model.book import Book
from generator.model.gathering import Invited, OnHand
from generator.model.plan import Item, Making
from generator.model.quantity import COUNT, Dimension, Quantity, Span
from generator.model.results import ComputedLine, Shown
from generator.model.shown import SYSTEMS, Shower, show_decimal
from generator.tables import Tables

MADE = "Made already."
"Note of a component that is on hand."


@dataclass(frozen=True, slots=True, kw_only=True)
class _There:
    """What is on hand of one food."""

    amount: Amount
    written: tuple[str, ...]


def make_list(
    book: Book, invited: Invited, makings: tuple[Making, ...], kitchen: Kitchen
) -> tuple[Item, ...]:
    """By place, then what is made already, then by name. Of ingredients, what is on hand in full is not listed."""
    groups: dict[tuple[str, str], list[Fetch]] = {}
    for making in makings:
        for fetch in fetches_of(making, kitchen):
            groups.setdefault((fetch.place, fetch.food), []).append(fetch)
    there = _on_hand(book, invited.ingredients, kitchen)
    items = list(taken_items(invited, makings, kitchen))
    for place, food in sorted(groups, key=lambda key: (PLACES.index(key[0]), key[1])):
        item = _item(groups[place, food], there, kitchen)
        if item is not None:
            items.append(item)
    return tuple(
        sorted(items, key=lambda item: (PLACES.index(item.place), not item.is_made, item.name.lower()))
    )


def unmatched(book: Book, invited: Invited, makings: tuple[Making, ...], kitchen: Kitchen) -> tuple[str, ...]:
    """Names of what is on hand that no line of the list can be taken off by."""
    fetch = {one.food for making in makings for one in fetches_of(making, kitchen)}
    return tuple(
        line.line.name
        for line in invited.ingredients
        if not fetch.intersection(_on_hand(book, (line,), kitchen))
    )


def _on_hand(book: Book, lines: Iterable[OnHand], kitchen: Kitchen) -> dict[str, _There]:
    """By food. A curing salt is found by its own name, the salt and the sugar of a cure by theirs."""
    there: dict[str, _There] = {}
    for one in lines:
        computed = compute_line(one.line, Fraction(1), kitchen.tables, book.config, kitchen.shower)
        known = kitchen.tables.curing_salt(one.line.name)
        food = f"{CURING} {known.key}" if known else food_of(one.line.name, kitchen.tables)
        old = there.get(food, _There(amount=Amount(), written=()))
        there[food] = _There(
            amount=old.amount.plus(_as_it_lies(computed, kitchen.tables)),
            written=(*old.written, one.line.written),
        )
    return there


def _as_it_lies(line: ComputedLine, tables: Tables) -> Amount:
    """Nobody has pared it yet: what is on hand was weighed as bought, and a piece has all its refuse."""
    if line.scaled is not None and line.scaled.dimension is Dimension.WEIGHT:
        return amount_of(line.scaled, line.grams)
    return as_bought(line, tables)[0]


def _item(parts: list[Fetch], there: dict[str, _There], kitchen: Kitchen) -> Item | None:
    """One line of the list; None where all of it is on hand. What it takes of what is there is taken."""
    first, whole = parts[0], Amount()
    for part in parts:
        whole = whole.plus(part.amount)
    amount, said = _without_on_hand(whole, first, there)
    if amount.is_nothing:
        return None
    notes = (_exact(whole, amount, first), *(part.note for part in parts), said)
    return Item(
        name=_name(parts, amount),
        place=first.place,
        grams=amount.grams if amount.is_sized else None,
        shown=_shown(amount, first, kitchen),
        needed_for=tuple(dict.fromkeys(part.making for part in parts)),
        note=" ".join(dict.fromkeys(note for note in notes if note)),
        sources=tuple(dict.fromkeys(key for part in parts for key in part.sources)),
    )


def _without_on_hand(amount: Amount, fetch: Fetch, there: dict[str, _There]) -> tuple[Amount, str]:
    """What is still needed, and a sentence where what is there cannot be taken off.

    Where there is enough of it, there is enough to taste too.
    """
    food = fetch.food.removeprefix(FOR_CURE)
    have = there.get(food)
    if have is None or have.amount.is_nothing:
        return amount, ""
    if not amount.is_sized:
        return Amount(), ""
    found = less(amount, have.amount)
    if found is None:
        return amount, f"On hand: {' and '.join(have.written)}, which cannot be compared with it."
    still, rest = found
    there[food] = replace(have, amount=rest)
    return (still if still.is_sized else Amount()), ""


def _exact(whole: Amount, still: Amount, fetch: Fetch) -> str:
    """Of a curing salt, what the cures weigh to the gram and below; what is on hand is not taken off that."""
    if not _is_curing(fetch) or whole.grams is None or not whole.is_sized:
        return ""
    have = whole.grams.high - (still.grams.high if still.grams else whole.grams.high)
    there = f", of which {show_decimal(have, places=2)} g is on hand" if have else ""
    return f"Exactly {show_decimal(whole.grams.high, places=2)} g for the cures{there}."


def _is_curing(fetch: Fetch) -> bool:
    return fetch.food.startswith(f"{CURING} ")


def _name(parts: list[Fetch], amount: Amount) -> str:
    if _is_curing(parts[0]):
        return parts[0].name
    counted = amount.sizes.get(COUNT.key)
    count = None if counted is None else Fraction(counted.high.__ceil__())
    return name_for((part.name for part in parts), count=count)


def _shown(amount: Amount, fetch: Fetch, kitchen: Kitchen) -> Shown:
    return Shown(**{system: _in_system(amount, fetch, kitchen, system) for system in SYSTEMS})


def _in_system(amount: Amount, fetch: Fetch, kitchen: Kitchen, system: str) -> str:
    sized = _sized(amount, fetch, kitchen.tables)
    parts = [_part(key, span, amount, fetch, kitchen.shower, system) for key, span in sized.items()]
    return " + ".join(part for part in (*parts, *amount.vague) if part)


def _sized(amount: Amount, fetch: Fetch, tables: Tables) -> dict[str, Span]:
    """By weight where all of it has one; things of one kind stay counted, a liquid stays measured."""
    counted = sorted(key for key in amount.sizes if key in amount.units)
    order = (*counted, Dimension.VOLUME.value, Dimension.WEIGHT.value)
    sizes = {key: amount.sizes[key] for key in order if key in amount.sizes and amount.sizes[key].high > 0}
    if amount.grams is None or not sizes or set(sizes) == {Dimension.WEIGHT.value}:
        return sizes
    one_kind = len(sizes) == 1
    if one_kind and set(sizes) & set(amount.units):
        return sizes
    if one_kind and Dimension.VOLUME.value in sizes and _pours(fetch.name, tables):
        return sizes
    return {Dimension.WEIGHT.value: amount.grams}


def _pours(name: str, tables: Tables) -> bool:
    """True for what is known to be a liquid."""
    return bool(tables.food(name)) and is_liquid(name, tables)


def _part(key: str, span: Span, amount: Amount, fetch: Fetch, shower: Shower, system: str) -> str:
    """The high end, rounded up: of a range there must be enough."""
    if key in amount.units:
        unit = amount.units[key]
        number = shower.bought_count(span.high / unit.factor)
        return f"{number} {unit.singular if number == '1' else unit.plural}".strip()
    use = "bought curing salt" if _is_curing(fetch) else f"bought {key}"
    return shower.base(Span.of(span.high), use=use, system=system)


def taken_items(invited: Invited, makings: tuple[Making, ...], kitchen: Kitchen) -> Iterator[Item]:
    """In the order of the file: of what lies in two places, what is written first is taken first."""
    made = {making.slug: making for making in makings}
    left = {slug: making.on_hand for slug, making in made.items()}
    for one, slug, there in invited.components:
        taken = min(there, left.get(slug, Fraction(0)))
        if taken > 0:
            left[slug] -= taken
            yield _made_item(one, made[slug], taken / there, kitchen.shower)


def _made_item(one: OnHand, making: Making, share: Fraction, shower: Shower) -> Item:
    assert one.line.quantity is not None, "what is on hand has an amount"
    quantity = _taken(one.line.quantity, share)
    itself = () if making.servings is None else (making.slug,)
    return Item(
        name=one.line.name,
        place=one.place or ON_HAND,
        grams=quantity.total(Dimension.WEIGHT),
        shown=shower.everywhere(quantity),
        needed_for=(*itself, *making.used_by),
        note=MADE,
        is_made=True,
    )


def _taken(quantity: Quantity, share: Fraction) -> Quantity:
    """So much of it; pieces are taken whole, and never more than there are."""
    count = quantity.total(Dimension.COUNT)
    if count is None or not count.high:
        return quantity.times(share)
    return quantity.times(min(Fraction(1), Fraction((count.high * share).__ceil__()) / count.high))
