"""foods, pieces, salts and scaling (.csv) in; weights per measure and per piece out, by exact name."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from generator.model.published import FoodWeight, PieceWeight
from generator.model.quantity import Dimension, Span, Unit
from generator.tables.csvfile import Row, once, read_rows

SIZES = ("small", "medium", "large", "extra large", "jumbo")
"Sizes of pieces in the source; a piece of one size only has none."

CUP = "us_cup"
"The measure from which other volumes of salt are worked out."


def volume_unit(row: Row, units: Mapping[str, Unit]) -> str:
    """The key of a volume; a weight per spoon or cup has no other unit."""
    key = row.one_of("unit", units)
    if units[key].dimension is not Dimension.VOLUME:
        raise row.error(f"{key} is not a volume")
    return key


def read_foods(
    folder: Path, units: Mapping[str, Unit], sources: Collection[str]
) -> dict[str, tuple[FoodWeight, ...]]:
    """All rows of a food, by each of its names. Two foods never share a name."""
    columns = ("food", "names", "unit", "grams", "liquid", "source", "locator", "note")
    by_name: dict[str, tuple[FoodWeight, ...]] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "foods.csv", columns):
        weight = FoodWeight(
            food=row.text("food"),
            names=row.names("names"),
            unit=volume_unit(row, units),
            grams=row.amount("grams"),
            liquid=row.yes("liquid"),
            source=row.source(sources),
            locator=row.text("locator"),
            note=row.optional("note"),
        )
        once(seen, (weight.food, weight.unit), row)
        _check_food(row, weight, by_name)
        for name in weight.names:
            by_name[name] = (*by_name.get(name, ()), weight)
    return by_name


def _check_food(row: Row, weight: FoodWeight, by_name: Mapping[str, tuple[FoodWeight, ...]]) -> None:
    """Refuses a weight of nothing, a name of two foods, and rows of one food with different names."""
    if weight.grams == 0:
        raise row.error(f"{weight.food} weighs nothing")
    if weight.food not in weight.names:
        raise row.error(f"{weight.food} is not among its own names")
    if {weight.names} != {other.names for other in by_name.get(weight.food, (weight,))}:
        raise row.error(f"the rows of {weight.food} have different names")
    for name in weight.names:
        if any(other.food != weight.food for other in by_name.get(name, ())):
            raise row.error(f"'{name}' is the name of two foods")


def read_pieces(folder: Path, sources: Collection[str]) -> dict[tuple[str, str], PieceWeight]:
    """Weights of one piece, by name and size."""
    columns = ("food", "names", "size", "grams", "refuse_percent", "source", "locator")
    pieces: dict[tuple[str, str], PieceWeight] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "pieces.csv", columns):
        refuse = row.amount("refuse_percent") if row.optional("refuse_percent") else None
        if refuse is not None and not refuse < 100:
            raise row.error("refuse of 100 % or more")
        piece = PieceWeight(
            food=row.text("food"),
            names=row.names("names"),
            size=row.one_of("size", SIZES, empty=True),
            grams=row.amount("grams"),
            refuse_percent=refuse,
            source=row.source(sources),
            locator=row.text("locator"),
        )
        for name in piece.names:
            once(seen, (name, piece.size), row)
            pieces[name, piece.size] = piece
    return pieces


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Salts:
    """What one measure of a salt can weigh [g] where its crystal is unknown, or published ones disagree."""

    by_name: dict[str, str]
    "Crystal by name of a salt."
    spans: dict[tuple[str, str], Span]
    "Range [g] by crystal and unit."

    def span(self, name: str, unit: Unit) -> Span | None:
        """The range of one measure of such a salt; None for another salt, or for a unit that is no volume."""
        crystal = self.by_name.get(name)
        if crystal is None or unit.dimension is not Dimension.VOLUME:
            return None
        return self.spans.get((crystal, unit.key))


def unknown_crystal(written: str, grams: Span | None) -> tuple[str, str]:
    """Sentence and hint for salt by volume where its grams decide and its crystal is not told."""
    could = (
        f" could weigh {float(grams.low):.3g} to {float(grams.high):.3g} g"
        if grams
        else " has no certain weight"
    )
    return (
        f"'{written}'{could}.",
        "Name the crystal (table salt, dense-flake salt, hollow-flake salt), or weigh the salt.",
    )


def read_salts(folder: Path, units: Mapping[str, Unit], sources: Collection[str]) -> Salts:
    """salts.csv, with ranges for every unit of volume: as published, or in proportion to the cup."""
    columns = ("crystal", "names", "unit", "low_g", "high_g", "source", "locator")
    by_name: dict[str, str] = {}
    spans: dict[tuple[str, str], Span] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "salts.csv", columns):
        row.sources(sources)
        crystal, unit = row.text("crystal"), volume_unit(row, units)
        once(seen, (crystal, unit), row)
        span = Span(row.amount("low_g"), row.amount("high_g"))
        if span.low > span.high:
            raise row.error("low_g is above high_g")
        spans[crystal, unit] = span
        for name in row.names("names"):
            if by_name.setdefault(name, crystal) != crystal:
                raise row.error(f"'{name}' is the name of two salts")
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


def read_scaling(folder: Path, sources: Collection[str]) -> dict[str, str]:
    """Why an ingredient wants a second look when a recipe grows, by exact name."""
    checks: dict[str, str] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "scaling.csv", ("kind", "names", "check", "source", "locator")):
        row.source(sources)
        for name in row.names("names"):
            once(seen, name, row)
            checks[name] = row.text("check")
    return checks
