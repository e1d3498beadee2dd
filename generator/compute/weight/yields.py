"""A weight and a published share in, the weight before or after out: trimming, curing, smoking, cooking.

    edible = as bought x (100 - refuse) / 100          finished = green x yield / 100

Every function is linear: what holds for grams holds for pounds.
"""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.formulas import PER_CENT
from generator.problems import OutOfRange


def weight_to_buy_g(*, edible_g: Fraction, refuse_percent: Fraction) -> Fraction:
    """What to buy so that enough is left: edible x 100 / (100 - refuse).

    Parameters: edible_g [g]; refuse_percent, of the weight as bought, from 0 to below 100. Returns [g].
    Errors: OutOfRange for refuse outside its range.
    Example (derived): a trimmed cabbage of 908 g with 20 % refuse was bought as 1135 g.
    Source: USDA SR28 documentation, refuse: share of the food as purchased.
    """
    return edible_g * PER_CENT / _left(refuse_percent)


def finished_weight_g(*, green_g: Fraction, yield_percent: Fraction) -> Fraction:
    """What comes out of a cure, a smoke or a pot: green x yield / 100.

    Parameters: green_g [g]; yield_percent, of the weight before, above 0 (a brine can bring more than 100). Returns [g].
    Errors: OutOfRange for a yield of nothing.
    Example (published): 20 lb of fresh ham, dry-cured at 95 %, weigh 19 lb.
    Source: USDA Table of Cooking Yields, yield: cooked over raw; the same word in leaflet AWI-108.
    """
    return green_g * _some(yield_percent) / PER_CENT


def green_weight_needed_g(*, finished_g: Fraction, yield_percent: Fraction) -> Fraction:
    """What to put in so that enough comes out: finished x 100 / yield.

    Parameters: finished_g [g]; yield_percent, of the weight before, above 0. Returns [g].
    Errors: OutOfRange for a yield of nothing.
    Example (derived): 2 lb of cooked lamb shank, of which 148 g come from a pound, take 6.13 lb.
    Source: USDA Table of Cooking Yields, yield: cooked over raw, solved for the raw weight.
    """
    return finished_g * PER_CENT / _some(yield_percent)


def _left(refuse_percent: Fraction) -> Fraction:
    if not 0 <= refuse_percent < PER_CENT:
        raise OutOfRange("refuse is from 0 to below 100 % of the weight")
    return PER_CENT - refuse_percent


def _some(yield_percent: Fraction) -> Fraction:
    if yield_percent <= 0:
        raise OutOfRange("a yield is more than nothing")
    return yield_percent
