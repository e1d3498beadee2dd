"""A making in, every thing that is fetched for it out: its meat, its cure by weight, its lines as they are bought.

Each with the place that it is fetched from: freezer, garden, woods, smokehouse shelf, shop.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.gathering.foods import Amount, amount_of, food_of, weighed, without_cut
from generator.compute.recipe import Kitchen
from generator.compute.safety.facts.animals import animal_in
from generator.compute.safety.facts.plants import plants_in
from generator.compute.weight.measures import SIZES
from generator.compute.weight.yields import weight_to_buy_g
from generator.model.contract import Text, Value, Weight
from generator.model.plan import Making
from generator.model.quantity import Dimension, Span
from generator.model.reader import Reader
from generator.model.recipe import Cure, Ingredient, Meat, Recipe
from generator.model.results import ComputedLine, CureResult
from generator.model.shown import show_decimal
from generator.tables import Tables

TAKEN_OFF = "taken off"
"Kind of words of food_words.csv: a preparation after which the refuse is gone."
NOT_TOLD = "weight not told"
FREEZER, GARDEN, WOODS, SHELF, SHOP = "freezer", "garden", "woods", "smokehouse shelf", "shop"
ON_HAND = "on hand"
"Of what is there already, where the place is not told."
PLACES = (FREEZER, "fridge", "shelf", ON_HAND, GARDEN, WOODS, SHELF, SHOP)
"In the order of the list."
GROWN = ("vegetable", "herb", "fruit")
"Kinds of words of food_words.csv that a kitchen garden grows."
KEPT = "kept"
"Words that say a thing came dried or in a jar."
CURING = "curing"
"Begins the key of what is listed to the gram: curing salts, nitrate, accelerators."
FOR_CURE = "cure "
"Begins the key of the salt and the sugar of a cure."
NO_WEIGHTS = "weight not known"
NEEDLE = "needle "
"Begins the key of a weight of the brine that is mixed apart for the needle."


@dataclass(frozen=True, slots=True, kw_only=True)
class Fetch:
    """One thing to fetch for one making."""

    food: str
    "What it is merged by."
    name: str
    place: str
    amount: Amount
    making: str
    note: str = ""
    sources: tuple[str, ...] = ()


def fetches_of(making: Making, kitchen: Kitchen) -> Iterator[Fetch]:
    """Everything that a making needs, at its scale; nothing where nothing is made."""
    if not making.batches:
        return
    recipe, tables = making.recipe.recipe, kitchen.tables
    again = frozenset[str]()
    for meat in recipe.meats:
        lines = _listed_again(making, meat, tables)
        again |= frozenset(line.ingredient.id for line in lines)
        yield _of_meat(making, meat, lines, tables)
    yield from _of_cure(making, kitchen)
    foraged = foraged_in(recipe, tables)
    for line in making.recipe.lines:
        one = line.ingredient
        # A component is a making of its own, and water comes from the tap.
        if one.link is None and not one.is_water and one.id not in again:
            yield _of_line(line, making.slug, foraged, tables)


def _listed_again(making: Making, meat: Meat, tables: Tables) -> list[ComputedLine]:
    """Lines that are the meat of `meat:` once more: the same cut by another name, or the same animal by the same weight."""
    own, lines = food_of(meat.name, tables), []
    for line in making.recipe.lines:
        animal = animal_in(line.ingredient.name, tables)
        if line.ingredient.link is not None or animal is None or animal.key != meat.animal:
            continue
        weighs_it = line.grams is not None and line.grams.high == _green_g(making, meat)
        if weighs_it or food_of(line.ingredient.name, tables) == own:
            lines.append(line)
    return lines


def _green_g(making: Making, meat: Meat) -> Fraction | None:
    """The green weight [g] of one meat: all of it, or of several its written share."""
    whole, shares = making.green_weight_g, making.recipe.meat_shares
    return whole if whole is None or not shares else whole * shares[meat.id]


def _of_meat(making: Making, meat: Meat, again: list[ComputedLine], tables: Tables) -> Fetch:
    """The raw meat, once: the more of what `meat:` says and what the lines say of it."""
    thaws = any(stage.name == "thaw" for stage in making.recipe.recipe.stages)
    fresh = f"{making.recipe.recipe.name} has no thaw in its course: take it fresh, or thaw it before."
    return Fetch(
        food=food_of(meat.name, tables),
        name=meat.name,
        place=FREEZER,
        amount=_more(_green_g(making, meat), again, tables),
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


def _of_line(line: ComputedLine, slug: str, foraged: frozenset[str], tables: Tables) -> Fetch:
    ingredient = line.ingredient
    amount, note, source = as_bought(line, tables)
    return Fetch(
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


def foraged_in(recipe: Recipe, tables: Tables) -> frozenset[str]:
    """Ids of the lines whose plant or fungus was gathered wild."""
    return frozenset(fact.line.id for fact in plants_in(recipe, (), tables) if fact.is_foraged)


def place_of(line: Ingredient, foraged: frozenset[str], tables: Tables) -> str:
    """Meat and game lie in the freezer; the garden has only what a table of words says it grows."""
    if line.id in foraged:
        return WOODS
    if tables.garden.says(line.name, KEPT):
        return SHOP
    if animal_in(line.name, tables) is not None:
        return FREEZER
    return GARDEN if any(tables.garden.says(line.name, kind) for kind in GROWN) else SHOP


def _of_cure(making: Making, kitchen: Kitchen) -> Iterator[Fetch]:
    """In the grams that the recipe's page shows. Water is not listed."""
    cure, result = making.recipe.recipe.cure, making.recipe.cure
    if cure is None or result is None:
        return
    grams = _cover_grams(result, kitchen) | _needle_grams(result, kitchen)
    refused = f"{making.recipe.recipe.name} has no cure weights: see its problems."
    for key, food, name in _cure_parts(cure, result, kitchen.tables):
        one = Fetch(food=food, name=name, place=SHELF, amount=Amount(vague=(NO_WEIGHTS,)), making=making.slug)
        if result.weigh is None:
            yield replace(one, note=refused)
        elif key in grams and grams[key].high:
            yield replace(one, amount=weighed(grams[key]))


