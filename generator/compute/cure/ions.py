"""Nitrite and nitrate by one salt in, by the ion or by the other salt out: laws count them differently."""

from __future__ import annotations

from fractions import Fraction

from generator.problems import OutOfRange

SODIUM_NITRITE = Fraction("68.995")
POTASSIUM_NITRITE = Fraction("85.104")
SODIUM_NITRATE = Fraction("84.995")
POTASSIUM_NITRATE = Fraction("101.103")
NITRITE_ION = Fraction("46.0055")
NITRATE_ION = Fraction("62.005")
"Source: molar masses [g/mol]."


def nitrite_ion_ppm(*, sodium_nitrite_ppm: Fraction) -> Fraction:
    """Nitrite as the ion, as European law has counted it since 2023, from sodium nitrite.

    ion = sodium nitrite x 46.0055 / 68.995

    Parameters: sodium_nitrite_ppm [mg/kg]. Returns mg/kg as NO2-. Raises OutOfRange below nothing.
    Example (published, rounded to 0.67): a limit of 80 as the ion is 120 as sodium nitrite.
    Source: molar masses; factors 0.67, 0.73, 0.61 in summaries of (EU) 2023/2108 (second-hand).
    """
    return _not_negative(sodium_nitrite_ppm) * NITRITE_ION / SODIUM_NITRITE


def nitrate_ion_from_sodium_ppm(*, sodium_nitrate_ppm: Fraction) -> Fraction:
    """Nitrate as the ion from sodium nitrate: x 62.005 / 84.995.

    Parameters: sodium_nitrate_ppm [mg/kg]. Returns mg/kg as NO3-. Raises OutOfRange below nothing.
    Source: molar masses; factor 0.73 in summaries of (EU) 2023/2108 (second-hand).
    """
    return _not_negative(sodium_nitrate_ppm) * NITRATE_ION / SODIUM_NITRATE


def nitrate_ion_from_potassium_ppm(*, potassium_nitrate_ppm: Fraction) -> Fraction:
    """Nitrate as the ion from potassium nitrate: x 62.005 / 101.103.

    Parameters: potassium_nitrate_ppm [mg/kg]. Returns mg/kg as NO3-. Raises OutOfRange below nothing.
    Source: molar masses; factor 0.61 in summaries of (EU) 2023/2108 (second-hand).
    """
    return _not_negative(potassium_nitrate_ppm) * NITRATE_ION / POTASSIUM_NITRATE


def potassium_nitrite_ppm(*, sodium_nitrite_ppm: Fraction) -> Fraction:
    """Potassium nitrite that brings as much nitrite as sodium nitrite: x 85.104 / 68.995.

    Parameters: sodium_nitrite_ppm [mg/kg]. Returns mg/kg as KNO2. Raises OutOfRange below nothing.
    Example (published): 120 is 148 (9 CFR 424.22(b)(1)).
    Source: molar masses; the pairs of 9 CFR 424.22(b), which truncates 246.69 to 246.
    """
    return _not_negative(sodium_nitrite_ppm) * POTASSIUM_NITRITE / SODIUM_NITRITE


def _not_negative(value: Fraction) -> Fraction:
    if value < 0:
        raise OutOfRange(f"{value} ppm is less than nothing")
    return value
