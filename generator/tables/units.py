"""units.txt in, exact units out. The only module that knows pint; recipe text never reaches it."""

from __future__ import annotations

import functools
from collections.abc import Collection
from fractions import Fraction
from pathlib import Path

from generator.model.quantity import Dimension, Unit
from generator.tables.csvfile import TableError, once, read_rows

SYSTEMS = ("us", "metric", "imperial")
"Systems of units a book can be written or shown in."

BASES = {
    Dimension.WEIGHT: "gram",
    Dimension.VOLUME: "millilitre",
    Dimension.LENGTH: "millimetre",
    Dimension.TIME: "minute",
}
"The base unit of each dimension; counts have no unit of their own here."


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


def read_units(folder: Path, sources: Collection[str]) -> dict[str, Unit]:
    """Every unit of units.txt with the system and the words of unit_titles.csv."""
    sizes = unit_sizes(folder / "units.txt")
    columns = ("unit", "system", "singular", "plural", "source", "locator")
    units: dict[str, Unit] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "unit_titles.csv", columns):
        row.source(sources)
        key = row.one_of("unit", sizes)
        once(seen, key, row)
        dimension, factor = sizes[key]
        units[key] = Unit(
            key=key,
            dimension=dimension,
            factor=factor,
            system=row.one_of("system", (*SYSTEMS, "any")),
            singular=row.text("singular"),
            plural=row.text("plural"),
        )
    missing = sorted(set(sizes) - set(units))
    if missing:
        raise TableError("unit_titles.csv", 1, f"no row for {', '.join(missing)}")
    return units
