"""The published curing formulas, one function each, exact on exact input.

They are the second opinion on `solve.py` and what the published examples are checked against. Shares are
fractions: a 10 % pump is 1/10, a 6.25 % curing salt is 1/16.
"""

from __future__ import annotations

from fractions import Fraction

from generator.problems import OutOfRange

PER_MILLION = Fraction(1_000_000)
"Source: parts per million, a definition."
PER_CENT = Fraction(100)
"Source: per cent, a definition."


def _share(name: str, value: Fraction) -> None:
    if not 0 <= value <= 1:
        raise OutOfRange(f"{name} must be a share from 0 to 1, not {value}")


def _positive(name: str, value: Fraction) -> None:
    if value <= 0:
        raise OutOfRange(f"{name} must be more than nothing, not {value}")


def ingoing_nitrite_comminuted_ppm(
    *, curing_salt_g: Fraction, nitrite_share: Fraction, green_weight_g: Fraction
) -> Fraction:
    """Ingoing nitrite of ground meat, and of any dry cure by weight, on the green weight.

    ppm = curing salt x nitrite share x 1,000,000 / green weight

    Parameters: curing_salt_g [g], nitrite_share [1], green_weight_g [g]. Returns ppm [mg/kg].
    Valid for: any weights above nothing. Raises OutOfRange outside.
    Example (derived): 4 oz of a 6.25 % mix on 100 lb, in ounces.

    >>> ingoing_nitrite_comminuted_ppm(
    ...     curing_salt_g=Fraction(4), nitrite_share=Fraction(1, 16), green_weight_g=Fraction(1600))
    Fraction(625, 4)

    Source: USDA FSIS Directive 7620.3 (rev. 1995), chapter 3, pp. 12-15 (second-hand).
    """
    _share("nitrite_share", nitrite_share)
    _positive("green_weight_g", green_weight_g)
    return curing_salt_g * nitrite_share * PER_MILLION / green_weight_g


def ingoing_nitrite_pumped_ppm(*, nitrite_g: Fraction, pump_share: Fraction, pickle_g: Fraction) -> Fraction:
    """Ingoing nitrite of pumped or massaged meat.

    ppm = nitrite x pump share x 1,000,000 / pickle, the pickle being the whole of it, not its water.

    Parameters: nitrite_g [g], pump_share [1], pickle_g [g]. Returns ppm [mg/kg].
    Valid for: pump shares from 0 to 1. Raises OutOfRange outside.
    Example (derived): 2 lb in 1,000 lb of pickle at 10 %.

    >>> ingoing_nitrite_pumped_ppm(
    ...     nitrite_g=Fraction(2), pump_share=Fraction(1, 10), pickle_g=Fraction(1000))
    Fraction(200, 1)

    Source: USDA FSIS Directive 7620.3 (rev. 1995), chapter 3, p. 19 (second-hand).
    """
    _share("pump_share", pump_share)
    _positive("pickle_g", pickle_g)
    return nitrite_g * pump_share * PER_MILLION / pickle_g


def ingoing_nitrite_whole_system_ppm(
    *, nitrite_g: Fraction, green_weight_g: Fraction, pickle_g: Fraction
) -> Fraction:
    """Ingoing nitrite of meat left in its cover pickle until even: meat and pickle are one system.

    ppm = nitrite x 1,000,000 / (green weight + pickle)

    Parameters: nitrite_g [g], green_weight_g [g], pickle_g [g]. Returns ppm [mg/kg].
    Valid for: any weights, not both nothing. Raises OutOfRange outside.
    Example (derived): 1 lb in 1,000 lb of pickle over 4,000 lb of meat.

    >>> ingoing_nitrite_whole_system_ppm(
    ...     nitrite_g=Fraction(1), green_weight_g=Fraction(4000), pickle_g=Fraction(1000))
    Fraction(200, 1)

    Source: USDA FSIS Directive 7620.3 (rev. 1995), chapter 3, p. 22, immersion to equilibrium (second-hand).
    """
    _positive("green_weight_g + pickle_g", green_weight_g + pickle_g)
    return nitrite_g * PER_MILLION / (green_weight_g + pickle_g)


def brine_strength_percent(*, salt_g: Fraction, brine_g: Fraction) -> Fraction:
    """Salt by weight of the whole brine [%].

    percent = 100 x salt / brine

    Parameters: salt_g [g], brine_g [g], all that is in the brine together. Raises OutOfRange for no brine.
    Example (published): 60 degrees salometer is 15.8 % (Fish Safety Notes, Canada).
    Source: the definition behind the salometer tables of Oregon State University, SG 22.
    """
    _positive("brine_g", brine_g)
    return PER_CENT * salt_g / brine_g


def salometer_degrees(*, strength_percent: Fraction, saturated_percent: Fraction) -> Fraction:
    """Brine strength in degrees salometer at 60 F: per cent of saturation.

    degrees = 100 x strength / strength of saturated brine

    Parameters: strength_percent [%], saturated_percent [%], 26.395 at 60 F. Returns degrees.
    Valid for: strengths up to saturation; a stronger one raises OutOfRange.

    >>> salometer_degrees(
    ...     strength_percent=Fraction(26395, 2000), saturated_percent=Fraction(26395, 1000))
    Fraction(50, 1)

    Source: salometer sheet of the industry; 100 degrees at 60 F is 26.395 % by weight.
    """
    if strength_percent > saturated_percent:
        raise OutOfRange(f"a brine of {strength_percent} % is beyond saturation ({saturated_percent} %)")
    return PER_CENT * strength_percent / saturated_percent


def salt_for_water_g(*, strength_percent: Fraction, water_g: Fraction) -> Fraction:
    """Salt [g] that makes water a brine of a strength: water x p / (100 - p).

    Parameters: strength_percent [%], water_g [g]. Valid for: 0 <= strength < 100. Raises OutOfRange outside.

    >>> salt_for_water_g(strength_percent=Fraction(20), water_g=Fraction(400))
    Fraction(100, 1)

    Source: the identity that every row of the US brine table holds to 0.001 lb per gallon.
    """
    if not 0 <= strength_percent < PER_CENT:
        raise OutOfRange(f"a strength of {strength_percent} % is no brine")
    return water_g * strength_percent / (PER_CENT - strength_percent)


def dry_ingredients_salt_percent(
    *, salt_g: Fraction, total_g: Fraction, dry_ingredients_g: Fraction
) -> Fraction:
    """Salt in a sausage mix on the weight without its dry ingredients [%].

    percent = 100 x salt / (total - dry ingredients)

    Parameters: salt_g, total_g, dry_ingredients_g [g] (or any one unit). Raises OutOfRange for nothing left.
    Example (published): 3.56 lb in 127.872 lb with 6.372 lb dry is 2.93 %.
    Source: 9 CFR 318.10(c)(3)(i), Method 6, worked example (2015 edition).
    """
    _positive("total_g - dry_ingredients_g", total_g - dry_ingredients_g)
    return PER_CENT * salt_g / (total_g - dry_ingredients_g)
