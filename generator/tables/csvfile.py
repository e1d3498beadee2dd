"""A CSV file and a record in, one record a row out; whatever a row lacks is refused with its file and line.

The record declares the table: each field is a column, its type says how a cell is read, and a field with a default may
be empty. Closed lists and keys of other tables are given with the call. Cells that hold several words are split at
semicolons. Numbers are exact: `0.0625`, `1/4`.
"""

from __future__ import annotations

import csv
import functools
import unicodedata
from collections.abc import Callable, Collection, Iterable
from dataclasses import MISSING, dataclass, fields
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import Annotated, Any, TypeVar, get_args, get_origin, get_type_hints

from generator.model.slug import stream_safe

T = TypeVar("T")
Check = Callable[[T], None]
"Raises Wrong for a row that cannot be right."
Read = Callable[[str, str], object]
"The text of a cell, which is not empty, and the name of its column in; a value out, or Wrong."
Key = str | tuple[str, ...]
"A field, or several together."


class TableError(ValueError):
    """A table that comes with the program is wrong. A bug, never an author's mistake."""

    def __init__(self, file: str, line: int, message: str) -> None:
        super().__init__(f"{file}:{line}: {message}")
        self.file = file
        self.line = line


class Wrong(ValueError):
    """What is wrong with a row, as a sentence; the reader of the file adds the place."""


def normal(words: str) -> str:
    """Words as they are compared: NFC, lower case, one space between, a straight apostrophe."""
    return " ".join(unicodedata.normalize("NFC", stream_safe(words)).replace("’", "'").casefold().split())


def text(cell: str, column: str) -> str:
    """A cell as it stands."""
    return cell


def words(cell: str, column: str) -> tuple[str, ...]:
    """The words of a cell as they stand; none of them empty or twice."""
    found = tuple(word.strip() for word in cell.split(";"))
    if "" in found or len(set(found)) < len(found):
        raise Wrong(f"{column} has an empty or a double word")
    return found


def names(cell: str, column: str) -> tuple[str, ...]:
    """Words that are looked up, each already written as it is compared: whoever reads a row sees what it finds."""
    found = words(cell, column)
    for word in found if cell != normal(cell) else ():  # all words at once: one by one takes longer
        if word != normal(word):
            raise Wrong(f"'{word}' is not written as names are compared: '{normal(word)}'")
    return found


def number(cell: str, column: str) -> Fraction:
    """An exact number that may be negative."""
    try:
        return Fraction(int(cell) if cell.isdecimal() else cell)  # most are whole, and read faster so
    except (ValueError, ZeroDivisionError) as error:
        raise Wrong(f"{column} '{cell}' is not a number") from error


def amount(cell: str, column: str) -> Fraction:
    """An exact number that is not negative, as every weight, share and time is."""
    value = number(cell, column)
    if value.numerator < 0:
        raise Wrong(f"{column} is negative")
    return value


def percent(cell: str, column: str) -> Fraction:
    """A share that the table has in per cent, as its source prints it. Source: per cent, a definition."""
    return amount(cell, column) / 100


def yes(cell: str, column: str) -> bool:
    """True for yes, False for no."""
    if cell not in ("yes", "no"):
        raise Wrong(f"unknown {column} '{cell}'")
    return cell == "yes"


FEW = 16
"Words that a message can list. Source: house."
BY_TYPE: dict[object, Read] = {str: text, tuple[str, ...]: names, Fraction: amount, bool: yes}
"How a field of a type is read. An annotation may name another way, and a column that is not called as the field."
Signed = Annotated[Fraction, number]
Words = Annotated[tuple[str, ...], words]


@dataclass(frozen=True, slots=True)
class Cell:
    """How one column becomes one field."""

    field: str
    column: str
    one: str
    "What a message calls one of its words."
    read: Read
    empty: object
    "What an empty cell means; MISSING: it must not be empty."

    def value(self, cell: str, known: Collection[str] | None) -> object:
        """The value of a cell; where the column has a closed list, its words are all known."""
        if not cell:
            if self.empty is MISSING:
                raise Wrong(f"{self.column} is empty")
            return self.empty
        value = self.read(cell, self.column)
        for word in value if isinstance(value, tuple) else (value,):
            if known is not None and word not in known:
                raise Wrong(f"unknown {self.one} '{word}'{_choices(known)}")
        return value


def _choices(known: Collection[str]) -> str:
    """The words of a short list, for whoever writes a row; keys of a long table are looked up there."""
    return f"; known are {', '.join(known)}" if len(known) <= FEW else ""


