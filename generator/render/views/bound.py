"""Finished pages in, what one document of them says of itself out."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup


@dataclass(frozen=True, slots=True, kw_only=True)
class BoundView:
    """Several pages in one document."""

    title: str
    description: str
    parts: tuple[Markup, ...]
