"""The value of one key in, plain facts out: words, one of a closed list, yes or no, a count, an amount."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from functools import partial
from typing import Any, TypeVar

from generator.model.quantity import Dimension, Quantity
from generator.problems import Position, ProblemLog, nearest
from generator.read.grammar import Grammar
from generator.read.number import AmountError, plain, read_span
from generator.read.quantity import disagreement, imperial, parse_amount
from generator.read.text import FrontMatter, Path, Text, note

Found = TypeVar("Found")

MOST_DIGITS = 5
"Of a count: no kitchen has 100,000 of anything, and a longer one is a slip of the finger."

_YES_NO = {"yes": True, "true": True, "no": False, "false": False}
_WORDS = {Dimension.WEIGHT: "a weight", Dimension.LENGTH: "a length", Dimension.VOLUME: "a volume"}
_SAMPLES = {Dimension.WEIGHT: "5 lb", Dimension.LENGTH: "3 in", Dimension.VOLUME: "2 qt"}


def wrong(message: str, hint: str, offset: int = 0) -> AmountError:
    """The refusal of a value that a key does not take."""
    return AmountError("wrong-value", message, hint, offset)


@dataclass(frozen=True, slots=True, kw_only=True)
class Value:
    """What stands at one place of a front matter, and what it is read with; it need not be there."""

    found: FrontMatter
    grammar: Grammar
    log: ProblemLog
    path: Path = ()
    example: str = ""
    "A value that its key takes, for hints."
    before: Mapping[str, Any] = field(default_factory=dict)
    "What the keys before it said of the same record, by field."

    @property
    def name(self) -> str:
        """The key, or the number in a list, that it stands behind."""
        return str(self.path[-1])

    @property
    def text(self) -> Text | None:
        """What is written, or None where no text stands."""
        return self.found.text(*self.path)

    @property
    def position(self) -> Position:
        """Where its key stands, else what is nearest above it."""
        return self.found.key(*self.path)

    def under(self, *path: str | int) -> Value:
        """The value further down."""
        return replace(self, path=(*self.path, *path))

    def items(self) -> list[Value]:
        """The texts of a list, or those behind the names of a mapping, in the order of the file."""
        end = len(self.path)
        paths = [path for path in self.found.texts if len(path) == end + 1 and path[:end] == self.path]
        return [replace(self, path=path) for path in paths]

    def read(self, parse: Callable[[str], Found]) -> Found | None:
        """What a parser makes of the text; None where none stands or, with a problem, where it cannot be read."""

        def filled(text: Text) -> Found:
            if not text.value:
                raise wrong(f"'{self.name}' is empty.", "Write a value, or delete the line.")
            return parse(text.value)

        return self.read_text(filled)

    def read_text(self, parse: Callable[[Text], Found]) -> Found | None:
        """The same for a parser that wants the text with its place, and takes an empty one."""
        text = self.text
        if text is None:
            return None
        try:
            return parse(text)
        except AmountError as error:
            note(self.log, text, error)
            return None

    def warn_disagreement(self, quantity: Quantity | None) -> None:
        """A warning where the amount in brackets is not the amount before it."""
        message = disagreement(quantity) if quantity else ""
        if quantity and message and self.text is not None:
            first, _, rest = self.text.value.partition("(")
            second, closed, _ = rest.partition(")")
            hint = "Correct one of the two."
            if first[:1].isdigit() and closed:
                hint = f"Correct one of the two: write {first.strip()}, or {second.strip()}."
            hint = " ".join(filter(None, (hint, imperial(quantity))))
            self.log.add("alternatives-disagree", self.text.position, message, hint)


def of_text(parse: Callable[[str, Value], Found]) -> Callable[[Value], Found | None]:
    """The reader of a key, made of a parser of its text; the value beside it has the grammar and an example."""
    return lambda value: value.read(lambda text: parse(text, value))


def words(value: Value) -> str:
    """Text in one line; empty where none stands."""
    return value.read(lambda text: " ".join(text.split())) or ""


def place(value: Value) -> Position | None:
    """Where a text stands, for problems that are found later."""
    return value.text.position if value.text else None


@dataclass(frozen=True, slots=True)
class OneOf:
    """Reads one of a closed list."""

    known: tuple[str, ...]

    def __call__(self, value: Value) -> str | None:
        def parse(text: str) -> str:
            if text.lower() in self.known:
                return text.lower()
            hint = nearest(text, self.known) or f"Write {_either(self.known)}."
            raise wrong(f"'{text}' is not a value of '{value.name}'.", hint)

        return value.read(parse)


def one_of(*known: str) -> OneOf:
    """The reader of one of these words."""
    return OneOf(known)


def _either(known: tuple[str, ...]) -> str:
    """`round, slab or lump`; one word alone."""
    first = ", ".join(known[:-1])
    return f"{first} or {known[-1]}" if first else known[-1]


@of_text
def yes_no(text: str, _: Value) -> bool:
    """Yes or no, true or false."""
    if text.lower() in _YES_NO:
        return _YES_NO[text.lower()]
    raise wrong(f"'{text}' is neither yes nor no.", "Write yes or no.")


@of_text
def count(text: str, _: Value) -> int:
    """A whole number above 0."""
    if text.isascii() and text.isdigit() and len(text) <= MOST_DIGITS and int(text) > 0:
        return int(text)
    raise wrong(f"'{text}' is not a whole number.", "Write a number such as 4.")


def bare_number(text: str, grammar: Grammar) -> Fraction | None:
    """The one number above 0 that a text is, and nothing else."""
    flat = plain(text)
    found = read_span(flat, 0, grammar.language)
    if found is None or flat[found[1] :].strip() or found[0].is_range or found[0].low <= 0:
        return None
    return found[0].low


def amount(value: Value, kind: Dimension) -> Quantity | None:
    """One certain amount of a dimension."""

    def parse(text: str) -> Quantity:
        found = parse_amount(text, value.grammar.certain)
        total = found.total(kind)
        if total is None:
            raise AmountError(
                "wrong-dimension", f"'{text}' is not {_WORDS[kind]}.", f"Write {_SAMPLES[kind]}."
            )
        if total.is_range:
            raise wrong(f"'{text}' is a range.", f"Write one number: {_SAMPLES[kind]}.")
        return found

    quantity = value.read(parse)
    value.warn_disagreement(quantity)
    return quantity


weight = partial(amount, kind=Dimension.WEIGHT)
thickness = partial(amount, kind=Dimension.LENGTH)


def base_units(value: Value, kind: Dimension) -> Fraction | None:
    """One certain amount [g, ml, mm]."""
    quantity = amount(value, kind)
    total = quantity.total(kind) if quantity else None
    return total.low if total else None
