"""The course of a cured recipe in, what its later stages do to salt and weight out: soaks, pots, smoke."""

from __future__ import annotations

from fractions import Fraction

from generator.model.quantity import Dimension, Span
from generator.model.recipe import Recipe, Stage
from generator.tables import Tables

MINUTES = Fraction(60)
"Source: minutes of an hour, a definition."
LONG_DRYING_MIN = 2 * 24 * 60
"A longer one takes more water than any published loss here covers. Source: house choice, two days."
IN_LIQUID = frozenset({"boil", "simmer", "braise", "blanch"})
"Stages that cook a piece in a liquid."
SLOW_DRYING = frozenset({"age", "ferment"})
"Stages whose loss nobody has told."


def course_after(recipe: Recipe) -> tuple[Stage, ...]:
    """The stages after the last one in the cure."""
    cures = [number for number, stage in enumerate(recipe.stages) if stage.name == "cure"]
    return recipe.stages[cures[-1] + 1 :] if cures else recipe.stages


def soak_hours(recipe: Recipe) -> Span | None:
    """All soaks after the cure together [h]; None where there is none, or one has no length."""
    soaks = [stage.minutes for stage in course_after(recipe) if stage.name == "soak"]
    total = Span.of(0)
    for minutes in soaks:
        if minutes is None:
            return None
        total = total.plus(minutes)
    return total.times(1 / MINUTES) if soaks else None


def left_in_pot(
    recipe: Recipe, *, raw_water_g: Fraction, meat_g: Fraction, batches: Fraction, said: list[str]
) -> Span:
    """Share of the salt left after the recipe's own pot: from even with the pot's water to all of it."""
    if not any(_is_in_liquid(stage) for stage in course_after(recipe)):
        return Span.of(1)
    pot, made = _pot_water_g(recipe, batches), made_g(recipe, batches)
    if pot is None or made is None:
        said.append("How much salt goes into the pot it is cooked in is not known: from all of it to none.")
        return Span(Fraction(0), Fraction(1))
    said.append("The pot takes from none of the salt to its share when pot and meat are even.")
    held = max(Fraction(0), raw_water_g - max(Fraction(0), meat_g - made.low))
    return Span(held / (pot + raw_water_g) if held else Fraction(0), Fraction(1))


def _is_in_liquid(stage: Stage) -> bool:
    return stage.name in IN_LIQUID or (stage.name in ("cook", "reheat") and stage.place == "pot")


def _pot_water_g(recipe: Recipe, batches: Fraction) -> Fraction | None:
    """Water among the ingredients [g], 1 g per mL; that of the cure is not among them."""
    total = Fraction(0)
    for line in recipe.ingredients:
        if line.quantity is None or line.name.lower().split()[-1:] != ["water"]:
            continue
        amount = line.quantity.total(Dimension.VOLUME) or line.quantity.total(Dimension.WEIGHT)
        if amount is None:
            return None
        total += amount.high * line.batches(batches)
    return total or None


def made_g(recipe: Recipe, batches: Fraction) -> Span | None:
    """What the recipe makes [g], where it says so by weight."""
    made = recipe.makes.of(Dimension.WEIGHT) if recipe.makes else None
    return None if made is None or made.low <= 0 else made.times(batches)


def finished_yield(
    recipe: Recipe,
    meat_g: Fraction,
    batches: Fraction,
    tables: Tables,
    said: list[str],
    sources: list[str],
) -> Span | None:
    """Finished weight per green weight: the author's own first, else published losses, else None."""
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


def published_yield(recipe: Recipe, tables: Tables, sources: list[str]) -> Span | None:
    """Finished weight per green weight by published losses of its cure and later stages; None where one has none."""
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
        left = Span(left.low * row.low, left.high * row.high)
        sources.extend(row.sources)
    return left


def _loses_unknown(stage: Stage, tables: Tables) -> bool:
    is_long = stage.name == "dry" and (stage.minutes is not None and stage.minutes.high > LONG_DRYING_MIN)
    return is_long or stage.name in SLOW_DRYING or tables.stages.get(stage.name, False)
