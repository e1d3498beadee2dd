"""The published rules of time, one function each: days in the cure, days of drying, minutes of soaking.

Exact on exact input; whole days only where the rule itself rounds, in its own direction.
"""

from __future__ import annotations

from fractions import Fraction

from generator.compute.cure.formulas import PER_CENT
from generator.model.rounding import round_down, round_up
from generator.problems import OutOfRange

WHOLE_DAY = Fraction(1)
"Source: 9 CFR 318.10(c)(3)(i), worked examples: days are rounded to whole ones."
TENTH = Fraction(1, 10)
"Source: 9 CFR 318.10(c)(3)(i), Table 4: the salt is rounded down to the next 0.1 %."
TABLE_4_MOST = Fraction(33, 10)
"Source: 9 CFR 318.10(c)(3)(i), Table 4, first row [lb of salt for 100 lb]."
TABLE_4_LEAST = Fraction(2)
"Source: 9 CFR 318.10(c)(3)(i), Table 4, last row [lb of salt for 100 lb]."
TABLE_4_FIRST = Fraction(1)
"Source: 9 CFR 318.10(c)(3)(i), Table 4: 1 % of the drying time is added in its first row."
TABLE_4_STEP = Fraction(3)
"Source: 9 CFR 318.10(c)(3)(i), Table 4: 3 % more in each row, every row 0.1 lb lower than the one before."
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


def drying_time_added_percent(*, salt_percent: Fraction) -> Fraction:
    """What low salt adds to the drying time of a sausage [%]: Table 4, at the salt rounded down to the next 0.1 %.

    added = 1 + 3 x (3.3 - salt) / 0.1, which is every row of the table

    Parameters: salt_percent [%], lb of salt for 100 lb of sausage without its dry ingredients. Returns per cent.
    Valid for: 2.0 to 3.3 after rounding. Raises OutOfRange outside: the table says nothing there.
    Example (published): 2.93 % is looked up at 2.9.

    >>> drying_time_added_percent(salt_percent=Fraction("2.93"))
    Fraction(13, 1)

    Source: 9 CFR 318.10(c)(3)(i), Table 4 and its worked example (2015 edition).
    """
    looked_up = round_down(salt_percent, TENTH)
    if not TABLE_4_LEAST <= looked_up <= TABLE_4_MOST:
        raise OutOfRange(f"{looked_up} % salt is in no row of the table")
    return TABLE_4_FIRST + TABLE_4_STEP * (TABLE_4_MOST - looked_up) / TENTH


def drying_days_with_low_salt(*, drying_days: Fraction, added_percent: Fraction) -> Fraction:
    """Drying days of a sausage with little salt: the days added are rounded up to whole ones.

    days = drying days + the next whole number not below drying days x added / 100

    Parameters: drying_days [d], added_percent [%]. Returns days. Raises OutOfRange for negative ones.
    Example (published): 23 days and 40 %: 9.2 days, rounded up to 10.

    >>> drying_days_with_low_salt(drying_days=Fraction(23), added_percent=Fraction(40))
    Fraction(33, 1)

    Source: 9 CFR 318.10(c)(3)(i), worked example (2015 edition).
    """
    _not_negative("drying_days", drying_days)
    _not_negative("added_percent", added_percent)
    return drying_days + round_up(drying_days * added_percent / PER_CENT, WHOLE_DAY)


def drying_days_after_holding(*, drying_days: Fraction, reduced_percent: Fraction) -> Fraction:
    """Drying days of a sausage that was held warm first: the days taken off are rounded down to whole ones.

    days = drying days - the next whole number not above drying days x reduction / 100

    Parameters: drying_days [d], reduced_percent [%], from 0 to 100. Returns days. Raises OutOfRange outside.
    Example (published): 20 days and 18 %: 3.6 days, rounded down to 3.

    >>> drying_days_after_holding(drying_days=Fraction(20), reduced_percent=Fraction(18))
    Fraction(17, 1)

    Source: 9 CFR 318.10(c)(3)(i), worked example (2015 edition).
    """
    _not_negative("drying_days", drying_days)
    if not 0 <= reduced_percent <= PER_CENT:
        raise OutOfRange(f"reduced_percent must be from 0 to 100, not {reduced_percent}")
    return drying_days - round_down(drying_days * reduced_percent / PER_CENT, WHOLE_DAY)


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
