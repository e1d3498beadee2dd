"""A finished page or asset: where it goes and what is in it."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.moment import Moment


@dataclass(frozen=True, slots=True, kw_only=True)
class Page:
    """One HTML page of the site."""

    path: str
    "Relative to the site, with forward slashes: recipes/smoked-elk-shank/index.html."
    html: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Asset:
    """One file that is not a page: style, font, script."""

    path: str
    content: bytes


@dataclass(frozen=True, slots=True, kw_only=True)
class PhotoJob:
    """A photo to be written smaller and without its metadata."""

    source: str
    "Relative to the book: photos/shank.jpg."
    path: str
    "Relative to the site."
    width: int
    "Widest side in pixels; smaller photos stay as they are."


@dataclass(frozen=True, slots=True, kw_only=True)
class Event:
    """One entry of a calendar."""

    name: str
    "By which it is known again when the plan is written anew: gathering, recipe and stage."
    start: Moment
    end: Moment
    summary: str
    description: str = ""
    alarm_min: int | None = None
    "Minutes before the start at which a reader is told; None: not."


@dataclass(frozen=True, slots=True, kw_only=True)
class CalendarJob:
    """A calendar file to be written."""

    path: str
    "Relative to the site."
    name: str
    stamp: Moment
    "What the file gives as its own time: from the plan, never the clock."
    events: tuple[Event, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Site:
    """All that is to be written."""

    pages: tuple[Page, ...]
    assets: tuple[Asset, ...] = ()
    photos: tuple[PhotoJob, ...] = ()
    calendars: tuple[CalendarJob, ...] = ()
