"""A recipe and its batches in, the weight of what is made and of the raw meat for it out: the author's own first.

Where a cured recipe tells only one of the two, published losses of its cure, its smoke and its pots give the other as
a range. Trimmings are in no published loss: the weights are of trimmed meat.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.piece_course import made_g, published_yield
from generator.compute.scale import written_meat_g
from generator.compute.yields import PER_CENT, finished_weight_g, green_weight_needed_g
from generator.model.quantity import Span
from generator.model.recipe import Recipe
from generator.model.shown import show_decimal
from generator.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """Of one making [g]; None is not known."""

    amount_g: Span | None
    green_g: Fraction | None
    note: str = ""
    sources: tuple[str, ...] = ()


def weights_of(recipe: Recipe, batches: Fraction, tables: Tables) -> Weights:
    """What is made, and the raw meat it takes."""
    amount, written = made_g(recipe, batches), written_meat_g(recipe)
    green = None if written is None else written * batches
    if recipe.cure is None or (amount is None) == (green is None):
        return Weights(amount_g=amount, green_g=green)
    sources: list[str] = []
    yields = published_yield(recipe, tables, sources)
    if yields is None:
        return Weights(amount_g=amount, green_g=green)
    percent = yields.times(PER_CENT)
    if green is not None:
        amount = Span(_finished(green, percent.low), _finished(green, percent.high))
    elif amount is not None:
        # By the largest loss, so that there is enough.
        green = green_weight_needed_g(finished_g=amount.high, yield_percent=percent.low)
    return Weights(amount_g=amount, green_g=green, note=_note(percent), sources=tuple(dict.fromkeys(sources)))


def _finished(green: Fraction, percent: Fraction) -> Fraction:
    return finished_weight_g(green_g=green, yield_percent=percent)


def _note(percent: Span) -> str:
    low, high = (show_decimal(end, places=0) for end in (percent.low, percent.high))
    left = f"{low} %" if low == high else f"{low} to {high} %"
    return f"By published losses {left} of the trimmed green weight is left; the recipe does not say it."
