"""keeping.csv: every row has its source, fridge days are days, and a wrong row is refused with its line."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from generator.tables import TableError, Tables, read_tables
from generator.tables.load import FOLDER


@pytest.mark.parametrize(
    ("old", "new", "words"),
    [
        ("bacon,bacon,7,1,cold", "bacon,bacon,seven,1,cold", "is not a number"),
        ("bacon,bacon,7,1,cold", "bacon,bacon,-7,1,cold", "fridge_days is negative"),
        ("cuts,raw cuts,5", "bacon,raw cuts,5", "bacon stands twice"),
        ("raw sausage,2,2,cold-storage-chart", "raw sausage,2,2,hearsay", "unknown source 'hearsay'"),
    ],
)
def test_wrong_row_is_refused(tmp_path: Path, old: str, new: str, words: str) -> None:
    copy = tmp_path / "tables"
    shutil.copytree(FOLDER, copy, ignore=shutil.ignore_patterns("*.py", "__pycache__"))
    text = (copy / "keeping.csv").read_text(encoding="utf-8")
    assert old in text
    (copy / "keeping.csv").write_text(text.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(TableError, match=words):
        read_tables(copy)


def test_raw_and_vacuum_packed_food_keeps_for_days_and_no_row_for_months(tables: Tables) -> None:
    """FoodSafety.gov chart: nothing raw is kept in the fridge for more than five days."""
    for kind, row in tables.keeping.items():
        assert row.kind == kind
        assert 0 < row.freezer_months <= 12
        assert row.fridge_days <= (5 if row.title.startswith("raw") else 21)
