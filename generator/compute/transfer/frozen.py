"""A frozen piece in hot liquid in, the minutes until its middle is at a temperature, out.

The enthalpy method: cells from the middle to the face, heat flows by conduction, ice melts little by little up to -1 degC.
Explicit in time, with steps short enough for the frozen meat, whose heat moves fastest.

Source: finite volumes (Patankar 1980, from memory); properties as in `thaw.py`; frozen conductivity 1.4 to 1.6 W/m K
(ASHRAE, from memory).
"""

from __future__ import annotations

from functools import lru_cache
from math import sqrt

from generator.compute.transfer.geometry import SHAPES
from generator.compute.transfer.heat import MOST_MINUTES, Body, Surround
from generator.compute.transfer.thaw import DENSITY, ENTHALPY, FREEZES_C, FROZEN_C, HEAT_FROZEN, HEAT_THAWED
from generator.problems import OutOfRange

CONDUCTIVITY_FROZEN = 1.55
"[W/m K] Source: ASHRAE Handbook, Refrigeration, frozen lean meat 1.4 to 1.6 (from memory)."
CELLS = 16
"Source: chosen so that twice as many move the time by less than 2 %."
STABLE = 0.4
"Of the longest step that is stable. Source: explicit steps are stable up to half of dx^2 / alpha."
FROZEN_CAPACITY, THAWED_CAPACITY = DENSITY * HEAT_FROZEN, DENSITY * HEAT_THAWED
"[J/m3K] Source: the properties named in `thaw.py`."
LATENT = (ENTHALPY - FROZEN_CAPACITY * (FREEZES_C + 10.0) - THAWED_CAPACITY * (0.0 - FREEZES_C)) / (
    1 - FREEZES_C / -10.0
)
"[J/m3] Of all the water that can freeze. Source: what is left of the enthalpy from -10 to 0 degC, by `_ice`."


def _ice(celsius: float) -> float:
    """Share of the water that is ice, 1 - Tf / T. Source: Raoult's law for a dilute solution (ASHRAE, from memory)."""
    return 1 - FREEZES_C / celsius if celsius < FREEZES_C else 0.0


def _celsius(enthalpy: float) -> float:
    """Temperature of a cell, whose enthalpy [J/m3] is nothing where the last ice melts."""
    if enthalpy >= 0:
        return FREEZES_C + enthalpy / THAWED_CAPACITY
    middle = FROZEN_CAPACITY * FREEZES_C + LATENT + enthalpy
    return (middle - sqrt(middle**2 - 4 * FROZEN_CAPACITY * LATENT * FREEZES_C)) / (2 * FROZEN_CAPACITY)


@lru_cache(maxsize=256)
def minutes_from_frozen(body: Body, around: Surround, *, target_c: float) -> float | None:
    """Minutes from -18 degC until the middle is at the target [degC]; None where that takes more than a week.

    Valid for: outside above the target, target above 0 degC, h not infinite; a short round counts as a long one.
    Errors: against the published thawing formula 1 to 6 % in a fridge (see the tests). Source: see the head.
    """
    if not (target_c >= 0 and around.outside_c > target_c and 0 < around.h < 1e6):
        raise OutOfRange(
            "from frozen, a piece is heated above 0 degC, in something hotter, by a finite coefficient"
        )
    run = _Melting(body, around)
    while run.minutes <= MOST_MINUTES:
        if run.middle_c >= target_c:
            return run.minutes
        run.step()
    return None


class _Melting:
    """The cells under way."""

    def __init__(self, body: Body, around: Surround) -> None:
        shape, half_m = SHAPES[body.shape], body.thickness_mm / 2000
        self.width = half_m / CELLS
        self.outside, self.h = around.outside_c, around.h
        self.thawed = around.diffusivity_mm2_s * 1e-6 * THAWED_CAPACITY
        self.areas = [(i * self.width) ** (shape - 1) for i in range(CELLS + 1)]
        ends = [(i * self.width) ** shape / shape for i in range(CELLS + 1)]
        self.volumes = [ends[i + 1] - ends[i] for i in range(CELLS)]
        self.enthalpies = [FROZEN_CAPACITY * (FROZEN_C - FREEZES_C) - LATENT * _ice(FROZEN_C)] * CELLS
        fastest = CONDUCTIVITY_FROZEN / FROZEN_CAPACITY
        self.seconds_a_step = STABLE * self.width**2 / fastest / shape
        self.seconds = 0.0

    @property
    def minutes(self) -> float:
        """Minutes since it went in."""
        return self.seconds / 60

    @property
    def middle_c(self) -> float:
        """Temperature [degC] of the innermost cell."""
        return _celsius(self.enthalpies[0])

    def step(self) -> None:
        """Heat flows once between all neighbours, and in through the face: W/m2 per area there, for one step [s]."""
        heat = [_celsius(one) for one in self.enthalpies]
        more = CONDUCTIVITY_FROZEN - self.thawed
        ways = [self.width / (self.thawed + more * _ice(one)) / 2 for one in heat]
        flow = 0.0
        for i in range(CELLS):
            if i + 1 < CELLS:
                out = self.areas[i + 1] * (heat[i + 1] - heat[i]) / (ways[i] + ways[i + 1])
            else:
                out = self.areas[CELLS] * (self.outside - heat[i]) / (ways[i] + 1 / self.h)
            self.enthalpies[i] += (out - flow) / self.volumes[i] * self.seconds_a_step
            flow = out
        self.seconds += self.seconds_a_step
