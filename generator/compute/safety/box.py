"""A rule's slug and a reason in, its caution box out, with the words and sources of the table."""

from __future__ import annotations

from generator.model.results import Caution
from generator.tables import Tables


def box(slug: str, because: str, tables: Tables, *, stage: int | None = None) -> Caution:
    """The box of one rule, standing before the method or beside a stage."""
    text = tables.cautions[slug]
    return Caution(
        slug=slug,
        signal=text.signal,
        title=text.title,
        text=text.text,
        because=because,
        sources=text.sources,
        stage=stage,
    )
