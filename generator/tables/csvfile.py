"""A CSV file in, rows out that know their file and line; whatever a row lacks is refused with both.

Cells that hold several words are split at semicolons. Numbers are exact: `0.0625`, `1/4`.
"""

from __future__ import annotations

import csv
import unicodedata
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from generator.model.slug import stream_safe


class TableError(ValueError):
    """A table that comes with the program is wrong. A bug, never an author's mistake."""

    def __init__(self, file: str, line: int, message: str) -> None:
        super().__init__(f"{file}:{line}: {message}")
        self.file = file
        self.line = line


def normal(words: str) -> str:
    """Words as they are compared: NFC, lower case, one space between, a straight apostrophe."""
    return " ".join(unicodedata.normalize("NFC", stream_safe(words)).replace("’", "'").casefold().split())


@dataclass(frozen=True, slots=True)
class Row:
    """One row of a table with its place."""

    file: str
    line: int
    cells: dict[str, str]

    def error(self, message: str) -> TableError:
        """An error at this row, to be raised."""
        return TableError(self.file, self.line, message)

    def optional(self, column: str) -> str:
        """The text of a cell; may be empty."""
        return self.cells[column]

    def text(self, column: str) -> str:
        """The text of a cell that must not be empty."""
        if not self.cells[column]:
            raise self.error(f"{column} is empty")
        return self.cells[column]

    def one_of(self, column: str, known: Collection[str], *, empty: bool = False) -> str:
        """A word of a closed list; empty only where the column allows it."""
        word = self.cells[column]
        if word in known or (empty and not word):
            return word
        raise self.error(f"unknown {column} '{word}'")

    def words(self, column: str) -> tuple[str, ...]:
        """The words of a cell, split at semicolons; none of them empty or twice."""
        words = tuple(word.strip() for word in self.text(column).split(";"))
        if "" in words or len(set(words)) < len(words):
            raise self.error(f"{column} has an empty or a double word")
        return words

    def names(self, column: str) -> tuple[str, ...]:
        """Words that are compared, each already written as it is compared."""
        words = self.words(column)
        for word in words:
            if word != normal(word):
                raise self.error(f"'{word}' is not written as names are compared: '{normal(word)}'")
        return words

    def number(self, column: str) -> Fraction:
        """An exact number that may be negative."""
        text = self.text(column)
        try:
            return Fraction(text)
        except (ValueError, ZeroDivisionError) as error:
            raise self.error(f"{column} '{text}' is not a number") from error

    def amount(self, column: str) -> Fraction:
        """An exact number that is not negative."""
        value = self.number(column)
        if value < 0:
            raise self.error(f"{column} is negative")
        return value

    def yes(self, column: str) -> bool:
        """True for yes, False for no."""
        return self.one_of(column, ("yes", "no")) == "yes"

    def source(self, known: Collection[str]) -> str:
        """The key of the one source of a row; its locator is in `locator`."""
        self.text("source")
        self.text("locator")
        return self.one_of("source", known)

    def sources(self, known: Collection[str]) -> tuple[str, ...]:
        """The keys of one or more sources of a row; the locator speaks of all."""
        self.text("locator")
        keys = self.words("source")
        for key in keys:
            if key not in known:
                raise self.error(f"unknown source '{key}'")
        return keys


def read_rows(path: Path, columns: tuple[str, ...]) -> tuple[Row, ...]:
    """The rows of a CSV file with exactly these columns, in this order. Every cell is stripped."""
    with path.open(encoding="utf-8", newline="") as stream:
        reader = csv.reader(stream, strict=True)
        if tuple(next(reader, [])) != columns:
            raise TableError(path.name, 1, f"the columns are not {', '.join(columns)}")
        return tuple(_rows(path.name, reader, columns))


def _rows(file: str, reader: Iterable[list[str]], columns: tuple[str, ...]) -> Iterator[Row]:
    for line, cells in enumerate(reader, start=2):
        if len(cells) != len(columns):
            raise TableError(file, line, f"{len(cells)} cells, not {len(columns)}")
        yield Row(file, line, dict(zip(columns, (cell.strip() for cell in cells), strict=True)))


def once(seen: set[object], key: object, row: Row) -> None:
    """Refuses a key that stood in an earlier row; notes it otherwise."""
    if key in seen:
        raise row.error(f"{key} stands twice")
    seen.add(key)
