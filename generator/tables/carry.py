"""refuse, losses, meat_water, sodium and salty_words (.csv) in; what salt and weight do on their way to a dish out."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.model.published import Animal, PublishedRange
from generator.tables.csvfile import Row, normal, once, read_rows

ANY = "any"
"A row for every kind or every cut that has no row of its own."
PARTS = ("bone", "skin")
AFTER = ("dry", "brine", ANY)
PER_CENT = Fraction(100)
"Source: per cent, a definition."


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class CarryTables:
    """Look-ups are by exact name: the animal before its group, a cut before any cut; None is not published."""

    refuse: Mapping[tuple[str, str, str], PublishedRange]
    "Share of the raw piece, by part, kind and cut."
    losses: Mapping[tuple[str, str], PublishedRange]
    "Weight left, as a share, by stage and what went before."
    meat_water: Mapping[tuple[str, str], PublishedRange]
    "Share of water in the raw meat, by kind and cut."
    sodium: Mapping[str, PublishedRange]
    "[mg per 100 g] by the name of a salt or of a salted food."
    salty_words: frozenset[str]
    "Words in the name of a food that say it is salted, though nobody knows how much."

    def refuse_of(self, part: str, animal: Animal | None, cut: str) -> PublishedRange | None:
        """The share of bone or of skin in a raw piece."""
        for kind in _kinds(animal):
            found = self.refuse.get((part, kind, normal(cut)))
            if found is not None:
                return found
        return None

    def loss_of(self, stage: str, after: str = ANY) -> PublishedRange | None:
        """The share of the weight that a stage leaves."""
        return self.losses.get((stage, after)) or self.losses.get((stage, ANY))

    def water_of(self, animal: Animal | None, cut: str) -> PublishedRange:
        """The share of water in raw meat; that of lean meat where nothing else is published."""
        for kind in (*_kinds(animal), ANY):
            for name in (normal(cut), ANY):
                found = self.meat_water.get((kind, name))
                if found is not None and (kind, name) != (ANY, ANY):
                    return found
        return self.meat_water[ANY, ANY]

    def sodium_of(self, name: str) -> PublishedRange | None:
        """Sodium of a salt or a salted food [mg per 100 g]."""
        return self.sodium.get(normal(name))

    def is_salty(self, name: str) -> bool:
        """True for a name with a word that says salted."""
        return not self.salty_words.isdisjoint(normal(name).split())


def _kinds(animal: Animal | None) -> tuple[str, ...]:
    return () if animal is None else (animal.key, animal.group)


def read_carry(folder: Path, kinds: Collection[str], sources: Collection[str]) -> CarryTables:
    """All five tables. `kinds` are the keys of animals and the groups they are in."""
    return CarryTables(
        refuse=_read_refuse(folder, kinds, sources),
        losses=_read_losses(folder, sources),
        meat_water=_read_meat_water(folder, kinds, sources),
        sodium=_read_sodium(folder, sources),
        salty_words=_read_salty_words(folder, sources),
    )


def _range(row: Row, low: str, high: str, under: Fraction, sources: Collection[str]) -> PublishedRange:
    """The two ends of a row, divided by `under`."""
    row.sources(sources)
    found = PublishedRange(
        low=row.amount(low) / under,
        high=row.amount(high) / under,
        source=row.text("source"),
        locator=row.text("locator"),
        note=row.optional("note"),
    )
    if found.low > found.high:
        raise row.error(f"{low} is above {high}")
    return found


def _kinds_of(row: Row, kinds: Collection[str]) -> tuple[str, ...]:
    for kind in row.names("kinds"):
        if kind not in kinds and kind != ANY:
            raise row.error(f"unknown kind '{kind}'")
    return row.names("kinds")


def _read_refuse(
    folder: Path, kinds: Collection[str], sources: Collection[str]
) -> dict[tuple[str, str, str], PublishedRange]:
    columns = ("part", "kinds", "cuts", "low_percent", "high_percent", "source", "locator", "note")
    shares: dict[tuple[str, str, str], PublishedRange] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "refuse.csv", columns):
        share = _range(row, "low_percent", "high_percent", PER_CENT, sources)
        if share.high >= 1:
            raise row.error("refuse of 100 % or more")
        for kind in _kinds_of(row, kinds):
            for cut in row.names("cuts"):
                key = (row.one_of("part", PARTS), kind, cut)
                once(seen, key, row)
                shares[key] = share
    return shares


def _read_losses(folder: Path, sources: Collection[str]) -> dict[tuple[str, str], PublishedRange]:
    columns = ("stage", "after", "low", "high", "source", "locator", "note")
    losses: dict[tuple[str, str], PublishedRange] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "losses.csv", columns):
        left = _range(row, "low", "high", Fraction(1), sources)
        if left.low == 0:
            raise row.error("nothing is left")
        key = (row.text("stage"), row.one_of("after", AFTER))
        once(seen, key, row)
        losses[key] = left
    return losses


def _read_meat_water(
    folder: Path, kinds: Collection[str], sources: Collection[str]
) -> dict[tuple[str, str], PublishedRange]:
    columns = ("kinds", "cuts", "low", "high", "source", "locator", "note")
    shares: dict[tuple[str, str], PublishedRange] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "meat_water.csv", columns):
        share = _range(row, "low", "high", Fraction(1), sources)
        if share.low == 0 or share.high >= 1:
            raise row.error("meat is neither dry nor water alone")
        for kind in _kinds_of(row, kinds):
            for cut in row.names("cuts"):
                once(seen, (kind, cut), row)
                shares[kind, cut] = share
    return shares


def _read_sodium(folder: Path, sources: Collection[str]) -> dict[str, PublishedRange]:
    columns = ("food", "names", "low_mg", "high_mg", "source", "locator", "note")
    sodium: dict[str, PublishedRange] = {}
    seen: set[object] = set()
    for row in read_rows(folder / "sodium.csv", columns):
        found = _range(row, "low_mg", "high_mg", Fraction(1), sources)
        if row.text("food") not in row.names("names"):
            raise row.error(f"{row.text('food')} is not among its own names")
        for name in row.names("names"):
            once(seen, name, row)
            sodium[name] = found
    return sodium


def _read_salty_words(folder: Path, sources: Collection[str]) -> frozenset[str]:
    seen: set[object] = set()
    found = set()
    for row in read_rows(folder / "salty_words.csv", ("word", "source", "locator")):
        row.source(sources)
        once(seen, row.text("word"), row)
        found.add(row.text("word"))
    return frozenset(found)
