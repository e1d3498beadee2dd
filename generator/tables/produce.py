"""produce_refuse.csv in; the share of a vegetable that is stems, parings or shell out, by exact name."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.tables.csvfile import once, read_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Refuse:
    """What of a vegetable as bought is not eaten."""

    food: str
    names: tuple[str, ...]
    percent: Fraction
    "Of the weight as bought."
    part: str
    source: str
    locator: str


def read_produce(folder: Path, sources: Collection[str]) -> dict[str, Refuse]:
    """Refuse by each name of a food. Two foods never share a name."""
    columns = ("food", "names", "refuse_percent", "part", "source", "locator", "note")
    produce: dict[str, Refuse] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "produce_refuse.csv", columns):
        refuse = Refuse(
            food=row.text("food"),
            names=row.names("names"),
            percent=row.amount("refuse_percent"),
            part=row.text("part"),
            source=row.source(sources),
            locator=row.text("locator"),
        )
        if not 0 < refuse.percent < 100:
            raise row.error("refuse of nothing, or of 100 % or more")
        for name in refuse.names:
            once(seen, name, row)
            produce[name] = refuse
    return produce
