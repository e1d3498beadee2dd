"""keeping.csv in; how long each kind of food keeps in the fridge, and stays good in the freezer, out."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.tables.csvfile import once, read_rows


@dataclass(frozen=True, slots=True, kw_only=True)
class Keeping:
    """One kind of food. Fridge days are a limit of safety at 40 °F, freezer months one of quality at 0 °F."""

    kind: str
    title: str
    "How a sentence names it: soups and stews with meat."
    fridge_days: Fraction
    freezer_months: Fraction
    sources: tuple[str, ...]
    locator: str
    note: str = ""


def read_keeping(folder: Path, sources: Collection[str]) -> dict[str, Keeping]:
    """The rows by kind."""
    found: dict[str, Keeping] = {}
    seen: set[object] = set()
    columns = ("key", "title", "fridge_days", "freezer_months", "source", "locator", "note")
    for row in read_rows(folder / "keeping.csv", columns):
        kept = Keeping(
            kind=row.text("key"),
            title=row.text("title"),
            fridge_days=row.amount("fridge_days"),
            freezer_months=row.amount("freezer_months"),
            sources=row.sources(sources),
            locator=row.text("locator"),
            note=row.optional("note"),
        )
        once(seen, kept.kind, row)
        found[kept.kind] = kept
    return found
