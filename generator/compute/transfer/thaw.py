"""A frozen piece and what it thaws in, in; the hours until its middle is at 0 degC, out, as a range.

What thaws is lean meat from -18 degC. Thickness decides, not weight: the published rules by weight fit flat packs and
hollow birds, and can be short by half for a compact joint. The outside is warm long before the middle.
"""

from __future__ import annotations

from dataclasses import dataclass

from generator.compute.transfer.geometry import MOST_MM, SHAPES
from generator.problems import OutOfRange

DENSITY = 1050.0
"[kg/m3] Source: ASHRAE Handbook, Refrigeration, Thermal properties of foods, lean meat 1040 to 1060 (from memory)."
HEAT_THAWED, HEAT_FROZEN = 3520.0, 1950.0
"[J/kg K] Source: James and James, Meat Refrigeration, Table 13.2 (lean pork, thawed); frozen from its water by Earle."
CONDUCTIVITY_THAWED = 0.49
"[W/m K] Source: ASHRAE Handbook, Refrigeration, lean meat 0.48 to 0.50 (from memory)."
ENTHALPY = 231.08e6
"[J/m3] from -10 to 0 degC. Source: lean meat, 74 % water of which 9 % is bound (ASHRAE, from memory), worked out."
FREEZES_C, FROZEN_C = -1.0, -18.0
"[degC] Source: ASHRAE, initial freezing point of lean meat -1 to -2 (from memory); a freezer at 0 degF."
P = (0.5, 0.7754, 2.2828)
R = (0.125, 0.4271, 2.1220, -1.4847)
"Source: Cleland, Cleland, Earle and Byrne, Int. J. Refrigeration 9:220, 1986, P and R (coefficients from memory)."
COLDEST_C, WARMEST_C = 1.0, 46.0
"[degC] of what it thaws in. Source: the tests behind the formula (from memory); warmer is not thawed in anyway."
S_PER_HOUR = 3600.0
"Source: a definition."


@dataclass(frozen=True, slots=True, kw_only=True)
class Medium:
    """What a piece thaws in, from slow to fast."""

    cold_c: float
    warm_c: float
    h_low: float
    "[W/m2K]"
    h_high: float


FRIDGE = Medium(cold_c=3.0, warm_c=5.0, h_low=5.0, h_high=12.0)
"Source: 4 degC and one more or less; h of still air from 5 (in a dish) to 12 (with a fan), an engineering judgement."
COLD_WATER = Medium(cold_c=5.0, warm_c=15.0, h_low=60.0, h_high=200.0)
"Source: cold tap water; h from 60 (in a bag) to 200 (running), an engineering judgement (Incropera: liquids 50 to 1000)."


def thawing_hours(*, thickness_mm: float, shape: str, medium_c: float, h: float) -> float:
    """Hours from -18 degC until the middle is at 0 degC, by the P-R formula of Cleland and others.

    t = dH / ((Ta - Tf) E) (P D / h + R D^2 / k), E = 1 slab, 2 cylinder, 3 sphere; D the whole thickness,
    P = 0.5 (0.7754 + 2.2828 Ste Pk), R = 0.125 (0.4271 + 2.1220 Ste - 1.4847 Ste^2),
    Ste = rho c_thawed (Ta - Tf) / dH, Pk = rho c_frozen (Tf - Ti) / dH.

    Parameters: thickness_mm [mm], shape slab, round or lump, medium_c [degC], h [W/m2K]. Returns hours.
    Valid for: up to 300 mm, 1 to 46 degC, h above 0; raises OutOfRange outside.
    Errors: within 10 % of 104 measured times (95 %), for homogeneous lean meat.
    Source: Cleland, Cleland, Earle and Byrne, Int. J. Refrigeration 9:220, 1986 (coefficients from memory).
    Example (derived): a slab of 100 mm in air of 4 degC, h 8: 83.7 h.
    """
    if shape not in SHAPES:
        raise OutOfRange(f"a piece is a slab, a round or a lump, not '{shape}'")
    if not 0 < thickness_mm <= MOST_MM:
        raise OutOfRange(f"thickness must be above 0 and up to {MOST_MM:g} mm, not {thickness_mm:g}")
    if not COLDEST_C <= medium_c <= WARMEST_C:
        raise OutOfRange(f"it thaws in {COLDEST_C:g} to {WARMEST_C:g} degC, not {medium_c:g}")
    if not h > 0:
        raise OutOfRange(f"a surface coefficient is above 0, not {h:g}")
    thickness, rise = thickness_mm / 1000, medium_c - FREEZES_C
    ste = DENSITY * HEAT_THAWED * rise / ENTHALPY
    pk = DENSITY * HEAT_FROZEN * (FREEZES_C - FROZEN_C) / ENTHALPY
    p = P[0] * (P[1] + P[2] * ste * pk)
    r = R[0] * (R[1] + R[2] * ste + R[3] * ste**2)
    way = p * thickness / h + r * thickness**2 / CONDUCTIVITY_THAWED
    return ENTHALPY / (rise * SHAPES[shape]) * way / S_PER_HOUR


def thawing_range_hours(*, thickness_mm: float, shape: str | None, medium: Medium) -> tuple[float, float]:
    """Shortest and longest hours in a medium; a shape that is not told is a lump in the one and a slab in the other.

    Parameters: thickness_mm [mm]. Valid for and source: as `thawing_hours`.
    """
    fast = thawing_hours(
        thickness_mm=thickness_mm, shape=shape or "lump", medium_c=medium.warm_c, h=medium.h_high
    )
    slow = thawing_hours(
        thickness_mm=thickness_mm, shape=shape or "slab", medium_c=medium.cold_c, h=medium.h_low
    )
    return fast, slow


LB_PER_DAY = (4.0, 5.0)
"A day in the fridge for 4 to 5 lb. Source: USDA FSIS, The Big Thaw; University of Maryland Extension (5 lb)."
DAY_H = 24.0
"Source: USDA FSIS, The Big Thaw: small packs need about a day too."
WATER_H_PER_LB = 0.5
"Source: USDA FSIS, The Big Thaw: 30 minutes a pound in cold water."


def fridge_hours_by_weight(*, piece_lb: float) -> tuple[float, float]:
    """Hours in the fridge by the published rule, at least a day. Example: 10 lb, 48 to 60 h. Source: USDA FSIS, as above."""
    _refuse_no_weight(piece_lb)
    return max(DAY_H, piece_lb / LB_PER_DAY[1] * DAY_H), max(DAY_H, piece_lb / LB_PER_DAY[0] * DAY_H)


def water_hours_by_weight(*, piece_lb: float) -> float:
    """Hours in cold water by the published rule. Example: 4 lb, 2 h. Source: USDA FSIS, as above."""
    _refuse_no_weight(piece_lb)
    return piece_lb * WATER_H_PER_LB


def _refuse_no_weight(piece_lb: float) -> None:
    if not piece_lb > 0:
        raise OutOfRange(f"a piece weighs something, not {piece_lb:g} lb")
