"""rounding.csv in, the rows of the one rounding table out, their ends in base units."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from pathlib import Path

from generator.model.quantity import COUNT, Dimension, Unit
from generator.model.rounding import PINCH, ROUND, STYLES, TRACE, RoundingRow
from generator.tables.csvfile import Row, once, read_rows
from generator.tables.units import SYSTEMS

USES = (
    "ingredient weight",
    "ingredient volume",
    "cure base",
    "cure weight",
    "curing salt",
    "weigh",
    "weigh curing salt",
    "length",
    "count",
    "temperature",
    "minimum temperature",
    "maximum temperature",
    "bought weight",
    "bought volume",
    "bought count",
    "bought curing salt",
)
"What an amount can be shown for."

DEGREES = ("degF", "degC")
"Points on a scale, not units of a size: they have no factor."


def read_rounding(
    folder: Path, units: Mapping[str, Unit], sources: Collection[str]
) -> tuple[RoundingRow, ...]:
    """Every row, as it stands in the file."""
    columns = ("use", "system", "low", "high", "in", "units", "step", "direction", "style")
    seen: set[object] = set()
    rows = []
    for row in read_rows(folder / "rounding.csv", (*columns, "source", "locator", "note")):
        record = _record(row, units, sources)
        once(seen, (record.use, record.system, record.low), row)
        rows.append(record)
    return tuple(rows)


def _record(row: Row, units: Mapping[str, Unit], sources: Collection[str]) -> RoundingRow:
    factor = _factor(row, row.text("in"), units)
    high = row.number("high") * factor if row.optional("high") else None
    record = RoundingRow(
        use=row.one_of("use", USES),
        system=row.one_of("system", SYSTEMS),
        low=row.number("low") * factor,
        high=high,
        units=_units(row, units),
        step=row.amount("step"),
        direction=row.one_of("direction", ROUND),
        style=row.one_of("style", STYLES),
        source=row.source(sources),
        locator=row.text("locator"),
    )
    if record.step == 0 or (high is not None and high <= record.low):
        raise row.error("a step of nothing, or an end that is not above the beginning")
    if record.style in (PINCH, TRACE) and record.direction != "down":
        raise row.error("a trace that is not rounded down could be shown as a larger dose")
    return record


def _factor(row: Row, key: str, units: Mapping[str, Unit]) -> Fraction:
    if key in DEGREES or key == COUNT.key:
        return Fraction(1)
    if key not in units:
        raise row.error(f"unknown unit '{key}'")
    return units[key].factor


def _units(row: Row, units: Mapping[str, Unit]) -> tuple[str, ...]:
    """The units to show, largest first, all of one dimension with the unit of the ends."""
    keys = row.words("units")
    factors = [_factor(row, key, units) for key in keys]
    if factors != sorted(factors, reverse=True):
        raise row.error("the units do not stand largest first")
    if len({_dimension(key, units) for key in (*keys, row.text("in"))}) > 1:
        raise row.error("units of different dimensions")
    return keys


def _dimension(key: str, units: Mapping[str, Unit]) -> Dimension | str:
    if key in DEGREES:
        return key
    return Dimension.COUNT if key == COUNT.key else units[key].dimension
