"""A time from low to high in, its words out: the low end rounded down, the high one up, since it is an estimate."""

from __future__ import annotations

from math import ceil, floor

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
