"""A recipe and a scale in, the facts of its meat that decide its cure out, and with them the input of the arithmetic."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.written import CuredMeat
from generator.compute.meat.cut import cut_class
from generator.compute.safety.facts.times import days_in, stages_named
from generator.compute.scale.wish import green_meat_g
from generator.model.quantity import Span
from generator.model.recipe import Recipe
from generator.model.results import Scale
from generator.tables import Tables

CURING_STAGES = ("cure", "equalise")
"Stages during which meat lies in its cure, or the cure goes on evening out."


def cured_meat(recipe: Recipe, scale: Scale, tables: Tables) -> CuredMeat:
    """The facts of a recipe's meat, from `meat:` and the stages of its course."""
    meat, days = recipe.meat, days_in_cure(recipe)
    return CuredMeat(
        cut=cut_class(recipe, tables),
        batches=scale.batches,
        meat_g=green_meat_g(recipe, scale.batches),
        water_g=scale.water_g,
        skin_on=None if meat is None or meat.skin is None else meat.skin == "on",
        animal=tables.animal(meat.animal) if meat else None,
        days=None if days is None else days.high,
        thickness_mm=None if meat is None else meat.thinnest_mm,
        temperature_c=warmest_c(recipe),
        frozen_before=was_frozen(recipe),
    )


def days_in_cure(recipe: Recipe) -> Span | None:
    """How long the meat lies in its cure [days]; None where a cure stage has no length, or there is none."""
    return days_in(recipe, ("cure",)) if stages_named(recipe, ("cure",)) else None


def was_frozen(recipe: Recipe) -> bool | None:
    """True where it is thawed first; None: it was not told."""
    return True if stages_named(recipe, ("thaw",)) else None


def warmest_c(recipe: Recipe) -> Fraction | None:
    """The warmest that a cure stage is told to be at [degC]; None where no stage says."""
    told = [stage.at.high.celsius for stage in recipe.stages if stage.name in CURING_STAGES and stage.at]
    return max(told) if told else None
