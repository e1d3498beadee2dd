"""keeping.csv: every row has its source, fridge days are days, and a wrong row is refused with its line."""

from __future__ import annotations

from pathlib import Path

import pytest

from generator.tables import TableError, Tables, read_tables
from tests.tables.conftest import spoil


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("bacon,bacon,7,1,cold", "bacon,bacon,seven,1,cold", "is not a number"),
        ("bacon,bacon,7,1,cold", "bacon,bacon,-7,1,cold", "fridge_days is negative"),
        ("cuts,raw cuts,5", "bacon,raw cuts,5", "bacon stands twice"),
        ("raw sausage,2,2,cold-storage-chart", "raw sausage,2,2,hearsay", "unknown source 'hearsay'"),
    ],
)
def test_wrong_row_is_refused(folder: Path, old: str, new: str, words: str) -> None:
    spoil(folder, "keeping.csv", old, new)
    with pytest.raises(TableError, match=words):
        read_tables(folder)


def test_raw_and_vacuum_packed_food_keeps_for_days_and_no_row_for_months(tables: Tables) -> None:
    """FoodSafety.gov chart: nothing raw is kept in the fridge for more than five days."""
    for kind, row in tables.keeping.items():
        assert row.kind == kind
        assert 0 < row.freezer_months <= 12
        assert row.fridge_days <= (5 if row.title.startswith("raw") else 21)
