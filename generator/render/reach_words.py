"""An estimate of reach in, its sentences out, the same on a page and at a prompt.

They say what is estimated and no more; words that promise anything about eating a piece have no place here.
"""

from __future__ import annotations

from fractions import Fraction

from generator.model.results import ReachResult
from generator.model.rounding import round_nearest
from generator.model.shown import show_number


def percent(share: float) -> int:
    """A share of the even level in whole per cent."""
    return int(round_nearest(100 * Fraction(share), Fraction(1)))


def days(number: Fraction) -> str:
    """`6 days`, `½ day`."""
    return f"{show_number(number)} {'day' if number <= 1 else 'days'}"


def salt_sentence(reach: ReachResult) -> str:
    """Estimate, range, day and word."""
    return (
        f"The estimated salt level at the middle is about {percent(reach.central)} % "
        f"(likely range {percent(reach.low)} to {percent(reach.high)} %) of the even level "
        f"after {days(reach.day)}: {reach.words}."
    )


def nitrite_sentence(reach: ReachResult) -> str:
    """The weaker word of nitrite; nothing for a cure without any."""
    return f"Nitrite at the middle: {reach.nitrite_words}." if reach.nitrite_words else ""


def even_sentence(reach: ReachResult) -> str:
    """The days on which the fast and the slow case pass three quarters of the even level."""
    fast, slow = reach.day_even_low, reach.day_even_high
    if fast is None:
        return "It does not pass three quarters of the even level within 120 days, not even in the fast case."
    if slow is None:
        return (
            f"It passes three quarters of the even level on day {fast} in the fast case, "
            "and not within 120 days in the slow case."
        )
    if fast == slow:
        return f"It passes three quarters of the even level on day {fast}."
    return (
        f"It passes three quarters of the even level on day {fast} in the fast case, "
        f"on day {slow} in the slow case."
    )
