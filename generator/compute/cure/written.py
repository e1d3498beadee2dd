"""A `cure:` block and the facts of its meat in, the input of the arithmetic out: for a recipe and for what is typed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.cure.amounts import has_unmeasured_ice, to_make_ml, water_g
from generator.compute.cure.case import CureInput, PumpBrineInput
from generator.model.published import Animal, CuringSalt
from generator.model.recipe import Cure, PumpBrine
from generator.problems import ProblemLog
from generator.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class CuredMeat:
    """What decides a cure beside its own block. None: it was not told."""

    cut: str
    "whole, ground, belly"
    batches: Fraction = Fraction(1)
    meat_g: Fraction | None
    "Green weight of all batches."
    water_g: Fraction | None = None
    "Of all batches, where another amount than the written one is asked for."
    skin_on: bool | None = None
    belly_share: Fraction | None = None
    "Of several meats."
    skinned_share: Fraction = Fraction(1)
    "Of the belly."
    animal: Animal | None = None
    "Of several the fish with the lowest limit, else any."
    is_all_fish: bool = True
    days: Fraction | None = None
    "In the cure, at the longest."
    thickness_mm: Fraction | None = None
    "Of the thinnest piece."
    temperature_c: Fraction | None = None
    "The warmest that the cure is told to be at."
    frozen_before: bool | None = None

    @property
    def fish(self) -> Animal | None:
        """The animal, where it is a fish."""
        animal = self.animal
        return animal if animal is not None and animal.group in ("fish", "shellfish") else None


def cure_input(
    cure: Cure, meat: CuredMeat, own: tuple[CuringSalt, ...], tables: Tables, log: ProblemLog
) -> CureInput:
    """All that decides the weights of a cure and its limit; `own` are the curing salts of the book."""
    fish, nitrate = meat.fish, cure.nitrate_kind
    given = CureInput(
        method=cure.method,
        cut=meat.cut,
        kind=curing_salt(cure.kind, own, tables),
        salt=cure.salt,
        sugar=cure.sugar,
        curing_salt=cure.curing_salt,
        nitrate=cure.nitrate,
        nitrate_kind=tables.curing_salt(nitrate) if nitrate else None,
        accelerator=cure.accelerator,
        meat_g=meat.meat_g,
        water_g=meat.water_g,
        batches=meat.batches,
        pump_percent=cure.pump_percent,
        pump_brine=_pump_brine(cure.pump_brine, own, tables, log),
        pick_up_percent=cure.pick_up_percent,
        skin_on=meat.skin_on,
        belly_share=meat.belly_share,
        skinned_share=meat.skinned_share,
        fish=fish.title.lower() if fish else None,
        is_all_fish=meat.is_all_fish,
        fish_limit_ppm=tables.fish_limit(fish.key) if fish else None,
        fish_nitrate_ppm=tables.fish_nitrate_limit(fish.key) if fish else Fraction(0),
        days=meat.days,
        thickness_mm=meat.thickness_mm,
        temperature_c=meat.temperature_c,
        frozen_before=meat.frozen_before,
        position=cure.position,
        water_position=cure.water_position,
    )
    return given if meat.water_g or cure.water is None else _with_water(given, cure, log)


def _with_water(given: CureInput, cure: Cure, log: ProblemLog) -> CureInput:
    """The water as written [g], or the volume of brine to make [mL], of all batches."""
    assert cure.water is not None
    grams, volume = water_g(cure.water, log, cure.water_position), to_make_ml(cure.water)
    return replace(
        given,
        water_g=None if grams is None else grams * given.batches,
        to_make_ml=None if volume is None else volume * given.batches,
        ice_unmeasured=has_unmeasured_ice(cure.water),
    )


def _pump_brine(
    pump: PumpBrine | None, own: tuple[CuringSalt, ...], tables: Tables, log: ProblemLog
) -> PumpBrineInput | None:
    if pump is None:
        return None
    return PumpBrineInput(
        water_g=water_g(pump.water, log, pump.position) if pump.water else None,
        salt=pump.salt,
        sugar=pump.sugar,
        curing_salt=pump.curing_salt,
        kind=curing_salt(pump.kind, own, tables),
        position=pump.position,
    )


def curing_salt(kind: str, own: tuple[CuringSalt, ...], tables: Tables) -> CuringSalt:
    """The own curing salt of that name, else the published one; reading has refused unknown names."""
    found = next((salt for salt in own if salt.key == kind), None) or tables.curing_salt(kind)
    assert found is not None, kind
    return found
