"""foods, pieces, salts, scaling and produce_refuse (.csv) in; what foods weigh, and what of them is left, by exact name."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import Annotated, Any

from generator.model.published import Cited, FoodWeight, PieceWeight, Sourced
from generator.model.quantity import Dimension, Span, Unit
from generator.tables.csvfile import Shelf, Wrong, is_range, never, own_name
from generator.tables.measures import is_volume

SIZES = ("small", "medium", "large", "extra large", "jumbo")
"Sizes of pieces in the source; a piece of one size only has none."

LOOSE_OR_PACKED = {
    **dict.fromkeys(
        ("brown sugar", "light brown sugar", "dark brown sugar"),
        ("unpacked brown sugar", "packed brown sugar"),
    ),
    **dict.fromkeys(
        ("powdered sugar", "confectioners' sugar"), ("sifted powdered sugar", "unsifted powdered sugar")
    ),
}
"Sugars whose cup has two published weights, and the foods that have them: its lightest and its heaviest."

CUP = "us_cup"
"The measure from which other volumes of salt are worked out."


@dataclass(frozen=True, slots=True, kw_only=True)
class SaltWeight(Cited):
    """What one measure of a salt can weigh."""

    crystal: str
    names: tuple[str, ...]
    unit: str
    low_g: Fraction
    high_g: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Scaling(Sourced):
    """Why an ingredient wants a second look when a recipe grows."""

    kind: str
    names: tuple[str, ...]
    check: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Refuse(Sourced):
    """What of a vegetable as bought is not eaten."""

    food: str
    names: tuple[str, ...]
    percent: Annotated[Fraction, "refuse_percent"]
    "Of the weight as bought."
    part: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Salts:
    """What one measure of a salt can weigh [g] where its crystal is unknown, or published ones disagree."""

    by_name: dict[str, str]
    "Crystal by name of a salt."
    spans: dict[tuple[str, str], Span]
    "Range [g] by crystal and unit."

    def span(self, name: str, unit_key: str) -> Span | None:
        """The range of one measure of such a salt; None for another salt, or for a unit that is no volume."""
        return self.spans.get((self.by_name.get(name, ""), unit_key))


def unknown_crystal(written: str, grams: Span | None) -> tuple[str, str]:
    """Sentence and hint for salt by volume where its grams decide and its crystal is not told."""
    could = "has no certain weight"
    if grams:
        could = f"could weigh {float(grams.low):.3g} to {float(grams.high):.3g} g"
    hint = "Name the crystal (table salt, dense-flake salt, hollow-flake salt), or weigh the salt."
    return f"'{written}' {could}.", hint


def read_foods(shelf: Shelf, units: Mapping[str, Unit]) -> dict[str, tuple[FoodWeight, ...]]:
    """All rows of a food, by each of its names. Two foods never share a name."""
    named = (
        partial(own_name, "food"),
        partial(_same_names, {}),
        partial(_one_owner, {}, "food", "two foods"),
    )
    checks = (partial(is_volume, units), _weighs, *named)
    rows = shelf.by(("food", "unit"), "foods.csv", FoodWeight, *checks, unit=units)
    by_name: dict[str, tuple[FoodWeight, ...]] = {}
    for weight in rows.values():
        for name in weight.names:
            by_name[name] = (*by_name.get(name, ()), weight)
    return by_name


def _weighs(weight: FoodWeight) -> None:
    if weight.grams == 0:
        raise Wrong(f"{weight.food} weighs nothing")


def _same_names(known: dict[str, tuple[str, ...]], weight: FoodWeight) -> None:
    """Whichever name is used, all measures of a food are found."""
    if known.setdefault(weight.food, weight.names) != weight.names:
        raise Wrong(f"the rows of {weight.food} have different names")


def _one_owner(owners: dict[str, str], key: str, two: str, row: Any) -> None:
    """A name that is enough for a weight belongs to one food, or to one crystal of salt."""
    for name in row.names:
        if owners.setdefault(name, getattr(row, key)) != getattr(row, key):
            raise Wrong(f"'{name}' is the name of {two}")


def read_pieces(shelf: Shelf) -> dict[tuple[str, str], PieceWeight]:
    """Weights of one piece, by name and size."""
    nothing_left = never("refuse of 100 % or more", lambda piece: (piece.refuse_percent or 0) >= 100)
    return shelf.by(("names", "size"), "pieces.csv", PieceWeight, nothing_left, size=SIZES)


def read_salts(shelf: Shelf, units: Mapping[str, Unit]) -> Salts:
    """Ranges for every unit of volume: as published, or in proportion to the cup."""
    checks = (partial(is_volume, units), is_range, partial(_one_owner, {}, "crystal", "two salts"))
    rows = shelf.by(("crystal", "unit"), "salts.csv", SaltWeight, *checks, unit=units)
    spans = {key: Span(row.low_g, row.high_g) for key, row in rows.items()}
    by_name = {name: row.crystal for row in rows.values() for name in row.names}
    # A weight published for a unit goes before the cup's in proportion, which is worked out and not printed.
    return Salts(by_name=by_name, spans=_other_volumes(spans, units) | spans)


def _other_volumes(
    spans: Mapping[tuple[str, str], Span], units: Mapping[str, Unit]
) -> dict[tuple[str, str], Span]:
    cups = {crystal: span for (crystal, unit), span in spans.items() if unit == CUP}
    return {
        (crystal, unit.key): span.times(unit.factor / units[CUP].factor)
        for crystal, span in cups.items()
        for unit in units.values()
        if unit.dimension is Dimension.VOLUME
    }


def read_produce(shelf: Shelf) -> dict[str, Refuse]:
    """Refuse by each name of a food. Two foods never share a name."""
    no_refuse = never("refuse of nothing, or of 100 % or more", lambda row: not 0 < row.percent < 100)
    return shelf.by("names", "produce_refuse.csv", Refuse, no_refuse)
