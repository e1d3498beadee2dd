"""A rule's slug and a reason in, its caution box out, with the words and sources of the table.

Temperatures in reasons stand in both scales here, since a reason is one sentence for every reader.
"""

from __future__ import annotations

from fractions import Fraction

from generator.model.quantity import Temperature
from generator.model.results import Caution
from generator.model.shown import show_decimal
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


def sentence_start(words: str) -> str:
    """A reason as the start of a sentence: its first letter large, the rest as it is."""
    return words[:1].upper() + words[1:]


def both_scales(fahrenheit: Fraction) -> str:
    """A temperature as a point in both scales, to a tenth: 83 °F (28.3 °C)."""
    celsius = Temperature(fahrenheit, "F").celsius
    return f"{show_decimal(fahrenheit, places=1)} °F ({show_decimal(celsius, places=1)} °C)"


def at_least(fahrenheit: Fraction) -> str:
    """A least temperature in both scales, never rounded down: 160 °F (72 °C)."""
    celsius = Temperature(fahrenheit, "F").celsius.__ceil__()
    return f"{fahrenheit.__ceil__()} °F ({celsius} °C)"


def at_most(fahrenheit: Fraction) -> str:
    """A most allowed temperature in both scales, never rounded up: 40 °F (4 °C)."""
    celsius = Temperature(fahrenheit, "F").celsius.__floor__()
    return f"{fahrenheit.__floor__()} °F ({celsius} °C)"
