"""Words of a method in, the lengths of time that they tell out: `2 to 3 hours`, `an hour and a half`, `overnight`."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.english.figures import NIGHT_MIN, lengths_in
from generator.model.quantity import Span
from generator.model.shown import show_number
from generator.read import method_words as words
from generator.read.number import plain
from generator.read.time import DAY_MIN, HOUR_MIN

NEAR = 48
"Characters before a length that say of what it is. Source: house."
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


def find_lengths(text: str) -> list[Length]:
    """Every length of a stretch of a method that is how long something takes."""
    flat = plain(text)
    found = [
        Length(minutes=one.minutes, at=one.start)
        for one in lengths_in(flat)
        if not words.NO_LENGTH_BEFORE.search(flat[max(0, one.start - NEAR) : one.start])
        and not words.NO_LENGTH_BEHIND.match(flat, one.end)
    ]
    nights = (night.start() for night in words.OVERNIGHT.finditer(flat))
    found += [
        Length(minutes=NIGHT_MIN, at=at) for at in nights if not any(at - 12 < one.at < at for one in found)
    ]
    return sorted(found, key=lambda one: one.at)
