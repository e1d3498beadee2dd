"""What is known of a cure in, the records that its steps pass on out: the input, and the input solved."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.formulas import PER_CENT
from generator.compute.cure.solve import Needle
from generator.model.contract import Value, total
from generator.model.form import MEAT, NOTHING, WATER, Form, Setting
from generator.model.published import CuringSalt, NitriteLimit
from generator.model.recipe import CureLine
from generator.model.results import CureEnds, CureForms, PumpBrineResult
from generator.problems import Position
from generator.tables import Tables

SKIN_SHARE = Fraction(1, 10)
"Source: USDA FSIS Directive 7620.3, pp. 27-31: the rind of a belly is taken as 10 % of its weight (from memory)."


@dataclass(frozen=True, slots=True, kw_only=True)
class PumpBrineInput:
    """A separately mixed brine for the needle as written, for one batch."""

    water_g: Fraction | None
    salt: CureLine | None
    sugar: CureLine | None
    curing_salt: CureLine | None
    kind: CuringSalt
    position: Position | None = None


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
    nitrate: CureLine | None = None
    nitrate_kind: CuringSalt | None = None
    "What `nitrate` weighs; needed where it is given."
    accelerator: CureLine | None = None
    batches: Fraction = Fraction(1)
    pump_percent: Fraction | None = None
    pump_brine: PumpBrineInput | None = None
    pick_up_percent: Fraction | None = None
    "Declared: a short cure."
    skin_on: bool | None = False
    "Of a belly: None is not told."
    belly_share: Fraction | None = None
    "Of several meats, the share [1] that is belly; None: all of it where the cut is belly, else none."
    skinned_share: Fraction = Fraction(1)
    "Of the belly, the share [1] that has its skin on, where some has."
    fish: str | None = None
    "Name of the fish, where the meat is one."
    is_all_fish: bool = True
    "False where other meat lies beside the fish."
    fish_limit_ppm: Fraction | None = None
    "Of a fish that may have nitrite."
    fish_nitrate_ppm: Fraction = Fraction(0)
    "The most nitrate in that fish; nothing where none is allowed."
    to_make_ml: Fraction | None = None
    "Volume of the finished brine, where that is told instead of its water."
    ice_unmeasured: bool = False
    days: Fraction | None = None
    "How long the recipe's own cure lasts, at the longest; None is not told."
    thickness_mm: Fraction | None = None
    "Of the thinnest piece, at its thickest part; None is not told."
    temperature_c: Fraction | None = None
    "Of the cure, the warmest that is told; None is not told."
    frozen_before: bool | None = None
    position: Position | None = None
    water_position: Position | None = None

    @property
    def is_brine(self) -> bool:
        """True for a brine, false for a dry cure."""
        return self.method == "brine"

    @property
    def lean_share(self) -> Fraction:
        """The share [1] of the green weight that a limit counts: a belly without its skin (9 CFR 424.22(b))."""
        if not self.has_belly or not self.skin_on:
            return Fraction(1)
        belly = Fraction(1) if self.belly_share is None else self.belly_share
        return 1 - SKIN_SHARE * belly * self.skinned_share

    @property
    def has_belly(self) -> bool:
        """True where the meat, or one of several, is belly: whatever the limit is, nitrate is never allowed in it."""
        return self.cut == "belly" if self.belly_share is None else self.belly_share > 0

    @property
    def nitrate_share(self) -> Fraction:
        """Nitrate in what `nitrate` weighs; all of it where no kind is told, which is the worst case."""
        return self.nitrate_kind.nitrate if self.nitrate_kind else Fraction(1)

    @property
    def pick_up(self) -> Fraction | None:
        """Share [1] of the weight gained, of a short cure."""
        return None if self.pick_up_percent is None else self.pick_up_percent / PER_CENT

    @property
    def pump_share(self) -> Fraction | None:
        """Share [1] of the green weight injected."""
        return None if self.pump_percent is None else self.pump_percent / PER_CENT

    @property
    def has_nitrite(self) -> bool:
        """True where any part brings nitrite."""
        pumped = self.pump_brine is not None and self.pump_brine.curing_salt is not None
        return self.curing_salt is not None or pumped


@dataclass(frozen=True, slots=True, kw_only=True)
class NitriteForms:
    """The weights [g] behind one ingoing nitrite figure, as they follow batches, meat and water."""

    nitrite_share: Fraction
    lean_share: Fraction
    "Of the green weight, that counts: without the skin of a belly."
    needle: Needle | None
    is_brine: bool
    curing_salt: Form
    salt: Value
    "Weighed, without the curing salt's own."
    sugar: Value
    other: Form
    "Nitrate and accelerator."

    @property
    def plain_brine(self) -> Value:
        """The cover brine without its curing salt."""
        return total((1, WATER), (1, self.salt), (1, self.sugar), (1, self.other))

    @property
    def rest(self) -> Value:
        """All that nitrite is spread over but the curing salt itself, which counts in a brine alone."""
        injected = self.needle.share if self.needle else Fraction(0)
        meat = MEAT.times(self.lean_share + injected)
        if not self.is_brine:
            return meat
        return total((1, meat), (1, self.plain_brine))

    @property
    def injected_nitrite(self) -> Form:
        """Nitrite that comes in by the needle, from a separately mixed brine."""
        return NOTHING if self.needle is None else MEAT.times(self.needle.share * self.needle.nitrite)


def nitrite_forms(given: CureInput, forms: CureForms, needle: Needle | None) -> NitriteForms:
    """The forms behind the ingoing nitrite of a cure."""
    return NitriteForms(
        nitrite_share=given.kind.nitrite,
        lean_share=given.lean_share,
        needle=needle,
        is_brine=given.is_brine,
        curing_salt=forms.curing_salt,
        salt=forms.salt,
        sugar=forms.sugar,
        other=forms.nitrate.plus(forms.accelerator),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class JudgedCure:
    """A solved cure, for any setting, with what holds it down."""

    given: CureInput
    forms: CureForms
    "At the most nitrite, where cups or spoons leave weights open."
    needle: Needle | None
    limit: NitriteLimit | None
    pump_brine: PumpBrineResult | None
    "Of one batch."
    tables: Tables
    entered_share: Fraction
    "Of a short cure: the share of the whole-system figure that can have entered by its last day."
    ends: CureEnds | None = None
    "None where everything is weighed."

    @property
    def most_nitrate(self) -> CureForms:
        """The forms at which its nitrate is the most."""
        return self.ends.most_nitrate if self.ends else self.forms

    @property
    def weakest(self) -> CureForms:
        """The forms at which its salt is the least."""
        return self.ends.weakest if self.ends else self.forms

    @property
    def lightest(self) -> CureForms:
        """The forms at which everything is the least."""
        return self.ends.lightest if self.ends else self.forms

    @property
    def nitrite(self) -> NitriteForms:
        """The weights behind its ingoing nitrite."""
        return nitrite_forms(self.given, self.forms, self.needle)

    @property
    def saturated_percent(self) -> Fraction:
        """Salt that water can hold [% of the brine at 60 degF]."""
        return self.tables.constant("saturated_brine_percent")


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
    def accelerator_g(self) -> Fraction:
        """Ascorbate or erythorbate to weigh [g]."""
        return self.forms.accelerator.at(self.setting)

    @property
    def brine_g(self) -> Fraction:
        """The whole cover brine [g]; nothing in a dry cure."""
        return self.forms.brine.at(self.setting)

    @property
    def base_g(self) -> Fraction:
        """What percentages are of [g]: meat and water in a brine, the meat in a dry cure."""
        return self.setting.meat_g + (self.setting.water_g if self.given.is_brine else 0)
