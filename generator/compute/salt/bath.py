"""The soaks and pots of a cured recipe in, what they leave of its salt out, and the published soak beside its own."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.days import SOAK_MINUTES_PER_DAY, soak_minutes
from generator.compute.safety.facts.times import days_in, last_stage
from generator.compute.safety.words import at_most
from generator.compute.weight.losses import course_after, made_g
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Recipe, Stage
from generator.model.shown import show_decimal
from generator.tables import Tables

MINUTES = Fraction(60)
"Source: minutes of an hour, a definition."
IN_LIQUID = frozenset({"boil", "simmer", "braise", "blanch"})
"Stages that cook a piece in a liquid."


def soak_hours(recipe: Recipe) -> Span | None:
    """All soaks after the cure together [h]; None where there is none, or one has no length."""
    soaks = [stage.minutes for stage in course_after(recipe) if stage.name == "soak"]
    told = [minutes for minutes in soaks if minutes is not None]
    return Span.total(told).times(1 / MINUTES) if soaks and len(told) == len(soaks) else None


def left_in_pot(
    recipe: Recipe, *, raw_water_g: Fraction, meat_g: Fraction, batches: Fraction, said: list[str]
) -> Span:
    """Share [1] of the salt left after the recipe's own pot: from even with the pot's water to all of it.

    Parameters: raw_water_g, the least water in the raw lean [g]; meat_g, green [g]; batches [1]; said takes sentences.
    Source: even level, salt / (bath water + meat water), the balance behind Crank 1975, ch. 4 (limited bath).
    """
    if not any(_is_in_liquid(stage) for stage in course_after(recipe)):
        return Span.of(1)
    pot, made = _pot_water_g(recipe, batches), made_g(recipe, batches)
    if pot is None or made is None:
        said.append("How much salt goes into the pot it is cooked in is not known: from all of it to none.")
        return Span(Fraction(0), Fraction(1))
    said.append("The pot takes from none of the salt to its share when pot and meat are even.")
    # All that the piece lost in weight counts as water that is no longer there to hold salt: the least end.
    held = max(Fraction(0), raw_water_g - max(Fraction(0), meat_g - made.low))
    return Span(held / (pot + raw_water_g) if held else Fraction(0), Fraction(1))


def _is_in_liquid(stage: Stage) -> bool:
    return stage.name in IN_LIQUID or (stage.name in ("cook", "reheat") and stage.place == "pot")


def _pot_water_g(recipe: Recipe, batches: Fraction) -> Fraction | None:
    """Water among the ingredients [g], 1 g per mL; that of the cure is not among them."""
    total = Fraction(0)
    for line in recipe.ingredients:
        if line.quantity is None or not line.is_water:
            continue
        amount = line.quantity.total(Dimension.VOLUME) or line.quantity.total(Dimension.WEIGHT)
        if amount is None:
            return None
        total += amount.high * line.batches(batches)
    return total or None


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
