"""brine.csv in, the rows of the brine table at 60 °F out: degrees, per cent, pounds of salt, specific gravity."""

from __future__ import annotations

from collections.abc import Collection
from itertools import pairwise
from pathlib import Path

from generator.model.published import BrineRow
from generator.tables.csvfile import Row, read_rows

FIGURES = ("percent", "lb_salt_per_us_gal_water", "specific_gravity")
"Columns that grow from row to row; `published` names those that are printed in the source."


def read_brine(folder: Path, sources: Collection[str]) -> tuple[BrineRow, ...]:
    """Rows in order of strength, each figure above that of the row before, so that one may read between them."""
    columns = ("degrees", *FIGURES, "published", "source", "locator")
    rows = read_rows(folder / "brine.csv", columns)
    for before, after in pairwise(rows):
        for column in ("degrees", *FIGURES):
            if after.amount(column) <= before.amount(column):
                raise after.error(f"{column} is not above that of the row before")
    return tuple(_brine_row(row, sources) for row in rows)


def _brine_row(row: Row, sources: Collection[str]) -> BrineRow:
    published = row.words("published") if row.optional("published") else ()
    for column in published:
        if column not in FIGURES:
            raise row.error(f"published names '{column}', which is no figure")
    return BrineRow(
        degrees=row.amount("degrees"),
        percent=row.amount("percent"),
        lb_salt_per_us_gal_water=row.amount("lb_salt_per_us_gal_water"),
        specific_gravity=row.amount("specific_gravity"),
        published=published,
        source=row.source(sources),
        locator=row.text("locator"),
    )
