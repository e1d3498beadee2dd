"""A recipe and a scale in, the facts of its meat that decide its cure out, and with them the input of the arithmetic."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.written import CuredMeat
from generator.compute.meat.cut import belly_of, cut_class, fish_of
from generator.compute.safety.facts.times import days_in, stages_named
from generator.compute.scale.wish import green_meat_g, meat_shares
from generator.model.published import Animal
from generator.model.quantity import Span
from generator.model.recipe import Meat, Recipe
from generator.model.results import Scale
from generator.tables import Tables

CURING_STAGES = ("cure", "equalise")
"Stages during which meat lies in its cure, or the cure goes on evening out."


def cured_meat(recipe: Recipe, scale: Scale, tables: Tables) -> CuredMeat:
    """The facts of a recipe's meats, from `meat:` and the stages of its course."""
    days, fish = days_in_cure(recipe), [fish_of(meat, tables) for meat in recipe.meats]
    belly = belly_of(recipe, tables)
    return CuredMeat(
        cut=cut_class(recipe, tables),
        batches=scale.batches,
        meat_g=green_meat_g(recipe, scale.batches),
        water_g=scale.water_g,
        skin_on=_skin_on(belly or recipe.meats),
        belly_share=_share(belly, recipe) if recipe.several_meats else None,
        skinned_share=_skinned_share(belly, recipe),
        animal=_fish_that_decides(fish, tables),
        is_all_fish=None not in fish,
        days=None if days is None else days.high,
        thickness_mm=_thinnest_mm(recipe),
        temperature_c=warmest_c(recipe),
        frozen_before=was_frozen(recipe),
    )


def _skin_on(meats: tuple[Meat, ...]) -> bool | None:
    """True where one of them has its skin on; None where of one it is not told."""
    told = {meat.skin for meat in meats} or {None}
    return None if None in told else "on" in told


def _share(some: tuple[Meat, ...], recipe: Recipe) -> Fraction:
    """Of all the meat. Where they are not all weighed, the cure has no weight to go by and is refused for that."""
    shares = meat_shares(recipe)
    return sum((shares.get(meat.id, Fraction(1)) for meat in some), Fraction(0))


def _skinned_share(belly: tuple[Meat, ...], recipe: Recipe) -> Fraction:
    """Of several bellies, the share that has its skin on."""
    whole = _share(belly, recipe) if recipe.several_meats else Fraction(0)
    skinned = tuple(meat for meat in belly if meat.skin == "on")
    return _share(skinned, recipe) / whole if whole else Fraction(1)


def _fish_that_decides(fish: list[Animal | None], tables: Tables) -> Animal | None:
    """The fish that may have the least nitrite; one that may have none has no limit."""
    found = [one for one in fish if one is not None]
    return min(found, key=lambda one: tables.fish_limit(one.key) or Fraction(0), default=None)


def _thinnest_mm(recipe: Recipe) -> Fraction | None:
    """Of the thinnest piece [mm]; None where of one meat it is not told."""
    told = [meat.thinnest_mm for meat in recipe.meats]
    known = [thickness for thickness in told if thickness is not None]
    return min(known) if known and len(known) == len(told) else None


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
