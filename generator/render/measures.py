"""The rounding table and its units in, one script file of data out: the page rounds by the same rows as the command."""

from __future__ import annotations

import json
from collections.abc import Iterable
from typing import Any

from generator.model.page import Asset
from generator.model.quantity import Unit
from generator.model.rounding import RoundingRow
from generator.model.shown import CUP_PARTS, GLYPHS, MOST_CUPS, SMALLEST_CUP_ML, SMALLEST_SPOON, SPOON_PARTS
from generator.tables import Tables

PATH = "assets/measures.js"
ALL = frozenset({"us", "metric", "imperial"})
USES = {
    **dict.fromkeys(("ingredient weight", "ingredient volume", "length", "cure base", "cure weight"), ALL),
    **dict.fromkeys(("curing salt", "weigh", "weigh curing salt"), frozenset({"metric"})),
    "count": frozenset({"us"}),
}
"Uses of the rounding table that follow a scale, in the systems in which they are shown; temperatures do not follow."

TYPED: dict[str, dict[str, str]] = {
    "any": {"g": "gram", "kg": "kilogram", "oz": "ounce", "lb": "pound", "mL": "millilitre", "L": "litre"},
    "us": {"cup": "us_cup", "pt": "us_pint", "qt": "us_quart", "gal": "us_gallon"},
    "imperial": {"pt": "imp_pint", "qt": "imp_quart", "gal": "imp_gallon"},
}
"Signs of units that may be typed into a page, by whose measures the book is written in."


def measures_asset(tables: Tables, system: str) -> Asset:
    """`window.POTHERB_MEASURES`: a plain script, because a page opened from a stick may not fetch anything."""
    rows = [row for row in tables.rounding if row.system in USES.get(row.use, ())]
    data = {
        "rows": _rows(rows),
        "units": {key: _unit(tables.units[key]) for key in _keys(rows) if key in tables.units},
        "glyphs": {str(part): sign for part, sign in GLYPHS.items()},
        "cups": [str(part) for part in sorted(CUP_PARTS)],
        "spoons": [str(part) for part in sorted(SPOON_PARTS)],
        "cup": str(SMALLEST_CUP_ML),
        "spoon": str(SMALLEST_SPOON),
        "mostCups": str(MOST_CUPS),
        "typed": _typed(tables, system),
    }
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"), sort_keys=True)
    return Asset(path=PATH, content=f"var POTHERB_MEASURES={text};\n".encode())


def _rows(rows: Iterable[RoundingRow]) -> dict[str, dict[str, list[Any]]]:
    found: dict[str, dict[str, list[Any]]] = {}
    for row in rows:
        high = "" if row.high is None else str(row.high)
        entry = [str(row.low), high, row.units, str(row.step), row.direction, row.style]
        found.setdefault(row.use, {}).setdefault(row.system, []).append(entry)
    return found


def _keys(rows: Iterable[RoundingRow]) -> list[str]:
    return sorted({key for row in rows for key in row.units})


def _unit(unit: Unit) -> list[str]:
    return [str(unit.factor), unit.singular, unit.plural, unit.dimension.value]


def _typed(tables: Tables, system: str) -> dict[str, list[str]]:
    """Sign, factor and dimension of each unit a reader may type."""
    own = "imperial" if system == "imperial" else "us"
    units = {**TYPED["any"], **TYPED[own]}
    return {
        sign.lower(): [str(tables.units[key].factor), tables.units[key].dimension.value]
        for sign, key in sorted(units.items())
        if key in tables.units
    }
