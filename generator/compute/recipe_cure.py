"""A recipe's cure at a scale in, the input of the cure arithmetic out: the facts of its meat decide its limit."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure import CureInput
from generator.compute.cure.amounts import has_unmeasured_ice, to_make_ml, water_g
from generator.compute.cure.case import PumpBrineInput
from generator.compute.cut_class import cut_class
from generator.compute.safety.facts.times import days_in, stages_named
from generator.compute.scale import written_meat_g
from generator.model.book import Book
from generator.model.published import Animal, CuringSalt
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Cure, Meat, PumpBrine, Recipe
from generator.model.results import Scale
from generator.problems import ProblemLog
from generator.tables import Tables

CURING_STAGES = ("cure", "equalise")
"Stages during which meat lies in its cure, or the cure goes on evening out."


def cure_input(
    book: Book, recipe: Recipe, cure: Cure, scale: Scale, tables: Tables, log: ProblemLog
) -> CureInput:
    """The cure of a recipe at a scale."""
    meat, written = recipe.meat, written_meat_g(recipe)
    batches = scale.batches
    water, to_make = (scale.water_g, None) if scale.water_g else _water(cure, batches, log)
    fish, days = _fish(meat, tables), days_in_cure(recipe)
    return CureInput(
        method=cure.method,
        cut=cut_class(recipe, tables),
        kind=curing_salt(cure.kind, book, tables),
        salt=cure.salt,
        sugar=cure.sugar,
        curing_salt=cure.curing_salt,
        nitrate=cure.nitrate,
        nitrate_kind=tables.curing_salt(cure.nitrate_kind) if cure.nitrate_kind else None,
        accelerator=cure.accelerator,
        meat_g=None if written is None else written * batches,
        water_g=water,
        to_make_ml=to_make,
        batches=batches,
        pump_percent=cure.pump_percent,
        pump_brine=_pump_brine(cure.pump_brine, book, tables, log),
        pick_up_percent=cure.pick_up_percent,
        skin_on=None if meat is None or meat.skin is None else meat.skin == "on",
        fish=fish.title.lower() if fish else None,
        fish_limit_ppm=tables.fish_limit(fish.key) if fish else None,
        fish_nitrate_ppm=tables.fish_nitrate_limit(fish.key) if fish else Fraction(0),
        ice_unmeasured=not scale.water_g and cure.water is not None and has_unmeasured_ice(cure.water),
        days=days.high if days is not None else None,
        thickness_mm=thinnest_mm(meat),
        temperature_c=warmest_c(recipe),
        frozen_before=was_frozen(recipe),
        position=cure.position,
        water_position=cure.water_position,
    )


def _water(cure: Cure, batches: Fraction, log: ProblemLog) -> tuple[Fraction | None, Fraction | None]:
    """Water [g], or the volume of brine to make [mL]."""
    if cure.water is None:
        return None, None
    volume = to_make_ml(cure.water)
    water = water_g(cure.water, log, cure.water_position)
    return None if water is None else water * batches, None if volume is None else volume * batches


def _pump_brine(pump: PumpBrine | None, book: Book, tables: Tables, log: ProblemLog) -> PumpBrineInput | None:
    if pump is None:
        return None
    return PumpBrineInput(
        water_g=water_g(pump.water, log, pump.position) if pump.water else None,
        salt=pump.salt,
        sugar=pump.sugar,
        curing_salt=pump.curing_salt,
        kind=curing_salt(pump.kind, book, tables),
        position=pump.position,
    )


def _fish(meat: Meat | None, tables: Tables) -> Animal | None:
    animal = tables.animal(meat.animal) if meat else None
    return animal if animal is not None and animal.group in ("fish", "shellfish") else None


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


def thinnest_mm(meat: Meat | None) -> Fraction | None:
    """Thickness of the thinnest piece [mm]: as told, or that of the only piece; else not known."""
    if meat is None:
        return None
    length = meat.thinnest if meat.thinnest is not None else meat.thickness if meat.pieces == 1 else None
    found = None if length is None else length.total(Dimension.LENGTH)
    return None if found is None else found.high


def curing_salt(kind: str, book: Book, tables: Tables) -> CuringSalt:
    """The book's own curing salt of that name, else the published one; reading has refused unknown names."""
    for own in book.config.curing_salts:
        if own.key == kind:
            return own
    found = tables.curing_salt(kind)
    assert found is not None, kind
    return found
