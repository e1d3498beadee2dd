"""A hand-made estimate for the tests of pages and figures: round numbers, not worked out."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

from generator.model.results import ComputedRecipe, ReachResult
from tests.render import sample

LAST = 28


def series(central_at_end: float, last: int = LAST) -> tuple[tuple[int, float, float, float], ...]:
    """Straight lines from nothing on day 0: half of the central one below, up to 1 above."""
    low, central, high = central_at_end / 2, central_at_end, 1.0
    return tuple((day, low * day / last, central * day / last, high * day / last) for day in range(last + 1))


def reach(**changes: Any) -> ReachResult:
    """An estimate with a pump, on day 7."""
    fields = {
        "day": Fraction(7),
        "low": 0.1,
        "central": 0.2,
        "high": 0.25,
        "words": "probably not yet reached",
        "nitrite_low": 0.0,
        "nitrite_high": 0.2,
        "nitrite_words": "probably not yet reached",
        "day_even_low": 21,
        "day_even_high": None,
        "series": series(0.8),
        "series_without_pump": series(0.4),
        "caveats": ("An estimate for planning.", "Nitrite <lags>."),
        "worked_out_for": "6 lb (2.725 kg) of meat in 1.04 times its weight of water",
        "sources": ("pork-brine-2015", "house"),
        **changes,
    }
    return ReachResult(**fields)


def shank(**changes: Any) -> ComputedRecipe:
    """The hand-made shank with this estimate."""
    return sample.shank(cure=replace(sample.CURE, reach=reach(**changes)))
