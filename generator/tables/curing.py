"""curing_salts.csv, spoons.csv, limits.csv, fish_nitrite.csv and constants.csv in; records of curing out."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from fractions import Fraction
from pathlib import Path

from generator.model.published import CuringSalt, NitriteLimit, SpoonWeight
from generator.model.quantity import Unit
from generator.tables.csvfile import Row, once, read_rows
from generator.tables.foods import volume_unit

CUTS = ("whole", "ground", "belly")
METHODS = ("brine", "dry")
CONSTANT_UNITS = ("percent", "ppm", "share", "degF", "g/mL", "lb/gal", "g", "mg", "h", "min", "in")


def read_curing_salts(folder: Path, sources: Collection[str]) -> dict[str, CuringSalt]:
    """Curing salts by each of their names."""
    columns = ("key", "names", "title", "nitrite", "nitrate", "salt", "source", "locator", "note")
    salts: dict[str, CuringSalt] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "curing_salts.csv", columns):
        salt = _curing_salt(row, sources)
        for name in salt.names:
            once(seen, name, row)
            salts[name] = salt
    return salts


def _curing_salt(row: Row, sources: Collection[str]) -> CuringSalt:
    salt = CuringSalt(
        key=row.text("key"),
        names=row.names("names"),
        title=row.text("title"),
        nitrite=row.amount("nitrite"),
        nitrate=row.amount("nitrate"),
        salt=row.amount("salt"),
        source=row.source(sources),
        locator=row.text("locator"),
        note=row.optional("note"),
    )
    if salt.key not in salt.names:
        raise row.error(f"{salt.key} is not among its own names")
    if salt.nitrite + salt.nitrate + salt.salt > 1:
        raise row.error("the shares are more than the whole")
    return salt


def read_spoons(folder: Path, units: Mapping[str, Unit], sources: Collection[str]) -> dict[str, SpoonWeight]:
    """The published range of a spoon of curing salt, by unit."""
    spoons: dict[str, SpoonWeight] = {}
    seen: set[object] = set()
    columns = ("unit", "low_g", "high_g", "source", "locator")
    for row in read_rows(folder / "spoons.csv", columns):
        spoon = SpoonWeight(
            unit=volume_unit(row, units),
            low_g=row.amount("low_g"),
            high_g=row.amount("high_g"),
            source=row.source(sources),
            locator=row.text("locator"),
        )
        if spoon.low_g > spoon.high_g:
            raise row.error("low_g is above high_g")
        once(seen, spoon.unit, row)
        spoons[spoon.unit] = spoon
    return spoons


def read_limits(folder: Path, sources: Collection[str]) -> dict[tuple[str, str], NitriteLimit]:
    """The most ingoing nitrite, by cut and method; every pair has a row."""
    columns = ("cut", "method", "limit_ppm", "source", "locator", "note")
    limits: dict[tuple[str, str], NitriteLimit] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "limits.csv", columns):
        limit = NitriteLimit(
            cut=row.one_of("cut", CUTS),
            method=row.one_of("method", METHODS),
            limit_ppm=row.amount("limit_ppm"),
            source=row.source(sources),
            locator=row.text("locator"),
            note=row.optional("note"),
        )
        once(seen, (limit.cut, limit.method), row)
        limits[limit.cut, limit.method] = limit
    return limits


def read_fish_limits(
    folder: Path, animals: Collection[str], sources: Collection[str]
) -> dict[str, tuple[Fraction, Fraction]]:
    """The most nitrite and the most nitrate [ppm] in the few fish that may have any, by animal."""
    limits: dict[str, tuple[Fraction, Fraction]] = {}
    seen: set[object] = set()
    columns = ("animal", "limit_ppm", "nitrate_ppm", "source", "locator")
    for row in read_rows(folder / "fish_nitrite.csv", columns):
        row.source(sources)
        key = row.one_of("animal", animals)
        once(seen, key, row)
        limits[key] = (row.amount("limit_ppm"), row.amount("nitrate_ppm"))
    return limits


def read_constants(folder: Path, sources: Collection[str]) -> dict[str, Fraction]:
    """Single published numbers by key; the unit of each stands in its row."""
    constants: dict[str, Fraction] = {}
    seen: set[object] = set()
    columns = ("key", "value", "unit", "source", "locator")
    for row in read_rows(folder / "constants.csv", columns):
        row.source(sources)
        row.one_of("unit", CONSTANT_UNITS)
        once(seen, row.text("key"), row)
        constants[row.text("key")] = row.number("value")
    return constants
