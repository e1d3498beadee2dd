"""What is known of a cure in, the records that its steps pass on out: the input, and the input solved."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.model.form import Setting
from generator.model.published import CuringSalt
from generator.model.recipe import CureLine
from generator.model.results import CureForms
from generator.problems import Position

SKIN_SHARE = Fraction(1, 10)
"Source: USDA FSIS Directive 7620.3, pp. 27-31: the rind of a belly is taken as 10 % of its weight (from memory)."


@dataclass(frozen=True, slots=True, kw_only=True)
class CureInput:
    """A cure with all that decides its weights and its limit, from a recipe or from the command line."""

    method: str
    cut: str
    "whole, ground, belly"
    kind: CuringSalt
    salt: CureLine | None
    sugar: CureLine | None
    curing_salt: CureLine | None
    meat_g: Fraction | None
    water_g: Fraction | None
    batches: Fraction = Fraction(1)
    pump_percent: Fraction | None = None
    skin_on: bool | None = False
    "Of a belly: None is not told."
    fish: str | None = None
    "Name of the fish, where the meat is one."
    fish_limit_ppm: Fraction | None = None
    "Of a fish that may have nitrite."
    position: Position | None = None
    water_position: Position | None = None

    @property
    def is_brine(self) -> bool:
        """True for a brine, false for a dry cure."""
        return self.method == "brine"

    @property
    def lean_share(self) -> Fraction:
        """The share of the green weight that a limit counts: a belly is counted without its skin."""
        return 1 - SKIN_SHARE if self.cut == "belly" and self.skin_on else Fraction(1)


@dataclass(frozen=True, slots=True, kw_only=True)
class NitriteCase:
    """The weights [g] behind one ingoing nitrite figure."""

    nitrite_share: Fraction
    curing_salt_g: Fraction
    meat_g: Fraction
    "Green weight that counts: without the skin of a belly."
    water_g: Fraction
    salt_g: Fraction
    "Weighed, without the curing salt's own."
    sugar_g: Fraction
    is_brine: bool

    @property
    def rest_g(self) -> Fraction:
        """All that nitrite is spread over but the curing salt itself, which counts in a brine alone."""
        if not self.is_brine:
            return self.meat_g
        return self.meat_g + self.water_g + self.salt_g + self.sugar_g


@dataclass(frozen=True, slots=True, kw_only=True)
class Solved:
    """A cure with its forms at one setting."""

    given: CureInput
    forms: CureForms
    setting: Setting

    @property
    def salt_g(self) -> Fraction:
        """Salt to weigh [g], without the curing salt's own."""
        return self.forms.salt.at(self.setting)

    @property
    def sugar_g(self) -> Fraction:
        """Sugar to weigh [g]."""
        return self.forms.sugar.at(self.setting)

    @property
    def curing_salt_g(self) -> Fraction:
        """Curing salt to weigh [g]."""
        return self.forms.curing_salt.at(self.setting)

    @property
    def brine_g(self) -> Fraction:
        """The whole brine [g]; nothing in a dry cure."""
        return self.forms.brine.at(self.setting)

    @property
    def base_g(self) -> Fraction:
        """What percentages are of [g]: meat and water in a brine, the meat in a dry cure."""
        return self.setting.meat_g + (self.setting.water_g if self.given.is_brine else 0)

    @property
    def nitrite_case(self) -> NitriteCase:
        """The weights behind the ingoing nitrite."""
        return NitriteCase(
            nitrite_share=self.given.kind.nitrite,
            curing_salt_g=self.curing_salt_g,
            meat_g=self.setting.meat_g * self.given.lean_share,
            water_g=self.setting.water_g,
            salt_g=self.salt_g,
            sugar_g=self.sugar_g,
            is_brine=self.given.is_brine,
        )
