"""How cooks spell units in, units out, by the system of the book. What has two sizes is refused."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.model.quantity import Dimension, Unit
from generator.tables.csvfile import Row, normal, once, read_rows
from generator.tables.units import SYSTEMS


class AmbiguousUnit(LookupError):
    """A spelling of different sizes in different kitchens, where the book's system does not settle it."""

    def __init__(self, spelling: str, choices: tuple[str, ...]) -> None:
        super().__init__(f"'{spelling}' is not one unit; write {' or '.join(choices)}")
        self.spelling = spelling
        self.choices = choices
        "Spellings to write instead: US pint, imperial pint."


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitName:
    """What one spelling means in each system; None is left open."""

    meaning: dict[str, Unit | None]
    choices: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UnitNames:
    """Spellings of units: those where the case matters (T and t), then all others."""

    exact: dict[str, UnitName]
    folded: dict[str, UnitName]
    spellings: tuple[str, ...]
    "Longest first, as written in the table."

    def find(self, spelling: str, system: str) -> Unit | None:
        """The unit of a spelling in a book of a system; None where the spelling is not known."""
        words = " ".join(spelling.split())
        name = self.exact.get(words) or self.folded.get(normal(words))
        if name is None:
            return None
        unit = name.meaning[system]
        if unit is None:
            raise AmbiguousUnit(words, name.choices)
        return unit


def longest_first(spellings: Collection[str]) -> tuple[str, ...]:
    """In the order in which a reader must try them."""
    return tuple(sorted(spellings, key=lambda spelling: (-len(spelling), spelling)))


def read_unit_names(folder: Path, units: dict[str, Unit], sources: Collection[str]) -> UnitNames:
    """unit_names.csv, its units known and its ambiguous cells with something to write instead."""
    columns = ("spelling", *SYSTEMS, "case sensitive", "write instead", "source", "locator")
    exact: dict[str, UnitName] = {}
    folded: dict[str, UnitName] = {}
    seen: set[object] = set()
    spellings = []
    for row in read_rows(folder / "unit_names.csv", columns):
        row.source(sources)
        spelling = row.text("spelling")
        cased = row.yes("case sensitive")
        once(seen, spelling if cased else normal(spelling), row)
        (exact if cased else folded)[spelling if cased else normal(spelling)] = _name(row, units)
        spellings.append(spelling)
    return UnitNames(exact=exact, folded=folded, spellings=longest_first(spellings))


def _name(row: Row, units: dict[str, Unit]) -> UnitName:
    keys = {system: row.one_of(system, units, empty=True) for system in SYSTEMS}
    meaning = {system: units[key] if key else None for system, key in keys.items()}
    choices = row.words("write instead") if row.optional("write instead") else ()
    if not choices and not all(keys.values()):
        raise row.error("a system is left open and nothing to write instead is named")
    return UnitName(meaning=meaning, choices=choices)


def read_counted(folder: Path, sources: Collection[str]) -> dict[str, Unit]:
    """Things counted (cloves, heads, a dozen), by spelling."""
    columns = ("unit", "count", "singular", "plural", "spellings", "source", "locator")
    counted: dict[str, Unit] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "counted_units.csv", columns):
        row.source(sources)
        unit = Unit(
            key=row.text("unit"),
            dimension=Dimension.COUNT,
            factor=Fraction(row.amount("count")),
            system="any",
            singular=row.text("singular"),
            plural=row.text("plural"),
        )
        for spelling in row.names("spellings"):
            once(seen, spelling, row)
            counted[spelling] = unit
    return counted


def read_vague(folder: Path, sources: Collection[str]) -> dict[str, str]:
    """Amounts without a size (pinch, to taste), by spelling."""
    vague: dict[str, str] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "vague.csv", ("word", "spellings", "source", "locator")):
        row.source(sources)
        for spelling in row.names("spellings"):
            once(seen, spelling, row)
            vague[spelling] = row.text("word")
    return vague
