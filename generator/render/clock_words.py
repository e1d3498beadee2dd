"""Moments of a course in, words and plain data out. English days and months, which nobody reads the wrong way round."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from generator.model.moment import Moment, StageTime, Window

DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
"By `weekday()`, so that no locale has a say."
MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")


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


def clock_lines(times: Sequence[StageTime], uncounted: Sequence[str]) -> list[str]:
    """The course by the clock, for a terminal: a stage, its start, its end under it where it takes time."""
    lines = [f"By the clock, {times[0].start.earliest.year}"]
    for number, one in enumerate(times, 1):
        label = f"  {number}. {one.stage:<12}"
        indent = " " * len(label)
        lines.append(f"{label} from {window_words(one.start)}")
        if one.end != one.start:
            lines.append(f"{indent} to   {window_words(one.end)}")
        if one.note:
            lines.append(f"{indent} {one.note}")
    if uncounted:
        lines.append(f"  {uncounted_sentence(uncounted)}")
    return lines


def uncounted_sentence(names: Sequence[str]) -> str:
    """What comes on top of the times told."""
    listed = " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
    return f"Allow time for {listed}: no length is written, so none is counted."


def times_data(times: Sequence[StageTime]) -> list[dict[str, Any]]:
    """For `--json`: ISO 8601, a range as [earliest, latest]."""
    return [
        {
            "stage": one.stage,
            "start": _window_data(one.start),
            "end": _window_data(one.end),
            "note": one.note or None,
        }
        for one in times
    ]


def _window_data(window: Window) -> str | list[str]:
    first, last = (moment.isoformat(timespec="minutes") for moment in (window.earliest, window.latest))
    return [first, last] if window.is_range else first
