"""Moments of a course: local dates and times as values. Nobody here asks what time it is now.

A moment without a zone is local time and has no change of clocks in it. One with a zone is moved in UTC, so that
six hours are six hours across a change of clocks, and shown by the local clock again.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

Moment = datetime
"A local date and time, with a zone where one is known."
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
"By `weekday()`, so that no locale has a say."
MONTH_NAMES = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """When something happens: not before the one moment, not after the other. Without a range both are the same."""

    earliest: Moment
    latest: Moment

    @property
    def is_range(self) -> bool:
        """True where the two differ; in an hour that comes twice, the same reading of the clock is two moments."""
        return self.earliest != self.latest or self.earliest.utcoffset() != self.latest.utcoffset()


@dataclass(frozen=True, slots=True, kw_only=True)
class StageTime:
    """One stage by the clock."""

    stage: str
    start: Window
    end: Window
    note: str = ""
    "Why no time, or not all of it, is counted for it; empty where its length is written."


def later(moment: Moment, minutes: int) -> Moment:
    """So many minutes later (or earlier, below 0), exact across a change of clocks where the zone is known."""
    span = timedelta(minutes=minutes)
    if moment.tzinfo is None:
        return moment + span
    return (moment.astimezone(UTC) + span).astimezone(moment.tzinfo)


def minutes_from(moment: Moment, other: Moment) -> int:
    """Whole minutes from the one to the other, below 0 where it is earlier; one without a zone is by the other's."""
    if moment.tzinfo is None:
        moment = moment.replace(tzinfo=other.tzinfo)
    if other.tzinfo is None:
        other = other.replace(tzinfo=moment.tzinfo)
    if moment.tzinfo is not None:
        moment, other = moment.astimezone(UTC), other.astimezone(UTC)
    return (other - moment) // timedelta(minutes=1)


def weekday_words(moment: Moment) -> str:
    """`Sat`"""
    return DAYS[moment.weekday()]


def date_words(moment: Moment) -> str:
    """`5 Dec`"""
    return f"{moment.day} {MONTHS[moment.month - 1]}"


def time_words(moment: Moment) -> str:
    """`08:00`, with the name of the local time where the zone is known: `02:30 CET`."""
    return f"{moment:%H:%M} {moment.tzname() or ''}".strip()


def moment_words(moment: Moment) -> str:
    """`Sat 5 Dec 08:00`"""
    return f"{weekday_words(moment)} {date_words(moment)} {time_words(moment)}"


def window_words(window: Window) -> str:
    """One moment, or the earliest and the latest."""
    first = moment_words(window.earliest)
    if not window.is_range:
        return first
    if window.earliest.date() == window.latest.date():
        zone = f" {window.latest.tzname()}"  # told once where both ends have it
        return f"{first.removesuffix(zone)}–{time_words(window.latest)}"
    return f"{first} – {moment_words(window.latest)}"
