"""A making in, every thing that is fetched for it out: its meat, its cure by weight, its lines as they are bought."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.gathering.amounts import Amount, amount_of, weighed
from generator.compute.gathering.cure_shelf import of_cure
from generator.compute.gathering.food_names import food_of, without_cut
from generator.compute.gathering.places import FREEZER, SHELF, foraged_in, place_of
from generator.compute.recipe import Kitchen
from generator.compute.safety.facts.gather import animal_in
from generator.compute.weight.measures import SIZES
from generator.compute.weight.yields import weight_to_buy_g
from generator.model.plan import Making
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Meat
from generator.model.results import ComputedLine
from generator.model.shown import show_decimal
from generator.tables import Tables

TAKEN_OFF = "taken off"
"Kind of words of food_words.csv: a preparation after which the refuse is gone."
NOT_TOLD = "weight not told"


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """One thing that one making needs."""

    food: str
    "What it is merged by."
    name: str
    place: str
    amount: Amount
    making: str
    note: str = ""
    sources: tuple[str, ...] = ()


def wanted_of(making: Making, kitchen: Kitchen) -> Iterator[Wanted]:
    """Everything that a making needs, at its scale; nothing where nothing is made."""
    if not making.batches:
        return
    recipe, tables = making.recipe.recipe, kitchen.tables
    again = frozenset[str]()
    if recipe.meat is not None:
        lines = _listed_again(making, recipe.meat, tables)
        again = frozenset(line.ingredient.id for line in lines)
        yield _of_meat(making, recipe.meat, lines, tables)
    for one in of_cure(making, kitchen):
        yield Wanted(
            food=one.food, name=one.name, place=SHELF, amount=one.amount, making=making.slug, note=one.note
        )
    foraged = foraged_in(recipe, tables)
    for line in making.recipe.lines:
        if (
            line.ingredient.link is None
            and not is_water(line.ingredient.name)
            and line.ingredient.id not in again
        ):
            yield _of_line(line, making.slug, foraged, tables)


def _listed_again(making: Making, meat: Meat, tables: Tables) -> list[ComputedLine]:
    """Lines that are the meat of `meat:` once more: the same cut by another name, or the same animal by the same weight."""
    own, lines = food_of(meat.name, tables), []
    for line in making.recipe.lines:
        animal = animal_in(line.ingredient.name, tables)
        if line.ingredient.link is not None or animal is None or animal.key != meat.animal:
            continue
        weighs_it = line.grams is not None and line.grams.high == making.green_weight_g
        if weighs_it or food_of(line.ingredient.name, tables) == own:
            lines.append(line)
    return lines


def _of_meat(making: Making, meat: Meat, again: list[ComputedLine], tables: Tables) -> Wanted:
    """The raw meat, once: the more of what `meat:` says and what the lines say of it."""
    thaws = any(stage.name == "thaw" for stage in making.recipe.recipe.stages)
    fresh = f"{making.recipe.recipe.name} has no thaw in its course: take it fresh, or thaw it before."
    return Wanted(
        food=food_of(meat.name, tables),
        name=meat.name,
        place=FREEZER,
        amount=_more(making.green_weight_g, again, tables),
        making=making.slug,
        note="" if thaws else fresh,
    )


def _more(green_g: Fraction | None, again: list[ComputedLine], tables: Tables) -> Amount:
    lines = Amount()
    for line in again:
        lines = lines.plus(as_bought(line, tables)[0])
    if green_g is None:
        return lines if lines.is_sized else Amount(vague=(NOT_TOLD,))
    told = lines.grams if lines.is_sized else None
    return weighed(Span.of(green_g) if told is None else Span.of(max(green_g, told.high)))


def is_water(name: str) -> bool:
    """Water comes from the tap."""
    return name.lower().split()[-1:] == ["water"]


def _of_line(line: ComputedLine, slug: str, foraged: frozenset[str], tables: Tables) -> Wanted:
    ingredient = line.ingredient
    amount, note, source = as_bought(line, tables)
    return Wanted(
        food=food_of(ingredient.name, tables),
        name=ingredient.name,
        place=place_of(ingredient, foraged, tables),
        amount=amount,
        making=slug,
        note=note,
        sources=tuple(key for key in (line.weight_source, source) if key),
    )


def as_bought(line: ComputedLine, tables: Tables) -> tuple[Amount, str, str]:
    """The amount with what is not eaten, a note and the source of it.

    A weight before a preparation that takes the refuse off (`4 lb collards, stems stripped`) is the weight as bought.
    A weight without one, a measure of what is cut, and the published weight of a piece are of the eaten part.
    """
    found, grams = amount_of(line.scaled, line.grams), line.grams
    percent, part, source = _refuse(line, tables)
    if percent is None or not found.is_sized or grams is None:
        return found, "", ""
    share = f"{show_decimal(percent, places=0)} % of the weight is {part}"
    if line.scaled is not None and line.scaled.dimension is Dimension.WEIGHT:
        if tables.garden.says(line.ingredient.preparation, TAKEN_OFF):
            return found, f"{share}, which the recipe takes off.", source
        sizes = {key: _bought(span, percent) for key, span in found.sizes.items()}
        found = replace(found, sizes=sizes)
    return replace(found, grams=_bought(grams, percent)), f"{share}, counted in.", source


def _bought(span: Span, percent: Fraction) -> Span:
    low, high = (weight_to_buy_g(edible_g=end, refuse_percent=percent) for end in (span.low, span.high))
    return Span(low, high)


def _refuse(line: ComputedLine, tables: Tables) -> tuple[Fraction | None, str, str]:
    """Of the piece that the line counts, else of the vegetable; by exact name."""
    refuse = tables.refuse_of(without_cut(line.ingredient.name))
    if refuse is not None:
        return refuse.percent, refuse.part, refuse.source
    words = line.ingredient.name.lower().split()
    size = words[0] if words and words[0] in SIZES else ""
    units = line.scaled.measures if line.scaled is not None else ()
    unit = units[0].unit.singular if units and units[0].unit.dimension is Dimension.COUNT else ""
    piece = tables.piece(" ".join([*words[1 if size else 0 :], *([unit] if unit else [])]), size)
    if piece is None or not piece.refuse_percent:
        return None, "", ""
    return piece.refuse_percent, "peel, shell or core", piece.source
