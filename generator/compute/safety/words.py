"""Temperatures and times in, the words of reasons out.

A temperature stands in both scales, since a reason is one sentence for every reader; a least one is never rounded
down, a most one never up. A time from low to high is an estimate: its low end is rounded down, its high one up.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from generator.model.quantity import Temperature
from generator.model.shown import show_decimal

MINUTES, HOUR_MIN, DAY_H = 5, 60, 24
"Source: house choice; steps of five minutes, from 2 h on of half an hour, from 12 h on of an hour, then of half a day."
LONG_MIN, LONG_H, WHOLE_H = 2 * HOUR_MIN, 2 * DAY_H, 12
"Source: as MINUTES."


def span_words(low_min: float, high_min: float) -> str:
    """`50 min to 1 h 40 min`, `20 to 45 h`, `2 to 3 1/2 days`."""
    if high_min >= LONG_H * HOUR_MIN and low_min >= DAY_H * HOUR_MIN:
        return _halves(low_min / HOUR_MIN / DAY_H, high_min / HOUR_MIN / DAY_H, "days")
    if high_min >= WHOLE_H * HOUR_MIN:
        low_h, high_h = floor(low_min / HOUR_MIN), ceil(high_min / HOUR_MIN)
        return f"{low_h} h" if low_h == high_h else f"{low_h} to {high_h} h"
    if high_min >= LONG_MIN and low_min >= LONG_MIN:
        return _halves(low_min / HOUR_MIN, high_min / HOUR_MIN, "h")
    low, high = (
        minutes_words(floor(low_min / MINUTES) * MINUTES),
        minutes_words(ceil(high_min / MINUTES) * MINUTES),
    )
    return low if low == high else f"{low} to {high}"


def _halves(low: float, high: float, unit: str) -> str:
    first, last = _half(floor(low * 2)), _half(ceil(high * 2))
    return f"{first} {unit}" if first == last else f"{first} to {last} {unit}"


def _half(halves: int) -> str:
    whole, rest = divmod(halves, 2)
    if not rest:
        return str(whole)
    return f"{whole} 1/2" if whole else "1/2"


def minutes_words(minutes: int) -> str:
    """`50 min`, `1 h 40 min`, `2 h`."""
    hours, rest = divmod(minutes, HOUR_MIN)
    if not hours:
        return f"{rest} min"
    return f"{hours} h {rest} min" if rest else f"{hours} h"


def sentence_start(words: str) -> str:
    """A reason as the start of a sentence: its first letter large, the rest as it is."""
    return words[:1].upper() + words[1:]


def both_scales(fahrenheit: Fraction) -> str:
    """A temperature as a point in both scales, to a tenth: 83 °F (28.3 °C)."""
    celsius = Temperature(fahrenheit, "F").celsius
    return f"{show_decimal(fahrenheit, places=1)} °F ({show_decimal(celsius, places=1)} °C)"


def at_least(fahrenheit: Fraction) -> str:
    """A least temperature in both scales, never rounded down: 160 °F (72 °C)."""
    celsius = Temperature(fahrenheit, "F").celsius.__ceil__()
    return f"{fahrenheit.__ceil__()} °F ({celsius} °C)"


def at_most(fahrenheit: Fraction) -> str:
    """A most allowed temperature in both scales, never rounded up: 40 °F (4 °C)."""
    celsius = Temperature(fahrenheit, "F").celsius.__floor__()
    return f"{fahrenheit.__floor__()} °F ({celsius} °C)"


def how_hot(inside_f: Fraction | None, *, by_air: bool) -> str:
    """What a course does to the middle of a piece, in words behind `is` or `are`. None: nothing heats it."""
    if inside_f is None:
        return "made ready to eat without any heat"
    if by_air:
        return f"heated in air of no more than {both_scales(inside_f)}"
    return f"heated only to {both_scales(inside_f)} inside"
