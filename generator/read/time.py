"""Text in, lengths of time out, in minutes: `5 days`, `6–8 h`, `1 h 30 min`, `1 1/2 hours`, `5 days at 36 °F`."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.english.figures import NIGHT_MIN, length_at
from generator.model.quantity import Dimension, Span, TemperatureRange
from generator.read.grammar import Grammar
from generator.read.method_words import OVERNIGHT
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


def read_told(text: str, grammar: Grammar) -> tuple[Span, int] | None:
    """The length [min] that a plain text begins with, as cooks write one, and where it ends: `1 h 30`, `overnight`."""
    lead = _LEAD.match(text)
    begin = lead.end() if lead is not None else 0
    rest = text[begin:]
    found = [one for one in (_night(rest), _clock(rest), _whole(rest, grammar), _in_words(rest)) if one]
    if not found:
        return None
    minutes, end = max(found, key=lambda one: one[1])
    return minutes, begin + end


_LEAD = re.compile(r"(?:about|around|roughly|approximately|approx\.?|at least|some) +", re.IGNORECASE)
_CLOCK = re.compile(
    r"(?P<hours>[0-9]{1,2})(?: ?(?:h|hrs?\.?|hours?) ?(?:and )?|:)(?P<minutes>[0-5]?[0-9])"
    r"(?: ?(?:m|mins?|minutes?)\b\.?)?(?![\w:/%]| ?[°º˚–-]| ?(?:h|d|to|sec)\b)",
    re.IGNORECASE,
)
"`1h30`, `1 h 30`, `1:30`, `1 hour and 30 minutes`."
_STOP = re.compile(r"\.(?![0-9])")
"Behind an abbreviation: 90 min."


def _night(text: str) -> tuple[Span, int] | None:
    night = OVERNIGHT.match(text)
    return (NIGHT_MIN, night.end()) if night is not None else None


def _clock(text: str) -> tuple[Span, int] | None:
    clock = _CLOCK.match(text)
    if clock is None:
        return None
    minutes = Fraction(clock["hours"]) * HOUR_MIN + Fraction(clock["minutes"])
    return Span.of(minutes), clock.end()


def _whole(text: str, grammar: Grammar) -> tuple[Span, int] | None:
    """By the reader of lengths, with all its parts: 1 h 30 min."""
    try:
        found = read_length(text, 0, grammar)
    except AmountError:
        return None
    if found is None or not text[: found[1]].strip():
        return None
    dot = text[found[1] - 1] != "." and _STOP.match(text, found[1])
    return found[0], found[1] + (1 if dot else 0)


def _in_words(text: str) -> tuple[Span, int] | None:
    found = length_at(text)
    return None if found is None else (found.minutes, found.end)


def unreadable_length(words: str, offset: int) -> AmountError:
    """The refusal of something that is no length."""
    return AmountError("unreadable-time", f"'{words}' is not a length of time.", _HINT, offset)
