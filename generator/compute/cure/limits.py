"""A cure's forms and a limit in, the most and the least of each thing at that limit out, and sentences that say so.

Above a limit no weights are given, but ways out that are worked out. All of it follows batches, meat and water.
"""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.case import NitriteForms
from generator.compute.cure.formulas import PER_MILLION
from generator.model.contract import Decimal, Either, Text, Value, constant, down, total, up
from generator.model.form import NOTHING, WATER, Figure, Form
from generator.model.published import NitriteLimit
from generator.model.results import CureForms
from generator.model.shown import show_decimal

TENTH_G = Fraction(1, 10)
"Source: house choice, the finest step of a kitchen scale that the book asks for."
HUNDREDTH_G = Fraction(1, 100)
"Source: house choice, the step below a gram."
TEN_G = Fraction(10)
"Source: house choice, the step in which meat and water are named in a way out."

CUTS = {"whole": "whole cuts", "ground": "ground meat", "belly": "belly"}
METHODS = {"brine": "in a brine", "dry": "in a dry cure"}


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


def least_meat(case: NitriteForms, limit_ppm: Fraction) -> Value | None:
    """The least green weight [g] that the same curing salt fits, all else as it is; None where no meat helps."""
    share, nitrite = (case.needle.share, case.needle.nitrite) if case.needle else (Fraction(0),) * 2
    by_meat = limit_ppm * (case.lean_share + share) - PER_MILLION * share * nitrite
    if by_meat <= 0:
        return None
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


def ways_out(case: NitriteForms, limit: NitriteLimit) -> Text:
    """Three worked ways to come down to the limit, each by itself: less curing salt, more meat, more water."""
    most = most_curing_salt(case, limit.limit_ppm)
    others = _other_ways(case, limit)
    first, *rest = others[0]
    assert isinstance(first, str)
    alone: Text = (first[:1].upper() + first[1:], *rest, *_joined(others[1:]), ".")
    with_salt: Text = (
        "At most ",
        *_fine(most),
        " g of this curing salt for this meat",
        *_joined(others),
        ".",
    )
    return (Either(value=most, above=NOTHING, then=with_salt, otherwise=alone),)


def _other_ways(case: NitriteForms, limit: NitriteLimit) -> list[Text]:
    ways: list[Text] = []
    if case.needle is not None:
        ways.append(("pump less, or mix the pump brine with less curing salt",))
    meat = least_meat(case, limit.limit_ppm) if case.needle is None else None
    if meat is not None:
        ways.append(("at least ", up(meat, TEN_G, 0), " g of meat for this curing salt"))
    if case.is_brine:
        water = up(least_water(case, limit.limit_ppm), TEN_G, 0)
        ways.append(("at least ", water, " g of water with the same salt and sugar"))
    else:
        ways.append(
            (
                f"write a target, curing salt: {show_decimal(limit.limit_ppm, places=2)} ppm or less, "
                "and the book weighs it",
            )
        )
    return ways


def _joined(ways: list[Text]) -> Text:
    return tuple(part for way in ways for part in (", or ", *way))


def _fine(grams: Value) -> Text:
    """To 0.1 g, down; below a gram to 0.01 g."""
    return (
        Either(
            value=constant(1),
            above=grams,
            then=(down(grams, HUNDREDTH_G, 2),),
            otherwise=(down(grams, TENTH_G, 1),),
        ),
    )


def ways_out_of_pick_up(case: NitriteForms, pick_up: Fraction, limit: NitriteLimit) -> Text:
    """Ways to come down to the limit on the pick-up figure."""
    most = most_curing_salt_by_pick_up(case, pick_up, limit.limit_ppm)
    needed = PER_MILLION * case.nitrite_share * pick_up / limit.limit_ppm
    water = total((1, WATER), (needed, case.curing_salt), (-1, case.plain_brine), (-1, case.curing_salt))
    return (
        "At most ",
        down(most, TENTH_G, 1),
        " g of this curing salt in this brine, or at least ",
        up(water, TEN_G, 0),
        " g of water with the same salt and sugar.",
    )


def refusal(ppm: Figure | Form, limit: NitriteLimit, basis: str, source: str) -> Text:
    """The sentence that says which limit is passed, by how much, and whose limit it is."""
    return (
        Decimal(value=ppm, places=2),
        f" ppm ingoing nitrite {basis} is above the limit of "
        f"{show_decimal(limit.limit_ppm, places=2)} ppm for {CUTS[limit.cut]}, {METHODS[limit.method]} "
        f"({source}, {limit.locator}).",
    )
