"""A finished page or asset: where it goes and what is in it."""

from __future__ import annotations

from dataclasses import dataclass


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
class Site:
    """All that is to be written."""

    pages: tuple[Page, ...]
    assets: tuple[Asset, ...] = ()
    photos: tuple[PhotoJob, ...] = ()