@functools.cache  # asked for every row by `is_range`, and hints take longer to read than a row
def cells_of(record: Any) -> tuple[Cell, ...]:
    """The columns that a record declares."""
    hints = get_type_hints(record, include_extras=True)
    return tuple(_cell(field.name, hints[field.name], field.default) for field in fields(record))


def _cell(name: str, hint: Any, empty: object) -> Cell:
    column, read = "source" if name == "sources" else name, None
    while hint not in BY_TYPE:
        if get_origin(hint) is Annotated:
            for mark in hint.__metadata__:  # a string is the name of the column, a function the way to read
                column, read = (mark, read) if isinstance(mark, str) else (column, mark)
            hint = hint.__origin__
        else:  # a number, or None where the source has none
            hint, empty = get_args(hint)[0], None
    one = column if hint is str else column.removesuffix("s")
    return Cell(name, column, one, read or BY_TYPE[hint], empty)


@dataclass(frozen=True, slots=True)
class Shelf:
    """A folder of tables, and the keys of the publications that its rows may name."""

    folder: Path
    sources: Collection[str] = ()

    def rows(
        self, file: str, record: Callable[..., T], *checks: Check[T], **known: Collection[str]
    ) -> tuple[T, ...]:
        """Every row of a table, each checked; `known` has the closed lists by column.

        Raises TableError for a wrong row.
        """
        with (self.folder / file).open(encoding="utf-8", newline="") as stream:
            header, *lines = [*csv.reader(stream, strict=True)] or [[]]
        # Cells go by the names of their columns, so that a record may hold them in another order than the file.
        cells = {cell.column: cell for cell in cells_of(record)}
        if sorted(header) != sorted(cells):
            raise TableError(file, 1, f"the columns are not {', '.join(cells)}")
        lists = {"source": self.sources, **known}
        columns = [(cells[column], lists.get(column)) for column in header]
        found = []
        for number, line in enumerate(lines, start=2):
            try:
                found.append(record(**_values(columns, line)))
                for check in checks:
                    check(found[-1])
            except Wrong as error:
                raise TableError(file, number, str(error)) from error
        return tuple(found)

    def by(
        self, key: Key, file: str, record: Callable[..., T], *checks: Check[T], **known: Collection[str]
    ) -> dict[Any, T]:
        """The rows by a field, or by several: each of its names finds a row. What finds two rows is refused."""
        found: dict[Any, T] = {}

        def note(row: T) -> None:
            for one in _keys(row, key):
                if one in found:
                    raise Wrong(f"{one} stands twice")
                found[one] = row

        # Last of the checks: a row that is wrong in itself is told as that, not as one that stands twice.
        self.rows(file, record, *checks, note, **known)
        return found


def _values(columns: Collection[tuple[Cell, Collection[str] | None]], line: list[str]) -> dict[str, object]:
    if len(line) != len(columns):
        raise Wrong(f"{len(line)} cells, not {len(columns)}")
    pairs = zip(columns, line, strict=True)
    return {cell.field: cell.value(written.strip(), known) for (cell, known), written in pairs}


def _keys(row: object, key: Key) -> Iterable[object]:
    if isinstance(key, tuple):
        return product(*(_keys(row, one) for one in key))
    value = getattr(row, key)
    return value if isinstance(value, tuple) else (value,)


# Checks that more than one table asks for.


def never(message: str, is_so: Callable[[Any], bool]) -> Check[Any]:
    """A check of each row by itself."""

    def check(row: Any) -> None:
        if is_so(row):
            raise Wrong(message)

    return check


def is_range(row: Any) -> None:
    """Refuses a low end above its high end."""
    ends = {cell.column: getattr(row, cell.field) for cell in cells_of(row.__class__)}
    for low in ends:
        high = low.replace("low", "high", 1)
        if low.startswith("low") and None not in (ends[low], ends.get(high)) and ends[low] > ends[high]:
            raise Wrong(f"{low} is above {high}")


def own_name(key: str, row: Any) -> None:
    """What a row is called in messages finds it too."""
    if getattr(row, key) not in row.names:
        raise Wrong(f"{getattr(row, key)} is not among its own names")


def after_each_other(rule: Callable[[T, T], None]) -> Check[T]:
    """A check of every row against the one before it."""
    before: list[T] = []

    def check(row: T) -> None:
        for last in before:
            rule(last, row)
        before[:] = [row]

    return check