def _cure_parts(cure: Cure, result: CureResult, tables: Tables) -> Iterator[tuple[str, str, str]]:
    """Key of the weight, key of the food, name: of the cover or the rub, and of a brine mixed apart for the needle.

    Salt of a cure is listed apart from that of the kitchen: by weight any pure one will do.
    """
    apart = result.kind if result.pump_brine is None else result.pump_brine.kind
    for where, brine, kind in (("", cure, result.kind), (NEEDLE, cure.pump_brine, apart)):
        if brine is None:
            continue
        for plain, line in (("salt", brine.salt), ("sugar", brine.sugar)):
            if line is not None:
                name = line.name or plain
                yield f"{where}{plain}", f"{FOR_CURE}{food_of(name, tables)}", name
        if brine.curing_salt is not None:
            yield f"{where}curing_salt", f"{CURING} {kind.key}", kind.title
    if cure.nitrate is not None:
        yield "nitrate", f"{CURING} {cure.nitrate_kind}", cure.nitrate_kind
    if cure.accelerator is not None:
        name = cure.accelerator.name or "accelerator"
        yield "accelerator", f"{CURING} {name.lower()}", name


def _cover_grams(result: CureResult, kitchen: Kitchen) -> dict[str, Span]:
    """The strings of the page as numbers: each weight rounded by its own row, once."""
    if result.contract is None or result.setting is None:
        return {}
    reader = Reader(setting=result.setting, shower=kitchen.shower)
    return {key: _read(text, reader) for key, text in result.contract.shown.items() if text}


def _read(text: Text, reader: Reader) -> Span:
    """The weight of a string [g], from end to end of one that a cup leaves open."""
    weights = [part for part in text if isinstance(part, Weight)]
    return Span.total(
        Span(_rounded(one, one.value, reader), _rounded(one, one.high, reader)) for one in weights
    )


def _rounded(one: Weight, end: Value | None, reader: Reader) -> Fraction:
    grams = reader.value(one.value if end is None else end)
    return reader.shower.rounded(grams, use=one.use, system="metric")


def _needle_grams(result: CureResult, kitchen: Kitchen) -> dict[str, Span]:
    mixed = result.pump_brine
    if mixed is None:
        return {}
    parts = (
        ("salt", mixed.salt_g, "cure weight"),
        ("sugar", mixed.sugar_g, "cure weight"),
        ("curing_salt", mixed.curing_salt_g, "curing salt"),
    )
    return {
        f"{NEEDLE}{key}": Span.of(kitchen.shower.rounded(grams, use=use, system="metric"))
        for key, grams, use in parts
    }
