"""A cured recipe in, what is left of its raw meat out, and the raw meat for what it makes: the author's own weights first.

Where a recipe tells only one of the two, published losses of its cure, its smoke and its pots give the other as
a range. Trimmings are in no published loss: the weights are of trimmed meat.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.formulas import PER_CENT
from generator.compute.scale.wish import green_meat_g
from generator.compute.weight.yields import finished_weight_g, green_weight_needed_g
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Recipe, Stage
from generator.model.shown import show_decimal
from generator.tables import Tables

LONG_DRYING_MIN = 2 * 24 * 60
"A longer one takes more water than any published loss here covers. Source: house choice, two days."
SLOW_DRYING = frozenset({"age", "ferment"})
"Stages whose loss nobody has told."


@dataclass(frozen=True, slots=True, kw_only=True)
class Weights:
    """Of one making [g]; None is not known."""

    amount_g: Span | None
    green_g: Fraction | None
    note: str = ""
    sources: tuple[str, ...] = ()


def weights_of(recipe: Recipe, batches: Fraction, tables: Tables) -> Weights:
    """What is made, and the raw meat it takes."""
    amount, green = made_g(recipe, batches), green_meat_g(recipe, batches)
    if recipe.cure is None or (amount is None) == (green is None):
        return Weights(amount_g=amount, green_g=green)
    sources: list[str] = []
    yields = published_yield(recipe, tables, sources)
    if yields is None:
        return Weights(amount_g=amount, green_g=green)
    percent = yields.times(PER_CENT)
    if green is not None:
        low, high = (
            finished_weight_g(green_g=green, yield_percent=end) for end in (percent.low, percent.high)
        )
        amount = Span(low, high)
    elif amount is not None:
        # By the largest loss, so that there is enough.
        green = green_weight_needed_g(finished_g=amount.high, yield_percent=percent.low)
    return Weights(amount_g=amount, green_g=green, note=_note(percent), sources=tuple(dict.fromkeys(sources)))


def _note(percent: Span) -> str:
    low, high = (show_decimal(end, places=0) for end in (percent.low, percent.high))
    left = f"{low} %" if low == high else f"{low} to {high} %"
    return f"By published losses {left} of the trimmed green weight is left; the recipe does not say it."


def course_after(recipe: Recipe) -> tuple[Stage, ...]:
    """The stages after the last one in the cure."""
    cures = [number for number, stage in enumerate(recipe.stages) if stage.name == "cure"]
    return recipe.stages[cures[-1] + 1 :] if cures else recipe.stages


def made_g(recipe: Recipe, batches: Fraction) -> Span | None:
    """What the recipe makes [g], where it says so by weight."""
    made = recipe.makes_total(Dimension.WEIGHT)
    # A yield is divided by it later on.
    return None if made is None or made.low <= 0 else made.times(batches)


def published_yield(recipe: Recipe, tables: Tables, sources: list[str]) -> Span | None:
    """Finished weight per green weight [g/g] by published losses of its cure and later stages; None where one has none.

    Each loss is of the weight before it, so they multiply. Sources: the rows of `losses.csv`, told to `sources`.
    """
    assert recipe.cure is not None
    rows = [tables.carry.loss_of("cure", recipe.cure.method)]
    for stage in course_after(recipe):
        row = tables.carry.loss_of(stage.name)
        if row is not None:
            rows.append(row)
        elif _loses_unknown(stage, tables):
            return None
    left = Span.of(1)
    for row in rows:
        assert row is not None, "every method has a row"
        left = left.by(row.span)
        sources.extend(row.sources)
    return left


def finished_yield(
    recipe: Recipe,
    meat_g: Fraction,
    batches: Fraction,
    tables: Tables,
    said: list[str],
    sources: list[str],
) -> Span | None:
    """Finished weight per green weight [g/g]: the author's own first, else published losses, else None."""
    made = made_g(recipe, batches)
    if made is not None:
        said.append("The finished weight is the recipe's own.")
        return made.times(1 / meat_g)
    yields = published_yield(recipe, tables, sources)
    said.append(
        "What the finished piece weighs is not known."
        if yields is None
        else "The finished weight is taken from published losses, since the recipe does not say it."
    )
    return yields


def _loses_unknown(stage: Stage, tables: Tables) -> bool:
    is_long = stage.name == "dry" and (stage.minutes is not None and stage.minutes.high > LONG_DRYING_MIN)
    return is_long or stage.name in SLOW_DRYING or tables.stages.get(stage.name, False)
