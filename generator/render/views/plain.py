"""A plain page: prose under a name."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.model.recipe import PlainPage
from generator.render.context import Context
from generator.render.prose import render_prose


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainView:
    """One plain page."""

    title: str
    description: str
    summary: str
    body: Markup


def plain_view(context: Context, page: str, plain: PlainPage) -> PlainView:
    """The page's prose; its headings come below the page's own."""
    return PlainView(
        title=plain.name,
        description=plain.summary or plain.name,
        summary=plain.summary,
        body=render_prose(context, plain.body.text, page=page, file=plain.file),
    )
