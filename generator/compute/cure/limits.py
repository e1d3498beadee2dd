"""A solved cure in, refusals out: above a limit no weights are given, but ways out that are worked out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.case import NitriteCase
from generator.model.published import NitriteLimit
from generator.model.rounding import round_down, round_up
from generator.model.shown import show_decimal

PER_MILLION = Fraction(1_000_000)
"Source: parts per million, a definition."
TENTH_G = Fraction(1, 10)
"Source: house choice, the finest step of a kitchen scale that the book asks for."
TEN_G = Fraction(10)
"Source: house choice, the step in which meat and water are named in a way out."


def most_curing_salt_g(case: NitriteCase, limit_ppm: Fraction) -> Fraction:
    """The most curing salt [g] at a limit: L rest / (1,000,000 n - L), without the L below the line when dry."""
    own = limit_ppm if case.is_brine else Fraction(0)
    below = PER_MILLION * case.nitrite_share - own
    return limit_ppm * case.rest_g / below


def spread_needed_g(case: NitriteCase, limit_ppm: Fraction) -> Fraction:
    """How much more [g] the same curing salt must be spread over to come down to a limit (negative: room left)."""
    own = case.curing_salt_g if case.is_brine else Fraction(0)
    return case.nitrite_share * case.curing_salt_g * PER_MILLION / limit_ppm - case.rest_g - own


def ways_out(case: NitriteCase, limit: NitriteLimit) -> str:
    """Three worked ways to come down to the limit, each by itself: less curing salt, more meat, more water."""
    most = round_down(most_curing_salt_g(case, limit.limit_ppm), TENTH_G)
    more = spread_needed_g(case, limit.limit_ppm)
    meat = round_up(case.meat_g + more, TEN_G)
    ways = [
        f"At most {show_decimal(most, places=1)} g of this curing salt for this meat",
        f"or at least {show_decimal(meat, places=0)} g of meat for this curing salt",
    ]
    if case.is_brine:
        water = round_up(case.water_g + more, TEN_G)
        ways.append(f"or at least {show_decimal(water, places=0)} g of water with the same salt and sugar")
    else:
        ways.append(
            f"or write a target, curing salt: {show_decimal(limit.limit_ppm, places=2)} ppm or less, "
            "and the book weighs it"
        )
    return ", ".join(ways) + "."


def refusal(ppm: Fraction, limit: NitriteLimit, source: str) -> str:
    """The sentence that says which limit is passed, by how much, and whose limit it is."""
    basis = "meat and brine together" if limit.method == "brine" else "the green weight"
    return (
        f"{show_decimal(ppm, places=2)} ppm ingoing nitrite on {basis} is above the limit of "
        f"{show_decimal(limit.limit_ppm, places=2)} ppm for {CUTS[limit.cut]}, {METHODS[limit.method]} "
        f"({source}, {limit.locator})."
    )


CUTS = {"whole": "whole cuts", "ground": "ground meat", "belly": "belly"}
METHODS = {"brine": "in a brine", "dry": "in a dry cure"}
