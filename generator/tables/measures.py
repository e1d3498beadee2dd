"""units.txt, how cooks spell units and how they are rounded (.csv) in; exact units out, by the system of the book.

The only module that knows pint; recipe text never reaches it. What has two sizes is refused.
"""

from __future__ import annotations

import functools
from collections.abc import Collection, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from pathlib import Path
from typing import Annotated, Any

from generator.model.published import Sourced
from generator.model.quantity import COUNT, Dimension, Unit
from generator.model.rounding import PINCH, ROUND, STYLES, TRACE, RoundingRow
from generator.model.shown import SYSTEMS
from generator.tables.csvfile import Shelf, Signed, TableError, Words, Wrong, never, normal

BASES = {
    Dimension.WEIGHT: "gram",
    Dimension.VOLUME: "millilitre",
    Dimension.LENGTH: "millimetre",
    Dimension.TIME: "minute",
}
"The base unit of each dimension; counts have no unit of their own here."


USES = (
    *("ingredient weight", "ingredient volume", "cure base", "cure weight", "curing salt"),
    *("weigh", "weigh curing salt", "length", "count"),
    *("temperature", "minimum temperature", "maximum temperature", "temperature change"),
    *("bought weight", "bought volume", "bought count", "bought curing salt"),
)
"What an amount can be shown for."

DEGREES = ("degF", "degC")
"Points on a scale, not units of a size: they have no factor."


