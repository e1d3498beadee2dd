"""transfer.csv in, its checked rows out: how salt and nitrite move in meat, each with a slow and a fast value.

Rows stay rows here; `compute/transfer` makes its parameters of them, since tables know no formula.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from pathlib import Path

from generator.tables.csvfile import Row, once, read_rows

COLUMNS = ("key", "low", "central", "high", "unit", "source", "locator", "certainty", "note")
UNITS = ("m2/s", "h", "log10/degC", "kJ/mol", "1", "g/g", "mm")
CERTAINTIES = ("seen", "second-hand", "from memory", "judgement")
"How sure a value is; a source may have been seen, and what was taken from it still be a judgement."


def read_transfer(folder: Path, sources: Collection[str]) -> tuple[Mapping[str, str], ...]:
    """Every row as text by column. An empty value in the fast case is endless."""
    seen: set[object] = set()
    rows = read_rows(folder / "transfer.csv", COLUMNS)
    for row in rows:
        once(seen, row.text("key"), row)
        row.one_of("unit", UNITS)
        row.source(sources)
        row.one_of("certainty", CERTAINTIES)
        _check_order(row)
    return tuple(row.cells for row in rows)


def _check_order(row: Row) -> None:
    """Slow, central and fast stand in one order, up or down; a value in the middle that is not there is a slip."""
    slow, central = row.amount("low"), row.amount("central")
    fast: Fraction | None = row.amount("high") if row.optional("high") else None
    rises = slow <= central and (fast is None or central <= fast)
    falls = fast is not None and slow >= central >= fast
    if not (rises or falls):
        raise row.error("central is not between low and high")
