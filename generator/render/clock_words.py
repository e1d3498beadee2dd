"""Moments of a course in, words and plain data out."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from generator.model.moment import (
    StageTime,
    Window,
    date_words,
    moment_words,
    time_words,
    weekday_words,
    window_words,
)
from generator.model.shown import listed

__all__ = [
    "clock_lines",
    "date_words",
    "moment_words",
    "time_words",
    "times_data",
    "uncounted_sentence",
    "weekday_words",
    "window_words",
]


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
    return f"Allow time for {listed(names)}: no length is written, so none is counted."


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
