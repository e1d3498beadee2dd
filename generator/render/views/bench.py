"""A recipe in, the controls of its page out that weigh it again for the reader's scale; script shows them."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.model.results import ComputedRecipe
from generator.render.bench import bench_text
from generator.render.context import Context


@dataclass(frozen=True, slots=True, kw_only=True)
class ChoiceView:
    """One thing to choose."""

    value: str
    text: str
    is_chosen: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class BenchView:
    """The controls, and the data that they work with."""

    by: tuple[ChoiceView, ...]
    "What one may scale by."
    units: tuple[ChoiceView, ...]
    takes_water: bool
    "A brine whose water may be another than written."
    is_short: bool
    "A short cure: its water may not be changed on a page."
    measures: str
    "Whose quarts and gallons the book means."
    data: Markup


UNITS = (("us", "US"), ("metric", "Metric"), ("imperial", "Imperial"))


def bench_view(context: Context, recipe: ComputedRecipe) -> BenchView | None:
    """None where a page cannot weigh again."""
    data = bench_text(context, recipe)
    if not data:
        return None
    written, cure = recipe.recipe.cure, recipe.cure
    is_brine = cure is not None and cure.method == "brine" and cure.water_g is not None
    is_short = written is not None and written.pick_up_percent is not None
    return BenchView(
        by=_by(recipe),
        units=tuple(
            ChoiceView(value=value, text=text, is_chosen=value == context.amounts.system)
            for value, text in UNITS
        ),
        takes_water=is_brine and not is_short,
        is_short=is_brine and is_short,
        measures="imperial" if context.config.units == "imperial" else "US",
        data=data,
    )


def _by(recipe: ComputedRecipe) -> tuple[ChoiceView, ...]:
    """What the recipe says enough of: the meat first where there is a cure, as it lies on the scale."""
    meat = [("meat", "the meat on my scale")] if recipe.green_weight_g else []
    choices = [("serves", "servings")] if recipe.serves is not None else []
    if recipe.recipe.makes is not None:
        choices.append(("makes", f"{recipe.recipe.makes.noun or 'amount'} made"))
    choices = [*meat, *choices] if recipe.cure is not None else [*choices, *meat]
    return tuple(ChoiceView(value=value, text=text) for value, text in (*choices, ("batches", "batches")))
