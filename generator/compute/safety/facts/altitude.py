"""A height above the sea in, in feet and in words, and the boiling point of water there, out."""

from __future__ import annotations

import math
from fractions import Fraction

from generator.problems import OutOfRange

SEA_LEVEL_MMHG = 760.0
"Source: the standard atmosphere, a definition."
LAPSE, POWER = 2.25577e-5, 5.25588
"Source: ICAO/ISO 2533 standard atmosphere, pressure by height [m] (from memory)."
ANTOINE_A, ANTOINE_B, ANTOINE_C = 8.07131, 1730.63, 233.426
"Source: Antoine constants of water, 1 to 100 °C, mmHg and °C (from memory)."
HIGHEST_M = Fraction(4000)
"Source: house choice; the check table ends at 12,000 ft."
FEET_M = Fraction("0.3048")
"Source: metres in a foot, a definition."


def boiling_point_c(*, altitude_m: Fraction) -> Fraction:
    """Temperature at which water boils at a height, in a standard atmosphere.

    p = 760 (1 - 2.25577e-5 h)^5.25588 mmHg; T = 1730.63 / (8.07131 - log10(p)) - 233.426

    Parameters: altitude_m [m]. Returns °C, to a tenth. Valid for: 0 to 4,000 m. Errors: weather moves it by about
    0.5 °C. Raises OutOfRange outside.
    Example (published): 6,000 ft is 1,829 m, 201.1 °F or 93.9 °C.

    >>> boiling_point_c(altitude_m=Fraction(1829))
    Fraction(939, 10)

    Source: standard atmosphere and Antoine equation; checked against published boiling points.
    """
    if not 0 <= altitude_m <= HIGHEST_M:
        raise OutOfRange(f"altitude_m must be from 0 to {HIGHEST_M}, not {altitude_m}")
    mmhg = SEA_LEVEL_MMHG * (1 - LAPSE * float(altitude_m)) ** POWER
    return Fraction(str(round(ANTOINE_B / (ANTOINE_A - math.log10(mmhg)) - ANTOINE_C, 1)))


def feet(altitude_m: Fraction) -> Fraction:
    """The height [ft]."""
    return altitude_m / FEET_M


def height_shown(altitude_m: Fraction) -> str:
    """In both systems: 2,100 ft (640 m)."""
    return f"{round(feet(altitude_m)):,} ft ({round(altitude_m):,} m)"
