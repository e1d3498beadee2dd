"""Where a unit and a table stand, as given values, so that a part can be left out; a sentence for each that is missing."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable, Collection, Iterator
from dataclasses import dataclass
from pathlib import Path

from generator.model.published import Source
from generator.model.quantity import Unit
from generator.model.shown import SYSTEMS
from generator.tables import TableError
from generator.tables.csvfile import Shelf
from generator.tables.measures import UnitNames, read_unit_names, read_units

UNPUBLISHED = ("base unit", "house", "practice")
"What stands beside a unit whose size nobody printed: a size of one, a choice, a habit."


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitPlaces:
    """All places of which a unit needs several."""

    folder: Path
    "Of the tables."
    published: Collection[str]
    "Units with a row in tests/published/units.csv."
    opinions: Collection[str]
    "Units that a second program is asked for, or that are said to be in none."


def unit_gaps(of: UnitPlaces) -> list[str]:
    """A sentence for each part of a unit that stands in one place and is missing in another."""
    shelf = Shelf(of.folder, Shelf(of.folder).by("key", "sources.csv", Source))
    try:
        units = read_units(shelf)
        names = read_unit_names(shelf, units)
    except TableError as error:
        return [str(error)]
    return [*_sourceless(shelf), *_unspelt(units, names), *_unchecked(of, units)]


def _beside(folder: Path) -> Iterator[tuple[str, str]]:
    """Each unit of units.txt, and the key of its source."""
    for line in (folder / "units.txt").read_text(encoding="utf-8").splitlines():
        definition, _, remark = line.partition("#")
        if "=" in definition:
            yield definition.partition("=")[0].strip(), remark.partition(",")[0].strip()


def _sourceless(shelf: Shelf) -> Iterator[str]:
    for unit, source in _beside(shelf.folder):
        if source != "base unit" and source not in shelf.sources:
            yield f"units.txt: no key of sources.csv stands beside {unit}"


def _unspelt(units: Collection[str], names: UnitNames) -> Iterator[str]:
    rows = (*names.exact.values(), *names.folded.values())
    spelt = {getattr(row, system) for row in rows for system in SYSTEMS}
    for unit in sorted(set(units) - spelt):
        yield f"{unit} has no spelling in unit_names.csv, so no recipe can use it"


def _unchecked(of: UnitPlaces, units: dict[str, Unit]) -> Iterator[str]:
    for unit, source in _beside(of.folder):
        if source not in UNPUBLISHED and unit not in of.published:
            yield f"{unit} has no row in tests/published/units.csv with its size in print"
    for unit in sorted(set(units) - set(of.opinions)):
        yield f"{unit} is in none of PINT, GNU and OWN of tests/tables/test_units.py"
    for unit in sorted({*of.opinions, *of.published} - set(units)):
        yield f"{unit} is checked, and is not in units.txt"


@dataclass(frozen=True, slots=True, kw_only=True)
class TablePlaces:
    """All places of which a table and a published value need several."""

    folder: Path
    read: Callable[[Path], Collection[str]]
    "Reads the tables of a folder, and gives the names of the files; TableError for a wrong row."
    fields: Collection[str] = ()
    "Of `Tables` and its parts."
    asked: Collection[str] = ()
    "Names that the program takes from something."


WITHOUT_SOURCE = ("sources.csv", "safety_rows.csv", "named_boxes.csv")
"The publications themselves, which rule covers which row of them, and names for boxes of cautions.csv, sourced there."
FOR_TESTS = "safety_rows.csv"
"Rows of the reference list are for the tests alone."


def table_gaps(of: TablePlaces) -> list[str]:
    """A sentence for each part of a table or value that stands in one place and is missing in another."""
    try:
        read = of.read(of.folder)
    except TableError as error:
        return [str(error)]
    files = {path.name: _rows(path) for path in sorted(of.folder.glob("*.csv"))}
    lost = [f"{file} is a table that nothing reads" for file in files if file not in (*read, FOR_TESTS)]
    unasked = [f"Tables.{name} is asked for by nothing" for name in of.fields if name not in of.asked]
    return [*lost, *unasked, *_unsourced(files), *_unused(of.folder, files)]


def _rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


def _unsourced(files: dict[str, list[dict[str, str]]]) -> Iterator[str]:
    sources = {row["key"] for row in files["sources.csv"]}
    for file, rows in files.items():
        for number, row in enumerate(rows if file not in WITHOUT_SOURCE else (), start=2):
            if not row.get("locator", "").strip():
                yield f"{file}: row {number} does not say where in its source it stands"
            if not set(row.get("source", "").split(";")) <= sources:
                yield f"{file}: row {number} has no source of sources.csv"
        if not rows:
            yield f"{file} has no row"


def _unused(folder: Path, files: dict[str, list[dict[str, str]]]) -> Iterator[str]:
    used = {key for rows in files.values() for row in rows for key in row.get("source", "").split(";")}
    units = folder / "units.txt"
    used |= set(re.findall(r"#\s*([\w.-]+)", units.read_text(encoding="utf-8"))) if units.exists() else set()
    for row in files["sources.csv"]:
        if row["key"] not in used:
            yield f"sources.csv: no row of a table rests on {row['key']}"
