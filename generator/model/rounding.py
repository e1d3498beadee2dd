"""Rounding: the only place where an exact number loses digits, always in a named direction.

One table (`tables/rounding.csv`) says to which step an amount is rounded; its rows are passed in.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.model.published import Sourced


@dataclass(frozen=True, slots=True, kw_only=True)
class RoundingRow(Sourced):
    """One row of the rounding table: amounts of one use from `low` up to, not including, `high`."""

    use: str
    "ingredient weight, ingredient volume, cure base, cure weight, curing salt, length, temperature"
    system: str
    "us, metric, imperial"
    low: Fraction
    "In base units (g, mL, mm); belongs to the row."
    high: Fraction | None
    "In base units; belongs to the next row. None: no end."
    units: tuple[str, ...]
    "Keys of the units to show, largest first: (pound, ounce). The step is in the last one."
    step: Fraction
    "In the last unit."
    direction: str
    "nearest, up, down"
    style: str
    "fraction or decimal; trace and pinch for what lies below the finest measure"


def round_down(value: Fraction, step: Fraction) -> Fraction:
    """The largest multiple of step that is not above value."""
    return value // step * step


def round_up(value: Fraction, step: Fraction) -> Fraction:
    """The least multiple of step that is not below value."""
    return -(-value // step) * step


def round_nearest(value: Fraction, step: Fraction) -> Fraction:
    """The nearest multiple of step; a tie goes up, as the published guides have it."""
    return (value + step / 2) // step * step


ROUND = {"down": round_down, "up": round_up, "nearest": round_nearest}
"The directions a row of the table can name."
PINCH, TRACE = "pinch", "trace"
STYLES = ("fraction", "decimal", PINCH, TRACE)
"How a row shows its numbers: `pinch` as a part of the smallest spoon, `trace` as a decimal that may be under its step."


def find_row(rows: tuple[RoundingRow, ...], *, use: str, system: str, value: Fraction) -> RoundingRow:
    """The row for an amount in base units; a gap in the table is a bug and raises LookupError."""
    for row in rows:
        matches = row.use == use and row.system == system
        if matches and row.low <= value and (row.high is None or value < row.high):
            return row
    raise LookupError(f"no rounding row for {use}, {system}, {value}")


def round_by_row(row: RoundingRow, in_last_unit: Fraction) -> Fraction:
    """Rounded to the row's step; nothing but zero is ever shown as zero unless the row rounds down."""
    rounded = ROUND[row.direction](in_last_unit, row.step)
    if rounded == 0 and in_last_unit > 0 and row.direction != "down":
        return row.step
    return rounded
