"""Text in, lengths of time out, in minutes: `5 days`, `6–8 h`, `1 h 30 min`, `1 1/2 hours`, `5 days at 36 °F`."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.model.quantity import Dimension, Span, TemperatureRange
from generator.read.grammar import Grammar
from generator.read.number import AmountError
from generator.read.quantity import read_amount
from generator.read.temperature import parse_temperature

_HINT = "Write a length with its unit: 90 min, 6–8 h, 5 days or 2 weeks."
HOUR_MIN, DAY_MIN = Fraction(60), Fraction(1440)
"Source: a definition."
_AT = re.compile(r" at (?=[-–0-9.])", re.IGNORECASE)


def parse_length(text: str, grammar: Grammar) -> Span:
    """The length [min] that a whole text is, or AmountError."""
    found = read_length(text, 0, grammar)
    if found is None:
        raise unreadable_length(text.strip() or "nothing", len(text) - len(text.lstrip()))
    minutes, end = found
    if text[end:].strip():
        raise unreadable_length(text[end:].strip(), end + len(text[end:]) - len(text[end:].lstrip()))
    return minutes


def parse_kept(text: str, grammar: Grammar) -> tuple[Span, TemperatureRange | None]:
    """How long something keeps [min], and at what temperature where one is told."""
    at = _AT.search(text)
    if at is None:
        return parse_length(text, grammar), None
    minutes = parse_length(text[: at.start()], grammar)
    try:
        return minutes, parse_temperature(text[at.end() :])
    except AmountError as error:
        raise error.moved(at.end()) from None


def read_length(text: str, start: int, grammar: Grammar) -> tuple[Span, int] | None:
    """The length [min] at an offset, and where it ends; None where no amount stands."""
    try:
        found = read_amount(text, start, grammar)
    except AmountError as error:
        slug = "unreadable-time" if error.slug in ("unreadable-amount", "unknown-unit") else error.slug
        raise AmountError(slug, error.message, _HINT, error.offset) from None
    if found is None:
        return None
    quantity, end = found
    minutes = quantity.total(Dimension.TIME) if quantity.dimension is Dimension.TIME else None
    if minutes is None:
        following = text[end:].split()[:1] if quantity.dimension is Dimension.COUNT else []
        raise unreadable_length(" ".join([text[start:end].strip(), *following]), start)
    return minutes, end


def unreadable_length(words: str, offset: int) -> AmountError:
    """The refusal of something that is no length."""
    return AmountError("unreadable-time", f"'{words}' is not a length of time.", _HINT, offset)
