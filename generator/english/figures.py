"""Words of English in; the lengths of time that they tell in figures or in small number words out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import Span

NIGHT_MIN = Span(Fraction(8 * 60), Fraction(12 * 60))
"[min] Overnight. Source: common practice, no source."
UNITS_MIN = {"m": Fraction(1), "h": Fraction(60), "d": Fraction(1440), "w": Fraction(7 * 1440)}
"[min] By the first letter of a unit of time. Source: definitions."
MONTH_MIN = Span(Fraction(28 * 1440), Fraction(31 * 1440))
"[min] Source: the calendar."
_WORDS: dict[str, int | Fraction] = {
    **{"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7},
    **{"eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "fifteen": 15, "twenty": 20},
    **{"twenty-four": 24, "thirty": 30, "forty": 40, "forty-five": 45, "forty-eight": 48, "fifty": 50},
    **{"sixty": 60, "seventy-two": 72, "ninety": 90, "a couple": 2, "a couple of": 2},
    **{"half an": Fraction(1, 2), "half a": Fraction(1, 2), "a half": Fraction(1, 2), "half": Fraction(1, 2)},
    **{"a quarter of an": Fraction(1, 4), "three quarters of an": Fraction(3, 4)},
}
_PARTS = {
    **{"¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅓": Fraction(1, 3)},
    **{"⅔": Fraction(2, 3), "⅛": Fraction(1, 8)},
}
_SIGNS = "".join(_PARTS)
_NUMBER = (
    rf"(?:\d{{1,4}}(?:[ -]\d/\d|/\d|\.\d{{1,2}}| ?[{_SIGNS}])?|[{_SIGNS}]|"
    + "|".join(re.escape(word) for word in sorted(_WORDS, key=len, reverse=True))
    + ")"
)
_TO = r"(?:\s?(?:to|or|up to|-|–|−|—)\s?(?:about )?)"
_UNIT = r"(?:minutes?|mins?|hours?|hrs?|h|days?|weeks?|months?)"
_LENGTH = re.compile(
    rf"(?<![\w.,/°–-])(?P<low>{_NUMBER})(?P<and> and (?:a|one) half)?(?:-?{_TO}(?P<high>{_NUMBER}))?"
    rf"[\s-]?(?P<unit>(?P<hours>hours?|hrs?|h)|{_UNIT})(?![\w'’])\.?"
    r"(?(hours)(?:\s(?:and )?(?P<minutes>\d{1,2})[\s-]?(?:minutes?|mins?)(?![\w'’])\.?)?)"
    rf"(?P<half>\s+and (?:a|one) half\b)?"
    rf"(?:\s+or (?P<more>two|three|so)\b|,?\s+(?:or|to) (?:up to )?(?P<night>over ?night)\b|"
    rf"\s+(?:to|or) (?P<last>{_NUMBER})[\s-]?(?P<last_unit>{_UNIT})(?![\w'’])\.?)?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length of time, and where it stands."""

    minutes: Span
    start: int
    end: int


def lengths_in(text: str) -> Iterator[Length]:
    """Every length that a text tells: `2 to 3 hours`, `an hour and a half`, `a day or two`."""
    for found in _LENGTH.finditer(text):
        minutes = _minutes(found)
        if 0 < minutes.low <= minutes.high:
            yield Length(minutes=minutes, start=found.start(), end=found.end())


def length_at(text: str) -> Length | None:
    """The length that a text begins with."""
    found = _LENGTH.match(text)
    minutes = _minutes(found) if found is not None else Span.of(0)
    if found is None or not 0 < minutes.low <= minutes.high:
        return None
    return Length(minutes=minutes, start=0, end=found.end())


def _minutes(found: re.Match[str]) -> Span:
    low = _value(found["low"]) + (Fraction(1, 2) if found["and"] else 0)
    high = _value(found["high"]) if found["high"] else low
    unit = _unit(found["unit"])
    first = Span(unit.low * low, unit.high * high)
    if found["minutes"]:
        more = Fraction(found["minutes"])
        return Span(first.low + (0 if found["high"] else more), first.high + more)
    if found["half"] and not found["high"]:
        return Span(first.low + unit.low / 2, first.high + unit.high / 2)
    if found["more"]:
        times = {"two": 2, "three": 3}.get(found["more"].lower(), 1)
        return Span(first.low, first.high * times)
    if found["night"]:
        return Span(first.low, max(first.high, NIGHT_MIN.high))
    if found["last"]:
        return Span(first.low, _unit(found["last_unit"]).high * _value(found["last"]))
    return first


def _unit(word: str) -> Span:
    lower = word.lower()
    return MONTH_MIN if lower.startswith("mo") else Span.of(UNITS_MIN[lower[0]])


def _value(written: str) -> Fraction:
    word = " ".join(written.lower().split())
    if word in _WORDS:
        return Fraction(_WORDS[word])
    part = _PARTS.get(word[-1])
    if part is not None:
        return Fraction(word[:-1].strip() or 0) + part
    whole, _, rest = word.replace("-", " ").rpartition(" ")
    return Fraction(whole or 0) + (Fraction(rest) if not rest.endswith("/0") else 0)
