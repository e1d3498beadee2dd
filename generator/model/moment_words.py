"""A moment in, English words out: days and months that nobody reads the wrong way round."""

from __future__ import annotations

from generator.model.moment import Moment, Window

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
