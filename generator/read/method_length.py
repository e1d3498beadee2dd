"""Words of a method in, the lengths of time that they tell out: `2 to 3 hours`, `an hour and a half`, `overnight`."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from generator.model.quantity import Span
from generator.model.shown import show_number
from generator.read import method_words as words
from generator.read.grammar import Grammar
from generator.read.number import AmountError, plain
from generator.read.time import DAY_MIN, HOUR_MIN, read_length

NEAR = 48
"Characters in which a length ends. Source: house."
NIGHT_MIN = Span(Fraction(8 * 60), Fraction(12 * 60))
"[min] Overnight. Source: common practice, no source."
LONGEST_IN_MIN, LONGEST_IN_H = 2 * HOUR_MIN, 4 * DAY_MIN
"[min] Up to which a length is written in minutes, and in hours. Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """A length, as a line of a course has it."""

    minutes: Span
    at: int

    @property
    def written(self) -> str:
        """`90 min`, `8–12 h`, `5 days`."""
        high = self.minutes.high
        if high % DAY_MIN == self.minutes.low % DAY_MIN == 0:
            return _in(self.minutes, DAY_MIN, "day" if high == DAY_MIN else "days")
        is_whole = high % (HOUR_MIN / 2) == self.minutes.low % (HOUR_MIN / 2) == 0 and high >= HOUR_MIN
        return _in(self.minutes, HOUR_MIN, "h") if is_whole else _in(self.minutes, Fraction(1), "min")


def _in(span: Span, unit: Fraction, word: str) -> str:
    ends = dict.fromkeys(show_number(end / unit) for end in (span.low, span.high))
    return f"{'–'.join(ends)} {word}"


def find_lengths(text: str, grammar: Grammar) -> list[Length]:
    """Every length of a stretch of a method that is how long something takes."""
    flat = plain(text)
    found: list[Length] = []
    end = 0
    for number in words.NUMBER.finditer(flat):
        if number.start() < end:
            continue
        before = flat[max(0, number.start() - NEAR) : number.start()]
        one = _read(flat[number.start() : number.start() + NEAR], grammar)
        if one is None:
            continue
        minutes, length = one
        end = number.start() + length
        if words.NO_LENGTH_BEFORE.search(before) or words.NO_LENGTH_BEHIND.match(flat, end):
            continue
        found.append(Length(minutes=minutes, at=number.start()))
    nights = (night.start() for night in words.OVERNIGHT.finditer(flat))
    found += [
        Length(minutes=NIGHT_MIN, at=at) for at in nights if not any(at - 12 < one.at < at for one in found)
    ]
    return sorted(found, key=lambda one: one.at)


def _read(text: str, grammar: Grammar) -> tuple[Span, int] | None:
    """The length that a text begins with, and where it ends."""
    counted = words.COUPLE.sub("2 ", text, count=1)
    spelled = words.NUMBER_WORD.sub(lambda word: words.NUMBER_WORDS[word.group().lower()], counted)
    shift = len(text) - len(spelled)
    first = _plainly(spelled, grammar)
    if first is None:
        return None
    minutes, end = first
    half, two = words.AND_A_HALF.match(spelled, end), words.OR_TWO.match(spelled, end)
    if half is not None:
        return minutes.times(Fraction(3, 2)) if minutes.low == minutes.high else minutes, half.end() + shift
    if two is not None:
        times = {"two": 2, "three": 3}.get(two["number"].lower(), 1)
        return Span(minutes.low, minutes.high * times), two.end() + shift
    night = words.OR_OVERNIGHT.match(spelled, end)
    if night is not None and minutes.low <= NIGHT_MIN.high:
        return Span(minutes.low, NIGHT_MIN.high), night.end() + shift
    more = words.TO_LENGTH.match(spelled, end)
    last = _plainly(spelled[more.end() :], grammar) if more is not None else None
    if more is not None and last is not None and last[0].high >= minutes.low:
        return Span(minutes.low, last[0].high), more.end() + last[1] + shift
    return minutes, end + shift


def _plainly(text: str, grammar: Grammar) -> tuple[Span, int] | None:
    """By the reader of lengths; where it stumbles over what follows, without that."""
    first_unit = _FIRST_UNIT.match(text)
    if first_unit is None:
        return None
    cut = text[: first_unit.end()]
    try:
        found = read_length(cut, 0, grammar)
    except AmountError:
        return None
    return None if found is None or found[0].low <= 0 else (found[0], found[1])


_FIRST_UNIT = re.compile(
    r"[^a-z;:(]{0,12}(?:(?:an?|half an?|one|about|to|or|and|up|half|a half|quarter|three quarters of an) ?"
    r"[^a-z;:(]{0,8}){0,3}"
    r"(?:minutes?|mins?\.?|hours?|hrs?\.?|h|days?|weeks?|months?)(?![\w'’])",
    re.IGNORECASE,
)
