"""A piece of meat and what surrounds it in, the minutes until its middle is at a temperature, out.

For planning only, never a verdict: one thickness, homogeneous lean meat, a steady temperature around it. Times are
meant as a range, from `FAST` to `SLOW`; a thermometer in the middle decides.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import isinf

from generator.compute.transfer.geometry import MOST_MM, SHAPES
from generator.compute.transfer.series import theta
from generator.model.quantity import Temperature
from generator.problems import OutOfRange

CONDUCTIVITY = 0.49
"[W/m K] Source: ASHRAE Handbook, Refrigeration, thawed lean meat 0.48 to 0.50 (from memory)."
FAST_MM2_S, SLOW_MM2_S = 0.145, 0.12
"Diffusivity of heat. Source: Singh and Heldman, table (second-hand): ham 0.118, chuck 0.123, round 0.133, halibut 0.147."
MOST_MINUTES = 7 * 24 * 60.0
"A middle that takes longer is not told. Source: house choice, a week."
HALVINGS = 50
"Of the time. Source: far below a minute."
S_PER_MIN = 60.0
"Source: a definition."


def from_fahrenheit(degrees: Fraction) -> float:
    """A published temperature [degF] as an estimate takes it [degC]. Source: a definition."""
    return float(Temperature(degrees, "F").celsius)


@dataclass(frozen=True, slots=True, kw_only=True)
class Body:
    """A piece as heat sees it."""

    thickness_mm: float
    "Whole thickness; of a round or a lump its diameter."
    shape: str
    "slab, round, lump"
    length_mm: float | None = None
    "Of a round that is short; None: as long as it likes."

    def __post_init__(self) -> None:
        if self.shape not in SHAPES:
            raise OutOfRange(f"a piece is a slab, a round or a lump, not '{self.shape}'")
        if not 0 < self.thickness_mm <= MOST_MM:
            raise OutOfRange(f"thickness must be above 0 and up to {MOST_MM:g} mm, not {self.thickness_mm:g}")
        if self.length_mm is not None and not (self.length_mm > 0 and self.shape == "round"):
            raise OutOfRange("only a round has a length, and it is above 0")


@dataclass(frozen=True, slots=True, kw_only=True)
class Surround:
    """What a piece lies in."""

    outside_c: float
    h: float
    "[W/m2K]; infinite: the surface is at the outside temperature at once."
    diffusivity_mm2_s: float
    conductivity: float = CONDUCTIVITY


def unchanged_share(body: Body, around: Surround, *, minutes: float) -> float:
    """(T outside - T middle) / (T outside - T start) after so many minutes; the product rule for a short round.

    Source: Carslaw and Jaeger 1959 (from memory). Example (derived): a cylinder of 10 x 20 cm, 4 degC, in air of
    75 degC, h 20, alpha 0.13 mm2/s, k 0.48: the middle is at 54.3 degC after 3 h.
    """
    shape = SHAPES[body.shape]
    share = _share(shape, body.thickness_mm / 2, around, minutes)
    if body.length_mm is not None:
        share *= _share(1, body.length_mm / 2, around, minutes)
    return share


def _share(shape: int, half_mm: float, around: Surround, minutes: float) -> float:
    bi = around.h if isinf(around.h) else around.h * half_mm / 1000 / around.conductivity
    return theta(shape=shape, bi=bi, fo=around.diffusivity_mm2_s * minutes * S_PER_MIN / half_mm**2)


def middle_c(body: Body, around: Surround, *, start_c: float, minutes: float) -> float:
    """Temperature of the middle [degC] after so many minutes, from start_c [degC]. Source: as `unchanged_share`."""
    return around.outside_c - (around.outside_c - start_c) * unchanged_share(body, around, minutes=minutes)


def minutes_to(body: Body, around: Surround, *, start_c: float, target_c: float) -> float | None:
    """Minutes until the middle, heating or cooling, is at the target; None where that takes more than a week, or ever.

    Parameters: start_c, target_c [degC]. Valid for: thickness up to 300 mm. The middle falls or rises steadily once it
    moves, so halving the time finds it; the later end is told. Source: as `unchanged_share`.
    """
    step = around.outside_c - start_c
    if step == 0 or not 0 < (around.outside_c - target_c) / step < 1:
        return 0.0 if target_c == start_c else None
    wanted = (around.outside_c - target_c) / step
    if unchanged_share(body, around, minutes=MOST_MINUTES) > wanted:
        return None
    low, high = 0.0, MOST_MINUTES
    for _ in range(HALVINGS):
        middle = (low + high) / 2
        if unchanged_share(body, around, minutes=middle) > wanted:
            low = middle
        else:
            high = middle
    return high
