"""The volume of a finished brine in, the water it takes out: `water: to make 6 gal`."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from generator.model.form import Setting
from generator.model.published import BrineRow
from generator.model.results import CureForms
from generator.problems import OutOfRange

STEP_G = Fraction(1, 10)
"Source: house choice, water is worked out to 0.1 g."
MOST_ROUNDS = 40
"Source: house choice; each round leaves a few per cent of the error of the one before."


def water_to_make_g(
    forms: CureForms, rows: Sequence[BrineRow], *, volume_ml: Fraction, batches: Fraction, meat_g: Fraction
) -> Fraction:
    """Water [g] with which a brine fills a volume at 60 °F: water = volume x specific gravity - the rest of the brine.

    Parameters: volume_ml [mL], batches [1], meat_g [g]. Valid for: brines up to saturation; raises OutOfRange beyond.
    Errors: sugar counts for the specific gravity as the same weight of brine; some 0.5 % of the water.
    Source: the specific gravities of the US brine table at 60 °F, read between its rows.
    """
    water = volume_ml
    for _ in range(MOST_ROUNDS):
        setting = Setting(batches=batches, meat_g=meat_g, water_g=water)
        brine = forms.brine.at(setting)
        strength = forms.strength_at(setting)
        gravity = specific_gravity(strength or Fraction(0), rows)
        found = _to_step(volume_ml * gravity - (brine - water))
        if found <= 0:
            raise OutOfRange("there is no room for water in that volume")
        if abs(found - water) <= STEP_G:
            return found
        water = found
    raise OutOfRange("no water makes that volume with these weights")


def specific_gravity(strength_percent: Fraction, rows: Sequence[BrineRow]) -> Fraction:
    """Specific gravity at 60 °F of a brine [1], read between the rows of its table; OutOfRange beyond them."""
    for low, high in pairwise(rows):
        if low.percent <= strength_percent <= high.percent:
            share = (strength_percent - low.percent) / (high.percent - low.percent)
            return low.specific_gravity + share * (high.specific_gravity - low.specific_gravity)
    raise OutOfRange(f"the brine table does not reach {float(strength_percent):.1f} %")


def _to_step(value: Fraction) -> Fraction:
    return (value / STEP_G).__round__() * STEP_G
