"""A solved cure in, refusals out: above a limit no weights are given, but ways out that are worked out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.case import NitriteCase, Solved
from generator.compute.cure.formulas import PER_MILLION
from generator.model.published import NitriteLimit
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal

TENTH_G = Fraction(1, 10)
"Source: house choice, the finest step of a kitchen scale that the book asks for."
HUNDREDTH_G = Fraction(1, 100)
"Source: house choice, the step below a gram."
TEN_G = Fraction(10)
"Source: house choice, the step in which meat and water are named in a way out."

CUTS = {"whole": "whole cuts", "ground": "ground meat", "belly": "belly"}
METHODS = {"brine": "in a brine", "dry": "in a dry cure"}


def most_curing_salt_g(case: NitriteCase, limit_ppm: Fraction) -> Fraction:
    """The most curing salt [g] at a limit: (L rest - 1,000,000 I) / (1,000,000 n - L), I coming by the needle.

    The L below the line falls away in a dry cure, where the green weight alone counts.
    """
    own = limit_ppm if case.is_brine else Fraction(0)
    room = limit_ppm * case.rest_g - PER_MILLION * case.injected_nitrite_g
    below = PER_MILLION * case.nitrite_share - own
    return max(room / below, Fraction(0)) if below > 0 else case.curing_salt_g


def most_curing_salt_by_pick_up_g(case: NitriteCase, pick_up: Fraction, limit_ppm: Fraction) -> Fraction:
    """The most curing salt [g] at a limit on the pick-up figure: L w / (1,000,000 n q - L), w the rest of it."""
    below = PER_MILLION * case.nitrite_share * pick_up - limit_ppm
    if below <= 0:
        return case.curing_salt_g
    return limit_ppm * case.plain_brine_g / below


def least_meat_g(case: NitriteCase, limit_ppm: Fraction) -> Fraction | None:
    """The least green weight [g] that the same curing salt fits, all else as it is; None where no meat helps."""
    share, nitrite = (case.needle.share, case.needle.nitrite) if case.needle else (Fraction(0),) * 2
    fixed = case.plain_brine_g + case.curing_salt_g
    by_meat = limit_ppm * (case.lean_share + share) - PER_MILLION * share * nitrite
    if by_meat <= 0:
        return None
    over = PER_MILLION * case.nitrite_share * case.curing_salt_g
    return (over - (limit_ppm * fixed if case.is_brine else 0)) / by_meat


def least_water_g(case: NitriteCase, limit_ppm: Fraction) -> Fraction:
    """The least water [g] that brings the same brine down to a limit, salt and sugar as they are."""
    spread = PER_MILLION * case.nitrite_g / limit_ppm
    return case.water_g + spread - case.rest_g - case.curing_salt_g


def most_nitrate_g(solved: Solved, limit_ppm: Fraction) -> Fraction:
    """The most of what brings the nitrate [g] at its limit, all else as it is: L rest / (1,000,000 v - L)."""
    figure = solved.forms.nitrate_ppm
    by_itself = solved.given.nitrate is not None
    weight = solved.nitrate_g if by_itself else solved.curing_salt_g
    kind = solved.given.nitrate_kind if by_itself else solved.given.kind
    share = kind.nitrate if kind is not None else Fraction(1)
    own = weight if solved.given.is_brine else Fraction(0)
    rest = figure.under.at(solved.setting) - own
    others = PER_MILLION * (figure.over.at(solved.setting) - share * weight)
    below = PER_MILLION * share - (limit_ppm if solved.given.is_brine else 0)
    return max((limit_ppm * rest - others) / below, Fraction(0))


def ways_out(case: NitriteCase, limit: NitriteLimit) -> str:
    """Three worked ways to come down to the limit, each by itself: less curing salt, more meat, more water."""
    most = most_curing_salt_g(case, limit.limit_ppm)
    ways = []
    if most > 0:
        ways.append(f"At most {_fine(most)} g of this curing salt for this meat")
    meat = least_meat_g(case, limit.limit_ppm) if case.needle is None else None
    if case.needle is not None:
        ways.append("or pump less, or mix the pump brine with less curing salt")
    if meat is not None:
        least = show_decimal(round_up(meat, TEN_G), places=0)
        ways.append(f"or at least {least} g of meat for this curing salt")
    if case.is_brine:
        water = show_decimal(round_up(least_water_g(case, limit.limit_ppm), TEN_G), places=0)
        ways.append(f"or at least {water} g of water with the same salt and sugar")
    else:
        ways.append(
            f"or write a target, curing salt: {show_decimal(limit.limit_ppm, places=2)} ppm or less, "
            "and the book weighs it"
        )
    words = ", ".join(ways) + "."
    return words.removeprefix("or ")[:1].upper() + words.removeprefix("or ")[1:]


def _fine(grams: Fraction) -> str:
    """To 0.1 g, down; below a gram to 0.01 g."""
    if grams < 1:
        return show_decimal(round_down(grams, HUNDREDTH_G), places=2)
    return show_decimal(round_down(grams, TENTH_G), places=1)


def ways_out_of_pick_up(case: NitriteCase, pick_up: Fraction, limit: NitriteLimit) -> str:
    """Ways to come down to the limit on the pick-up figure."""
    most = round_down(most_curing_salt_by_pick_up_g(case, pick_up, limit.limit_ppm), TENTH_G)
    brine = case.plain_brine_g + case.curing_salt_g
    needed = PER_MILLION * case.nitrite_share * case.curing_salt_g * pick_up / limit.limit_ppm
    water = round_up(case.water_g + needed - brine, TEN_G)
    return (
        f"At most {show_decimal(most, places=1)} g of this curing salt in this brine, or at least "
        f"{show_decimal(water, places=0)} g of water with the same salt and sugar."
    )


def refusal(ppm: Fraction, limit: NitriteLimit, basis: str, source: str) -> str:
    """The sentence that says which limit is passed, by how much, and whose limit it is."""
    return (
        f"{show_decimal(ppm, places=2)} ppm ingoing nitrite {basis} is above the limit of "
        f"{show_decimal(limit.limit_ppm, places=2)} ppm for {CUTS[limit.cut]}, {METHODS[limit.method]} "
        f"({source}, {limit.locator})."
    )
