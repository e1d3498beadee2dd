"""A cure's forms and a limit in, the most and the least of each thing at that limit out.

What follows from a figure held equal to its limit, solved for one weight, all else as it is. All of it follows batches,
meat and water; the sentences that name it stand in `refusals.py`. Weights are in grams, limits in ppm.

Source: the definition of each figure (FSIS Directive 7620.3, chapter 3), solved for the weight by hand.
"""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.case import NitriteForms
from generator.compute.cure.formulas import PER_MILLION
from generator.model.contract import Value, total
from generator.model.form import WATER, Form
from generator.model.results import CureForms


def most_curing_salt(case: NitriteForms, limit_ppm: Fraction) -> Value:
    """The most curing salt [g] at a limit: (L rest - 1,000,000 I) / (1,000,000 n - L), I coming by the needle.

    The L below the line falls away in a dry cure, where the green weight alone counts. Below nothing: there is no way.
    """
    own = limit_ppm if case.is_brine else Fraction(0)
    below = PER_MILLION * case.nitrite_share - own
    if below <= 0:
        return case.curing_salt
    return total((limit_ppm / below, case.rest), (-PER_MILLION / below, case.injected_nitrite))


def most_curing_salt_by_pick_up(case: NitriteForms, pick_up: Fraction, limit_ppm: Fraction) -> Value:
    """The most curing salt [g] at a limit on the pick-up figure: L w / (1,000,000 n q - L), w the rest of the brine."""
    below = PER_MILLION * case.nitrite_share * pick_up - limit_ppm
    return case.curing_salt if below <= 0 else total((limit_ppm / below, case.plain_brine))


def least_meat(case: NitriteForms, limit_ppm: Fraction) -> Value:
    """The least green weight [g] that the same curing salt fits: (1,000,000 n c - L w) / (L l), w the whole brine.

    l is the lean share. A dry cure has no w. Valid for: no needle, because more meat takes more pump brine with it.
    """
    by_meat = limit_ppm * case.lean_share
    over = (PER_MILLION * case.nitrite_share / by_meat, case.curing_salt)
    if not case.is_brine:
        return total(over)
    spread = -limit_ppm / by_meat
    return total(over, (spread, case.plain_brine), (spread, case.curing_salt))


def least_water(case: NitriteForms, limit_ppm: Fraction) -> Value:
    """The least water [g] that brings the same brine down to a limit, salt and sugar as they are."""
    spread = PER_MILLION / limit_ppm
    return total(
        (1, WATER),
        (spread * case.nitrite_share, case.curing_salt),
        (spread, case.injected_nitrite),
        (-1, case.rest),
        (-1, case.curing_salt),
    )


def most_nitrate(
    weight: Form, share: Fraction, forms: CureForms, limit_ppm: Fraction, *, is_brine: bool
) -> Value:
    """The most of what brings the nitrate [g] at its limit, all else as it is: L rest / (1,000,000 v - L)."""
    figure = forms.nitrate_ppm
    rest = figure.under.minus(weight) if is_brine else figure.under
    others = figure.over.minus(weight.times(share)).times(PER_MILLION)
    below = PER_MILLION * share - (limit_ppm if is_brine else 0)
    return rest.times(limit_ppm / below).minus(others.times(1 / below))


def least_water_by_pick_up(case: NitriteForms, pick_up: Fraction, limit_ppm: Fraction) -> Value:
    """The least water [g] that brings the pick-up figure of the same brine down to a limit."""
    needed = PER_MILLION * case.nitrite_share * pick_up / limit_ppm
    return total((1, WATER), (needed, case.curing_salt), (-1, case.plain_brine), (-1, case.curing_salt))
