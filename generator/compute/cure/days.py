"""The published rules of time and of salt in the piece, one function each, exact on exact input."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.formulas import PER_CENT
from generator.problems import OutOfRange

SOAK_MINUTES_PER_DAY = Fraction(2)
"Source: USDA Farmers' Bulletin 2265, desalting soak: about 2 minutes for each day in the cure."


def _not_negative(name: str, value: Fraction) -> None:
    if value < 0:
        raise OutOfRange(f"{name} must not be negative, not {value}")


def days_by_weight(*, days_per_lb: Fraction, piece_lb: Fraction, least_days: Fraction) -> Fraction:
    """Days by the weight of the heaviest piece, and never fewer than the least.

    days = max(days per pound x weight, least days)

    Parameters: days_per_lb [d/lb], piece_lb [lb], least_days [d], 0 where the rule has none. Returns days.
    Valid for: a piece that weighs something. Raises OutOfRange outside.
    Example (published): a 6 lb shoulder at 4 days a pound.

    >>> days_by_weight(days_per_lb=Fraction(4), piece_lb=Fraction(6), least_days=Fraction(0))
    Fraction(24, 1)

    Source: USDA Farmers' Bulletin 2265, sweet pickle; 9 CFR 318.10, ham, Methods 3 and 4 (2015 edition).
    """
    _not_negative("days_per_lb", days_per_lb)
    _not_negative("least_days", least_days)
    if piece_lb <= 0:
        raise OutOfRange(f"piece_lb must be more than nothing, not {piece_lb}")
    return max(days_per_lb * piece_lb, least_days)


def days_by_thickness(*, days_per_inch: Fraction, thickness_in: Fraction) -> Fraction:
    """Days by the thickness of the thickest piece.

    days = days per inch x thickness

    Parameters: days_per_inch [d/in], thickness_in [in], the whole thickness. Returns days.
    Valid for: a piece that is thicker than nothing. Raises OutOfRange outside.
    Example (derived): a belly 2 in thick at 7 days an inch.

    >>> days_by_thickness(days_per_inch=Fraction(7), thickness_in=Fraction(2))
    Fraction(14, 1)

    Source: USDA Farmers' Bulletin 2265, bellies; Virginia Cooperative Extension 458-223, hams (from memory).
    """
    _not_negative("days_per_inch", days_per_inch)
    if thickness_in <= 0:
        raise OutOfRange(f"thickness_in must be more than nothing, not {thickness_in}")
    return days_per_inch * thickness_in


def percent_brine(*, salt_g: Fraction, water_g: Fraction) -> Fraction:
    """Salt on the salt and water of the meat [%]: `percent brine` of hams, water-phase salt of fish.

    percent = 100 x salt / (salt + water)

    Parameters: salt_g, water_g [g], both of the same piece. Returns per cent.
    Valid for: weights that are not negative and not both nothing. Raises OutOfRange outside.
    Example (derived): 2.5 % salt and 70 % water.

    >>> percent_brine(salt_g=Fraction("2.5"), water_g=Fraction(70))
    Fraction(100, 29)

    Source: 9 CFR 318.10, ham, Methods 5 and 6 (2015 edition), where it is at least 6.
    """
    _not_negative("salt_g", salt_g)
    _not_negative("water_g", water_g)
    if salt_g + water_g == 0:
        raise OutOfRange("there is neither salt nor water")
    return PER_CENT * salt_g / (salt_g + water_g)


def soak_minutes(*, days_in_cure: Fraction) -> Fraction:
    """The published soak after a cure [min]: about 2 minutes for each day in it.

    minutes = 2 x days in the cure

    Parameters: days_in_cure [d]. Returns minutes. Raises OutOfRange for a negative time.

    >>> soak_minutes(days_in_cure=Fraction(14))
    Fraction(28, 1)

    Source: USDA Farmers' Bulletin 2265, desalting soak, in water of at most 70 F.
    """
    _not_negative("days_in_cure", days_in_cure)
    return SOAK_MINUTES_PER_DAY * days_in_cure
