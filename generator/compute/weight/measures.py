"""Measures of a food in, grams and millilitres out, only through a sourced weight per measure or per piece."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.book import HouseWeight
from generator.model.published import FoodWeight
from generator.model.quantity import Dimension, Measure, Quantity, Span
from generator.tables import Tables

SIZES = ("small", "medium", "large")
"Words before the name of a piece that say how big it is."

OWN_WEIGHING = "own-weighing"
"Stands for a source where the author weighed it."

SIBLINGS = {
    "us_cup": ("us_cup", "us_tbsp", "us_tsp", "millilitre"),
    "us_tbsp": ("us_tbsp", "us_tsp", "us_cup", "millilitre"),
    "us_tsp": ("us_tsp", "us_tbsp", "us_cup", "millilitre"),
}
"Published weights differ between cup, tablespoon and teaspoon of one food: the measure used is looked up first."


@dataclass(frozen=True, slots=True, kw_only=True)
class Weighed:
    """A weight [g] with the source of the weight per measure that gave it."""

    grams: Span
    source: str


def weigh_measures(
    quantity: Quantity, name: str, tables: Tables, house: tuple[HouseWeight, ...] = ()
) -> Weighed | None:
    """The weight of an amount of a food: as written, or through a sourced weight, or None. Never by a near name."""
    written = quantity.total(Dimension.WEIGHT)
    if written is not None:
        return Weighed(grams=written, source="")
    if not quantity.measures:
        return None
    total, source = Span.of(0), ""
    for measure in quantity.measures:
        one = _weigh_one(measure, name, tables, house)
        if one is None:
            return None
        total, source = total.plus(one.grams), one.source or source
    return Weighed(grams=total, source=source)


def _weigh_one(measure: Measure, name: str, tables: Tables, house: tuple[HouseWeight, ...]) -> Weighed | None:
    kind = measure.unit.dimension
    if kind is Dimension.WEIGHT:
        return Weighed(grams=measure.base, source="")
    if kind is Dimension.COUNT:
        return _weigh_pieces(measure, name, tables)
    if kind is not Dimension.VOLUME:
        return None
    # The scale of this kitchen goes before every published weight.
    own = [weight for weight in house if weight.name.lower() == name.lower()]
    for weight in own:
        millilitres = tables.units[weight.unit].factor
        return Weighed(grams=measure.base.times(weight.grams / millilitres), source=OWN_WEIGHING)
    row = _nearest_measure(tables.food(name), measure.unit.key)
    if row is None:
        return None
    per_ml = row.grams / tables.units[row.unit].factor
    return Weighed(grams=measure.base.times(per_ml), source=row.source)


def _nearest_measure(rows: tuple[FoodWeight, ...], unit_key: str) -> FoodWeight | None:
    """The row of the very measure used, else the one nearest to it in size."""
    by_unit = {row.unit: row for row in rows}
    for key in (unit_key, *SIBLINGS.get(unit_key, SIBLINGS["us_cup"])):
        if key in by_unit:
            return by_unit[key]
    return rows[0] if rows else None


def _weigh_pieces(measure: Measure, name: str, tables: Tables) -> Weighed | None:
    """Pieces of a published weight: `1 medium onion`, `3 cloves` of garlic."""
    words = name.lower().split()
    size = words[0] if words and words[0] in SIZES else ""
    food = " ".join(words[1:] if size else words)
    if measure.unit.key != "count":
        food = f"{food} {measure.unit.singular}"
    row = tables.piece(food, size)
    if row is None:
        return None
    return Weighed(grams=measure.span.times(row.grams), source=row.source)


def is_liquid(name: str, tables: Tables) -> bool:
    """True for foods that a metric kitchen measures by volume (and for unknown ones: no weight, no choice)."""
    rows = tables.food(name)
    return not rows or all(row.liquid for row in rows)
