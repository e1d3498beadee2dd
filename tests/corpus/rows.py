"""In: lines.csv and phrases.csv. Out: typed rows, each refused with its id where it is not well formed."""

from __future__ import annotations

import csv
from dataclasses import dataclass
from pathlib import Path

from tests.corpus.amounts import Amount

HERE = Path(__file__).parent


@dataclass(frozen=True, kw_only=True)
class Further:
    """A further amount of a line, and what becomes of it at two batches: it doubles, stays, or is gone (not left as it was)."""

    amount: Amount
    becomes: str


@dataclass(frozen=True, kw_only=True)
class Line:
    """One ingredient line and what it must come to; `either` are other readings that a published size allows."""

    id: str
    kind: str
    text: str
    asked: bool
    amount: Amount | None
    either: tuple[Amount, ...]
    name: str
    further: tuple[Further, ...]
    context: str
    reason: str


@dataclass(frozen=True, kw_only=True)
class Conversion:
    """What must stand beside a phrase in the other system, and how near."""

    value: float
    unit: str
    within: float


@dataclass(frozen=True, kw_only=True)
class Phrase:
    """One sentence of a method and what must be converted in it; none where it is left alone."""

    id: str
    kind: str
    text: str
    becomes: tuple[Conversion, ...]


def read_lines(path: Path = HERE / "lines.csv") -> list[Line]:
    """All lines in their order."""
    with path.open(newline="", encoding="utf-8") as file:
        return [_line(row) for row in csv.DictReader(file)]


def read_phrases(path: Path = HERE / "phrases.csv") -> list[Phrase]:
    """All phrases in their order."""
    with path.open(newline="", encoding="utf-8") as file:
        return [_phrase(row) for row in csv.DictReader(file)]


def _line(row: dict[str, str]) -> Line:
    asked = {"asked": True, "read": False}[row["outcome"]]
    if asked and (" | " not in row["reason"] and " // " not in row["reason"]):
        raise ValueError(f"{row['id']}: a line that is asked about has two readings")
    amount = None
    if row["unit"] in ("g", "mL", "count"):
        low = float(row["low"])
        amount = Amount(low=low, high=float(row["high"] or low), kind=row["unit"])
    elif not asked and row["unit"] != "none":
        raise ValueError(f"{row['id']}: a line that is read has a unit, or none")
    return Line(
        id=row["id"],
        kind=row["class"],
        text=row["line"],
        asked=asked,
        amount=amount,
        either=tuple(one(text) for text in row["or"].split("; ") if text),
        name=row["name"],
        further=tuple(_further(text) for text in row["also"].split("; ") if text),
        context=row["context"],
        reason=row["reason"],
    )


def one(text: str) -> Amount:
    """An amount as the tables write it: `1–2 count`, `236.59 mL`."""
    value, _, kind = text.partition(" ")
    low, _, high = value.partition("–")
    return Amount(low=float(low), high=float(high or low), kind=kind)


def _further(text: str) -> Further:
    amount, _, becomes = text.rpartition(" ")
    if becomes not in ("doubles", "stays", "gone"):
        raise ValueError(text)
    return Further(amount=one(amount), becomes=becomes)


def _phrase(row: dict[str, str]) -> Phrase:
    becomes = tuple(_conversion(text) for text in row["becomes"].split("; ") if text)
    if bool(becomes) != {"read": True, "alone": False}[row["outcome"]]:
        raise ValueError(f"{row['id']}: what is read becomes something, what is left alone does not")
    if row["leave"] and row["leave"] not in row["phrase"]:
        raise ValueError(f"{row['id']}: {row['leave']} does not stand in the phrase")
    return Phrase(id=row["id"], kind=row["class"], text=row["phrase"], becomes=becomes)


def _conversion(text: str) -> Conversion:
    shown, _, within = text.partition(" within ")
    value, _, unit = shown.partition(" ")
    return Conversion(value=float(value), unit=unit, within=float(within))
