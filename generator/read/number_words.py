"""Text in, the number that its English words say out: two, twenty-four, one-half, three quarters of a, one and a half."""

from __future__ import annotations

import re
from fractions import Fraction

_SMALL = (
    *("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"),
    *("thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen", "nineteen"),
)
_TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")
_WHOLE = {word: Fraction(value) for value, word in enumerate(_SMALL, start=1)}
_WHOLE |= {word: Fraction(value * 10) for value, word in enumerate(_TENS, start=2)}
_PARTS = {
    **{
        "half": 2,
        "halves": 2,
        "third": 3,
        "thirds": 3,
        "quarter": 4,
        "quarters": 4,
        "fourth": 4,
        "fourths": 4,
    },
    **{"fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8, "sixteenth": 16},
}
_ONES = "|".join(sorted(_SMALL, key=len, reverse=True))
_CARDINAL = re.compile(
    rf"(?:(?P<tens>{'|'.join(_TENS)})(?:[- ](?P<ones>{'|'.join(_SMALL[:9])}))?|(?P<small>{_ONES}))(?![\w'’])",
    re.IGNORECASE,
)
_OLD = re.compile(
    rf"(?P<ones>{'|'.join(_SMALL[:9])})[- ]and[- ](?P<tens>{'|'.join(_TENS)})(?![\w'’]|-(?!and-))",
    re.IGNORECASE,
)
"Four and twenty."
_HUNDRED = re.compile(rf"(?:(?P<how>an?|{'|'.join(_SMALL[:9])}) )?hundred(?= )", re.IGNORECASE)
_PART = re.compile(
    rf"(?P<above>an?|{_ONES})[- ](?P<below>{'|'.join(sorted(_PARTS, key=len, reverse=True))})(?![\w'’])",
    re.IGNORECASE,
)
_LONE_PART = re.compile(r"(?P<below>half|quarter)(?= (?:of )?an? )", re.IGNORECASE)
_AND = re.compile(r" and |-and-|[- ](?=half)", re.IGNORECASE)
OF_A = re.compile(r"[- ](?:of[- ])?an?(?=[- ])| of(?= the )", re.IGNORECASE)
"Between a part and what it is a part of: half a pound, three quarters of a pound."


def read_worded(text: str, start: int) -> tuple[Fraction, int] | None:
    """A number in words at an offset of plain text, and where it ends; None where none stands."""
    part = read_part(text, start)
    if part:
        return part
    whole = _read_whole(text, start)
    if whole is None:
        return None
    value, end = whole
    behind = part_behind(text, end)
    return (value + behind[0], behind[1]) if behind else whole


def read_part(text: str, start: int) -> tuple[Fraction, int] | None:
    """One-half, a quarter, three fourths; `half` alone before `a` or `of a`, which are read with it."""
    found = _PART.match(text, start) or _LONE_PART.match(text, start)
    if found is None:
        return None
    above = found.groupdict().get("above", "a")
    value = Fraction(_WHOLE.get(above.lower(), Fraction(1)), _PARTS[found["below"].lower()])
    of = OF_A.match(text, found.end())
    return (value, of.end() if of else found.end()) if value < 1 else None


def part_behind(text: str, end: int) -> tuple[Fraction, int] | None:
    """The part of a mixed number behind its whole: `and a half`, `and three-quarters`."""
    joint = _AND.match(text, end)
    return read_part(text, joint.end()) if joint else None


def _read_whole(text: str, start: int) -> tuple[Fraction, int] | None:
    hundred = _HUNDRED.match(text, start)
    if hundred:
        return 100 * _WHOLE.get((hundred["how"] or "one").lower(), Fraction(1)), hundred.end()
    found = _OLD.match(text, start)
    if found:
        return _WHOLE[found["ones"].lower()] + _WHOLE[found["tens"].lower()], found.end()
    found = _CARDINAL.match(text, start)
    if found is None:
        return None
    if found["small"]:
        return _WHOLE[found["small"].lower()], found.end()
    ones = _WHOLE[found["ones"].lower()] if found["ones"] else 0
    return _WHOLE[found["tens"].lower()] + ones, found.end()