class AmbiguousUnit(LookupError):
    """A spelling of different sizes in different kitchens, where the book's system does not settle it."""

    def __init__(self, spelling: str, choices: tuple[str, ...]) -> None:
        super().__init__(f"'{spelling}' is not one unit; write {' or '.join(choices)}")
        self.spelling = spelling
        self.choices = choices
        "Spellings to write instead: US pint, imperial pint."


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitTitle(Sourced):
    """The system and the words of one unit of units.txt."""

    unit: str
    system: str
    singular: str
    plural: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CountedThing(Sourced):
    """Something counted: cloves, heads, a dozen."""

    unit: str
    count: Fraction
    singular: str
    plural: str
    spellings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CanSize(Sourced):
    """What a can named by its number holds."""

    size: str
    spellings: tuple[str, ...]
    low_cups: Annotated[Fraction, "low cups"]
    high_cups: Annotated[Fraction, "high cups"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Spellings(Sourced):
    """What is written in several ways, and the one word for it: an amount without a size, a place."""

    word: str
    spellings: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class UnitName(Sourced):
    """The unit that a spelling means in a book of each system; empty is left open."""

    spelling: str
    us: str = ""
    metric: str = ""
    imperial: str = ""
    is_cased: Annotated[bool, "case sensitive"]
    "T and t."
    choices: Annotated[Words, "write instead"] = ()

    @property
    def compared(self) -> str:
        """The spelling as it is looked up."""
        return self.spelling if self.is_cased else normal(self.spelling)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class UnitNames:
    """Spellings of units: those where the case matters, then all others."""

    units: Mapping[str, Unit]
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
        key = getattr(name, system)
        if not key:
            raise AmbiguousUnit(words, name.choices)
        return self.units[key]


def longest_first(spellings: Collection[str]) -> tuple[str, ...]:
    """In the order in which a reader must try them: `fl oz` before `fl`."""
    return tuple(sorted(spellings, key=lambda spelling: (-len(spelling), spelling)))


@functools.cache
def unit_sizes(path: Path) -> dict[str, tuple[Dimension, Fraction]]:
    """Each unit of a definitions file with its dimension and its exact size in base units."""
    import pint  # late, and once: it takes longer to import than all tables to read

    lines = path.read_text(encoding="utf-8").splitlines()
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(None, non_int_type=Fraction)
    registry.load_definitions(lines)
    kinds = {registry.get_dimensionality(base): kind for kind, base in BASES.items()}
    sizes = {}
    for number, line in enumerate(lines, start=1):
        key = line.partition("#")[0].partition("=")[0].strip()
        if key:
            kind = kinds.get(registry.get_dimensionality(key))
            if kind is None or key in sizes:
                raise TableError(path.name, number, f"{key} has no known dimension, or stands twice")
            sizes[key] = (kind, Fraction(registry.convert(Fraction(1), key, BASES[kind])))
    return sizes


def read_units(shelf: Shelf) -> dict[str, Unit]:
    """Every unit of units.txt with the system and the words of unit_titles.csv."""
    sizes = unit_sizes(shelf.folder / "units.txt")
    titles = shelf.by("unit", "unit_titles.csv", UnitTitle, unit=sizes, system=(*SYSTEMS, "any"))
    missing = sorted(set(sizes) - set(titles))
    if missing:
        raise TableError("unit_titles.csv", 1, f"no row for {', '.join(missing)}")
    return {key: _unit(row, *sizes[key], row.system) for key, row in titles.items()}


def _unit(row: UnitTitle | CountedThing, dimension: Dimension, factor: Fraction, system: str) -> Unit:
    said = {"singular": row.singular, "plural": row.plural}
    return Unit(key=row.unit, dimension=dimension, factor=factor, system=system, **said)


def is_volume(units: Mapping[str, Unit], row: Any) -> None:
    """Refuses a weight per spoon or cup that is given for another unit."""
    if units[row.unit].dimension is not Dimension.VOLUME:
        raise Wrong(f"{row.unit} is not a volume")


def read_unit_names(shelf: Shelf, units: Mapping[str, Unit]) -> UnitNames:
    """Every spelling, its units known and its ambiguous cells with something to write instead."""
    said = "a system is left open and nothing to write instead is named"
    open_end = never(said, lambda row: not (row.choices or (row.us and row.metric and row.imperial)))
    rows = shelf.by("compared", "unit_names.csv", UnitName, open_end, **dict.fromkeys(SYSTEMS, units))
    return UnitNames(
        units=units,
        exact={key: row for key, row in rows.items() if row.is_cased},
        folded={key: row for key, row in rows.items() if not row.is_cased},
        spellings=longest_first([row.spelling for row in rows.values()]),
    )


def read_counted(shelf: Shelf) -> dict[str, Unit]:
    """Things counted, by spelling."""
    rows = shelf.by("spellings", "counted_units.csv", CountedThing)
    return {name: _unit(row, Dimension.COUNT, row.count, "any") for name, row in rows.items()}


@dataclass(frozen=True, slots=True, kw_only=True)
class WrittenRow(RoundingRow):
    """A row as the file has it, its ends in a unit of its own; degrees may be below zero."""

    unit: str
    units: Words
    low: Signed
    high: Signed | None
    note: str = ""


def read_rounding(shelf: Shelf, units: Mapping[str, Unit]) -> tuple[RoundingRow, ...]:
    """Every row, as it stands in the file."""
    sizes = {key: (unit.factor, str(unit.dimension)) for key, unit in {COUNT.key: COUNT, **units}.items()}
    sizes |= {key: (Fraction(1), key) for key in DEGREES}
    lists = {"use": USES, "system": SYSTEMS, "direction": ROUND, "style": STYLES}
    key, checks = ("use", "system", "low"), (_rounds, functools.partial(_units_fit, sizes))
    rows = shelf.by(key, "rounding.csv", WrittenRow, *checks, unit=sizes, units=sizes, **lists)
    return tuple(_in_base(row, sizes[row.unit][0]) for row in rows.values())


def _in_base(row: WrittenRow, factor: Fraction) -> RoundingRow:
    return replace(row, low=row.low * factor, high=None if row.high is None else row.high * factor)


def _rounds(row: WrittenRow) -> None:
    if row.step == 0 or (row.high is not None and row.high <= row.low):
        raise Wrong("a step of nothing, or an end that is not above the beginning")
    if row.style in (PINCH, TRACE) and row.direction != "down":
        raise Wrong("a trace that is not rounded down could be shown as a larger dose")


def _units_fit(sizes: Mapping[str, tuple[Fraction, str]], row: WrittenRow) -> None:
    """The units to show stand largest first, all of one dimension with the unit of the ends."""
    factors = [sizes[key][0] for key in row.units]
    if factors != sorted(factors, reverse=True):
        raise Wrong("the units do not stand largest first")
    if len({sizes[key][1] for key in (*row.units, row.unit)}) > 1:
        raise Wrong("units of different dimensions")
