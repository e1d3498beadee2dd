"""Single values of the front matter in, plain facts out: one of a closed list, yes or no, a count, a length."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from generator.model.quantity import Dimension, Quantity
from generator.problems import ProblemLog, nearest
from generator.read.grammar import Grammar
from generator.read.number import ANY, AmountError, plain, read_span
from generator.read.quantity import disagreement, parse_amount
from generator.read.text import FrontMatter, Text, note

Value = TypeVar("Value")

_YES_NO = {"yes": True, "true": True, "no": False, "false": False}
_WORDS = {Dimension.WEIGHT: "a weight", Dimension.LENGTH: "a length", Dimension.VOLUME: "a volume"}
_SAMPLES = {Dimension.WEIGHT: "5 lb", Dimension.LENGTH: "3 in", Dimension.VOLUME: "2 qt"}


def wrong(message: str, hint: str, offset: int = 0) -> AmountError:
    """The refusal of a value that a key does not take."""
    return AmountError("wrong-value", message, hint, offset)


def certain(language: str) -> str:
    """How numbers are read where a slip of a comma would be a thousandfold: `2,400 kg` of meat is refused."""
    return ANY if language.lower().split("-")[0] == "en" else language


@dataclass(frozen=True, slots=True)
class Values:
    """Reads values at paths of one file; what cannot be read becomes a problem there, and None."""

    found: FrontMatter
    grammar: Grammar
    log: ProblemLog

    def read(self, parse: Callable[[str], Value], *path: str | int) -> Value | None:
        """What a parser makes of the text at a path; None where none stands or it cannot be read."""
        text = self.found.text(*path)
        if text is None:
            return None
        try:
            if not text.value:
                raise wrong(f"'{path[-1]}' is empty.", "Write a value, or delete the line.")
            return parse(text.value)
        except AmountError as error:
            note(self.log, text, error)
            return None

    def words(self, *path: str | int) -> str:
        """Text in one line; empty where none stands."""
        return self.read(lambda value: " ".join(value.split()), *path) or ""

    def one_of(self, known: Sequence[str], *path: str | int) -> str | None:
        """One of a closed list."""

        def parse(value: str) -> str:
            if value.lower() in known:
                return value.lower()
            hint = nearest(value, known) or f"Write {_either(known)}."
            raise wrong(f"'{value}' is not a value of '{path[-1]}'.", hint)

        return self.read(parse, *path)

    def yes_no(self, *path: str | int) -> bool | None:
        """Yes or no, true or false."""

        def parse(value: str) -> bool:
            if value.lower() in _YES_NO:
                return _YES_NO[value.lower()]
            raise wrong(f"'{value}' is neither yes nor no.", "Write yes or no.")

        return self.read(parse, *path)

    def count(self, *path: str | int) -> int | None:
        """A whole number above 0."""

        def parse(value: str) -> int:
            if value.isascii() and value.isdigit() and int(value[:6]) > 0 and len(value) < 6:
                return int(value)
            raise wrong(f"'{value}' is not a whole number.", "Write a number such as 4.")

        return self.read(parse, *path)

    def number(self, hint: str, *path: str | int) -> Fraction | None:
        """A bare number above 0."""

        def parse(value: str) -> Fraction:
            flat = plain(value)
            found = read_span(flat, 0, self.grammar.language)
            if found is None or flat[found[1] :].strip() or found[0].is_range or found[0].low <= 0:
                raise wrong(f"'{value}' is not a number.", hint)
            return found[0].low

        return self.read(parse, *path)

    def amount(self, kind: Dimension, *path: str | int) -> Quantity | None:
        """One certain amount of a dimension."""
        grammar = self.grammar

        def parse(value: str) -> Quantity:
            found = parse_amount(
                value, system=grammar.system, language=certain(grammar.language), tables=grammar.tables
            )
            total = found.total(kind)
            if total is None:
                raise AmountError(
                    "wrong-dimension", f"'{value}' is not {_WORDS[kind]}.", f"Write {_SAMPLES[kind]}."
                )
            if total.is_range:
                raise wrong(f"'{value}' is a range.", f"Write one number: {_SAMPLES[kind]}.")
            return found

        quantity = self.read(parse, *path)
        self.warn_disagreement(quantity, self.found.text(*path))
        return quantity

    def warn_disagreement(self, quantity: Quantity | None, text: Text | None) -> None:
        """A warning where the amount in brackets is not the amount before it."""
        message = disagreement(quantity) if quantity else ""
        if message and text is not None:
            self.log.add("alternatives-disagree", text.position, message, "Correct one of the two.")


def _either(known: Sequence[str]) -> str:
    """`round, slab or lump`; one word alone."""
    first = ", ".join(known[:-1])
    return f"{first} or {known[-1]}" if first else known[-1]
