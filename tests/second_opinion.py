"""Published formulas that the product does not call: an independent second opinion on what it works out.

The closed formulas of ingoing nitrite and of a step of the scale are held against the solver over random cures
(`tests/compute/test_methods.py`), ice by itself against ice within a total (`tests/compute/test_vessel.py`), drying
against the day rules. Each has its published examples in `tests/published/`. Shares are fractions: a 10 % pump is 1/10.
"""

from __future__ import annotations

from fractions import Fraction

from generator.model.rounding import round_down, round_up
from generator.problems import OutOfRange

PER_MILLION = Fraction(1_000_000)
PER_CENT = Fraction(100)
"Source: per million and per cent, definitions."
LATENT_HEAT_J_G = Fraction(334)
"[J/g] Source: latent heat of melting of ice, standard physical constant (from memory)."
SPECIFIC_HEAT_J_GK = Fraction(4186, 1000)
"[J/(g K)] Source: specific heat of water, standard physical constant (from memory)."
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
SODIUM_NITRITE = Fraction("68.995")
POTASSIUM_NITRITE = Fraction("85.104")
SODIUM_NITRATE = Fraction("84.995")
POTASSIUM_NITRATE = Fraction("101.103")
NITRITE_ION = Fraction("46.0055")
NITRATE_ION = Fraction("62.005")
"Source: molar masses [g/mol]."


def _share(name: str, value: Fraction) -> None:
    if not 0 <= value <= 1:
        raise OutOfRange(f"{name} must be a share from 0 to 1, not {value}")


def _positive(name: str, value: Fraction) -> None:
    if value <= 0:
        raise OutOfRange(f"{name} must be more than nothing, not {value}")


def _not_negative(name: str, value: Fraction) -> None:
    if value < 0:
        raise OutOfRange(f"{name} must not be negative, not {value}")


def _weight(ppm: Fraction) -> Fraction:
    _not_negative("ppm", ppm)
    return ppm


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


def ice_for(
    *, hot_g: Fraction, hot_c: Fraction, cold_g: Fraction, cold_c: Fraction, target_c: Fraction
) -> Fraction:
    """Ice [g] that brings hot and cold water to a temperature, added to them.

    ice = (hot c (Th - t) + cold c (Tc - t)) / (L + c t); nothing where they are colder already.

    The ice counts as ice at 0 degC: from a freezer it is colder, so the water ends no warmer. Salt is left out: it
    lowers the heat of the water and takes up heat as it dissolves, both on the cold side. So is the pot.

    Parameters: weights [g], temperatures [degC]. Returns g.
    Valid for: 0 to 100 degC. Raises OutOfRange outside.
    Example (derived): 1000 g at 80 degC to 0 degC melts 80 x 4.186 / 334 x 1000 = 1002.6 g.

    Source: heat balance; 334 J/g and 4.186 J/(g K) are standard physical constants (from memory).
    """
    for name, celsius in (("hot water", hot_c), ("cold water", cold_c), ("the target", target_c)):
        if not 0 <= celsius <= 100:
            raise OutOfRange(f"{name} must be from 0 to 100 °C (32 to 212 °F), not {float(celsius):.1f} °C")
    heat = hot_g * (hot_c - target_c) + cold_g * (cold_c - target_c)
    ice = heat * SPECIFIC_HEAT_J_GK / (LATENT_HEAT_J_G + SPECIFIC_HEAT_J_GK * target_c)
    return max(ice, Fraction(0))


def dose_step_ppm(*, step_g: Fraction, nitrite_share: Fraction, basis_g: Fraction) -> Fraction:
    """What a step of the scale, put on as curing salt, moves the ingoing nitrite by.

    ppm = step x nitrite share x 1,000,000 / basis

    Parameters: step_g [g], nitrite_share [1], basis_g [g], what the figure is counted over. Returns ppm.
    Valid for: steps that are small beside the basis. Raises OutOfRange for no basis.

    >>> dose_step_ppm(step_g=Fraction(1), nitrite_share=Fraction(1, 16), basis_g=Fraction(2500))
    Fraction(25, 1)

    Source: the formula of ingoing nitrite, FSIS Directive 7620.3, chapter 3 (second-hand).
    """
    _share("nitrite_share", nitrite_share)
    _positive("basis_g", basis_g)
    return step_g * nitrite_share * PER_MILLION / basis_g


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


def edible_weight_g(*, as_bought_g: Fraction, refuse_percent: Fraction) -> Fraction:
    """What is left once stems, parings, shells or bones are off: as bought x (100 - refuse) / 100.

    Parameters: as_bought_g [g]; refuse_percent, of the weight as bought, from 0 to below 100. Returns [g].
    Errors: OutOfRange for refuse outside its range.
    Example (published): 1 lb collards with 43 % stems leaves 258.6 g.
    Source: USDA SR28 documentation, refuse: share of the food as purchased.
    """
    if not 0 <= refuse_percent < PER_CENT:
        raise OutOfRange("refuse is from 0 to below 100 % of the weight")
    return as_bought_g * (PER_CENT - refuse_percent) / PER_CENT


def nitrite_ion_ppm(*, sodium_nitrite_ppm: Fraction) -> Fraction:
    """Nitrite as the ion, as European law has counted it since 2023, from sodium nitrite.

    ion = sodium nitrite x 46.0055 / 68.995

    Parameters: sodium_nitrite_ppm [mg/kg]. Returns mg/kg as NO2-. Raises OutOfRange below nothing.
    Example (published, rounded to 0.67): a limit of 80 as the ion is 120 as sodium nitrite.
    Source: molar masses; factors 0.67, 0.73, 0.61 in summaries of (EU) 2023/2108 (second-hand).
    """
    return _weight(sodium_nitrite_ppm) * NITRITE_ION / SODIUM_NITRITE


def nitrate_ion_from_sodium_ppm(*, sodium_nitrate_ppm: Fraction) -> Fraction:
    """Nitrate as the ion from sodium nitrate: x 62.005 / 84.995.

    Parameters: sodium_nitrate_ppm [mg/kg]. Returns mg/kg as NO3-. Raises OutOfRange below nothing.
    Source: molar masses; factor 0.73 in summaries of (EU) 2023/2108 (second-hand).
    """
    return _weight(sodium_nitrate_ppm) * NITRATE_ION / SODIUM_NITRATE


def nitrate_ion_from_potassium_ppm(*, potassium_nitrate_ppm: Fraction) -> Fraction:
    """Nitrate as the ion from potassium nitrate: x 62.005 / 101.103.

    Parameters: potassium_nitrate_ppm [mg/kg]. Returns mg/kg as NO3-. Raises OutOfRange below nothing.
    Source: molar masses; factor 0.61 in summaries of (EU) 2023/2108 (second-hand).
    """
    return _weight(potassium_nitrate_ppm) * NITRATE_ION / POTASSIUM_NITRATE


def potassium_nitrite_ppm(*, sodium_nitrite_ppm: Fraction) -> Fraction:
    """Potassium nitrite that brings as much nitrite as sodium nitrite: x 85.104 / 68.995.

    Parameters: sodium_nitrite_ppm [mg/kg]. Returns mg/kg as KNO2. Raises OutOfRange below nothing.
    Example (published): 120 is 148 (9 CFR 424.22(b)(1)).
    Source: molar masses; the pairs of 9 CFR 424.22(b), which truncates 246.69 to 246.
    """
    return _weight(sodium_nitrite_ppm) * POTASSIUM_NITRITE / SODIUM_NITRITE
