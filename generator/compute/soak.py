"""A recipe with a soak in, a fact line with the published soak for its days in the cure out."""

from __future__ import annotations

from generator.compute.cure.days import SOAK_MINUTES_PER_DAY, soak_minutes
from generator.compute.safety.facts.times import days_in, last_stage
from generator.compute.safety.words import at_most
from generator.model.quantity import Span
from generator.model.recipe import Recipe
from generator.model.shown import show_decimal
from generator.tables import Tables


def soak_facts(recipe: Recipe, tables: Tables) -> tuple[str, ...]:
    """The published soak beside the recipe's own; nothing where no soak follows a cure."""
    cured = last_stage(recipe, ("cure", "equalise"))
    soaks = [stage for stage in recipe.stages[(cured or 0) + 1 :] if stage.name == "soak"]
    if recipe.cure is None or cured is None or not soaks:
        return ()
    days = days_in(recipe, ("cure",))
    if days is not None and days.high > 0:
        low, high = soak_minutes(days_in_cure=days.low), soak_minutes(days_in_cure=days.high)
        result = f", so {_range(Span(low, high))} minutes after {_range(days)} days"
    else:
        result = "; the course does not say how many days that are"
    lengths = " and ".join(stage.length_written for stage in soaks if stage.length_written)
    own = f"this recipe soaks for {lengths}" if lengths else "this recipe does not say how long it soaks"
    return (
        f"Soak: the published time is about {SOAK_MINUTES_PER_DAY} minutes for each day in the cure{result}, in water "
        f"of at most {at_most(tables.constant('soak_water_maximum_f'))}; {own} (USDA Farmers' Bulletin 2265).",
    )


def _range(span: Span) -> str:
    low, high = (show_decimal(value, places=1) for value in (span.low, span.high))
    return f"{low}–{high}" if low != high else low
