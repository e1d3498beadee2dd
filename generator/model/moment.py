"""Moments of a course: local dates and times as values. Nobody here asks what time it is now.

A moment without a zone is local time and has no change of clocks in it. One with a zone is moved in UTC, so that
six hours are six hours across a change of clocks, and shown by the local clock again.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

Moment = datetime
"A local date and time, with a zone where one is known."


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
