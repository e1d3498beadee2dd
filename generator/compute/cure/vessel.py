"""A pot and the meat in it in, the brine that there is room for out; or the pot that it would take.

Water is taken at 1 g per mL. The pot is filled to its headroom, which also covers the range of the density of meat.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.brine import volume_ml
from generator.compute.cure.refusals import TEN_G
from generator.model.form import Setting
from generator.model.results import CureForms, CureResult, Vessel
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal, show_number
from generator.problems import ProblemLog
from generator.tables import Tables

TENTH_L = Fraction(1, 10)
"Source: house choice, the step in which a pot is named in a way out."
QUARTER = Fraction(1, 4)
"Source: house choice, the step in quarts."


@dataclass(frozen=True, slots=True, kw_only=True)
class Pot:
    """A pot [mL, to the brim] with meat in it [g]."""

    pot_ml: Fraction
    meat_g: Fraction
    pump_g: Fraction
    "To be drawn from the brine."
    tables: Tables

    @property
    def density(self) -> Fraction:
        """Of the meat [g/mL]."""
        return self.tables.constant("meat_density")

    @property
    def filled_share(self) -> Fraction:
        """Of the pot, that meat and brine may fill."""
        return 1 - self.tables.constant("pot_headroom_share")

    @property
    def meat_ml(self) -> Fraction:
        """What the meat takes up."""
        return self.meat_g / self.density

    @property
    def room_ml(self) -> Fraction:
        """What is left for brine; below nothing where not even the meat goes in."""
        return self.pot_ml * self.filled_share - self.meat_ml

    @property
    def cover_g(self) -> Fraction:
        """The least brine to cover the meat: a published ratio of pickle to meat."""
        return self.meat_g * self.tables.constant("cover_brine_share")

    def pot_for(self, brine_ml: Fraction) -> Fraction:
        """The least pot [mL] for this meat and a volume of brine."""
        return (self.meat_ml + brine_ml) / self.filled_share

    def most_meat_g(self) -> Fraction:
        """The most meat for this pot with its least brine and its pump, a gram of brine taken as 1 mL."""
        pump_share = self.pump_g / self.meat_g if self.meat_g else Fraction(0)
        per_g = 1 / self.density + self.tables.constant("cover_brine_share") + pump_share
        return self.pot_ml * self.filled_share / per_g


def water_that_fits(forms: CureForms, batches: Fraction, pot: Pot) -> Fraction:
    """The most water [whole g] whose brine, salt and sugar in it, has room beside the meat; found by halving."""
    low, high = 0, max(pot.room_ml.__floor__(), 0)  # a brine takes up no less than its water
    while low < high:
        middle = (low + high + 1) // 2
        setting = Setting(batches=batches, meat_g=pot.meat_g, water_g=Fraction(middle))
        if volume_ml(forms, setting, pot.tables) <= pot.room_ml:
            low = middle
        else:
            high = middle - 1
    return Fraction(low)


def refuse_small_pot(pot: Pot, log: ProblemLog) -> None:
    """Where the pot leaves too little room for the least brine and the pump, says which pot or how much meat."""
    least_ml = pot.cover_g + pot.pump_g
    if pot.room_ml >= least_ml:
        return
    room = max(pot.room_ml, Fraction(0))
    meat = show_number(round_down(pot.most_meat_g(), TEN_G))
    log.add(
        "pot-too-small",
        None,
        f"The pot leaves {_litres(room, up=False)} for brine beside the meat, and covering it "
        f"{'and the pump take' if pot.pump_g else 'takes'} {_litres(least_ml)}.",
        f"Take a pot of at least {_pot_size(pot.pot_for(least_ml), pot.tables)}, "
        f"or at most {meat} g of meat in this one.",
    )


def fit_vessel(result: CureResult, pot: Pot, *, water_from_pot: bool, log: ProblemLog) -> Vessel:
    """The meat and the brine of a result in a pot [mL, g]; a brine that does not fit, or leaves no pump, goes to the log.

    Water that was worked out from this pot fits it, and is not judged again: in whole grams it may leave the pump a
    gram short.
    """
    brine_ml = left_g = None
    if result.forms is not None and result.setting is not None:
        brine_ml = volume_ml(result.forms, result.setting, pot.tables)
        left_g = max(result.forms.brine.at(result.setting) - pot.cover_g, Fraction(0))
        if not water_from_pot:
            _judge_fit(result, result.forms, result.setting, brine_ml, pot, log)
            _judge_pump(left_g, pot, result, log)
    return Vessel(
        pot_ml=pot.pot_ml,
        meat_ml=pot.meat_ml,
        brine_ml=brine_ml,
        cover_g=pot.cover_g,
        left_for_pump_g=left_g,
        water_from_pot=water_from_pot,
    )


def _judge_fit(
    result: CureResult, forms: CureForms, setting: Setting, brine_ml: Fraction, pot: Pot, log: ProblemLog
) -> None:
    if brine_ml <= pot.room_ml:
        return
    ways = [f"Take a pot of at least {_pot_size(pot.pot_for(brine_ml), pot.tables)}"]
    most = round_down(water_that_fits(forms, setting.batches, pot), TEN_G)
    if most > 0 and pot.room_ml >= pot.cover_g + pot.pump_g:
        ways.append(f"or at most {show_number(most)} g of water in this one")
    else:
        meat = show_number(round_down(pot.most_meat_g(), TEN_G))
        ways.append(f"or less brine and at most {meat} g of meat in this one")
    log.add(
        "pot-too-small",
        None,
        f"Meat and brine are {_litres(pot.meat_ml + brine_ml)} together, and the pot takes "
        f"{_litres(pot.pot_ml * pot.filled_share, up=False)} with its headroom.",
        ", ".join(ways) + ".",
    )


def _judge_pump(left_g: Fraction, pot: Pot, result: CureResult, log: ProblemLog) -> None:
    known = any(problem.slug == "pump-over-brine" for problem in result.problems)
    if pot.pump_g <= left_g or known:
        return
    log.add(
        "pump-over-brine",
        None,
        f"The pump takes {show_decimal(pot.pump_g, places=0)} g, and beside the "
        f"{show_decimal(pot.cover_g, places=0)} g that cover the meat there are "
        f"{show_decimal(left_g, places=0)} g of brine.",
        "Mix more brine or pump less.",
    )


def _litres(ml: Fraction, *, up: bool = True) -> str:
    """Needs are rounded up and room down."""
    rounded = (round_up if up else round_down)(ml / 1000, TENTH_L)
    return f"{show_decimal(rounded, places=1)} L"


def _pot_size(ml: Fraction, tables: Tables) -> str:
    quarts = round_up(ml / tables.units["us_quart"].factor, QUARTER)
    return f"{_litres(ml)} ({show_number(quarts)} qt)"
