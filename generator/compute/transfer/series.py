"""A shape, its Biot number and a time in, how much of a step of temperature the middle has not made yet, out.

theta = (T outside - T middle) / (T outside - T start), by the exact series with surface resistance:
slab x tan x = Bi, cylinder x J1(x) = Bi J0(x), sphere 1 - x cot x = Bi. Fo = alpha t / l^2, Bi = h l / k, l the
half-thickness or the radius. The product rule makes a short cylinder of a cylinder and a slab.

Source: Carslaw and Jaeger, Conduction of Heat in Solids, 2nd ed., 1959 (from memory); Crank 1975, ch. 4 to 6.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise
from math import copysign, cos, exp, inf, pi, sin, sqrt

from generator.problems import OutOfRange

TERMS = 24
"Terms of a series. Source: chosen so that Fo >= 0.003 is exact to 1e-6; before that the middle has not moved."
NO_MOVE_FO = 0.003
"Below this the middle is at its start. Source: the series itself, theta > 0.9999 in every shape."
LARGE_BI = 1e9
"Stands for a surface at the outside temperature. Source: as TERMS."
MOST_STEPS = 80
"Towards a root; halving alone would need no more for every digit of a float. Source: as TERMS."
NOT_THE_ROOT_AT_0 = 1e-9
"The equation of a sphere is met by 0 too, which is no root of the series. Source: far below every first root."
LAST_DIGITS = 1e-15
"Of a root: two steps that agree so far have found it. Source: the precision of a float."


def bessel(order: int, x: float) -> float:
    """J0 or J1 [1] by Bessel's integral, whose trapezoidal sum is exact to rounding with more than x + 30 points.

    Valid for: order 0 or 1, x from 0. Source: Abramowitz and Stegun 9.1.21 (from memory).
    """
    points = int(x) + 40
    angles = ((k + 0.5) * pi / points for k in range(points))
    return sum(cos(order * angle - x * sin(angle)) for angle in angles) / points


def _root(function: Callable[[float], float], low: float, high: float) -> float:
    """The one change of sign in a bracket: each step halves it at least, and near the root doubles the digits.

    Source: Ridders' method (IEEE Transactions on Circuits and Systems 26, 1979, from memory).
    """
    at_low, at_high, found = function(low), function(high), inf
    for _ in range(MOST_STEPS):
        middle = (low + high) / 2
        at_middle = function(middle)
        if at_middle == 0:
            return middle
        sign = copysign(1.0, at_low - at_high)
        better = middle + (middle - low) * sign * at_middle / sqrt(at_middle**2 - at_low * at_high)
        if abs(better - found) <= LAST_DIGITS * better:
            return better
        found, at = better, function(better)
        ends = sorted([(low, at_low), (middle, at_middle), (better, at), (high, at_high)])
        (low, at_low), (high, at_high) = next(
            pair for pair in pairwise(ends) if (pair[0][1] > 0) != (pair[1][1] > 0)
        )
    return found


@lru_cache(maxsize=256)
def roots(shape: int, bi: float) -> tuple[float, ...]:
    """The first roots [1] of the characteristic equation of slab (1), cylinder (2) or sphere (3).

    One lies between any two neighbouring multiples of pi: what the root makes nothing changes its sign from each to
    the next, since sin is 0 there and J0 and J1, whose waves are a quarter apart, differ in sign.
    Valid for: bi = h l / k [1] above 0; raises OutOfRange otherwise. Source: as the head of this module.
    """
    if not bi > 0:
        raise OutOfRange(f"a Biot number is above 0, not {bi}")
    if shape not in (1, 2, 3):
        raise OutOfRange(f"a shape is 1, 2 or 3, not {shape}")
    bi = min(bi, LARGE_BI)
    first = NOT_THE_ROOT_AT_0 if shape == 3 else 0.0
    starts = (first, *(n * pi for n in range(1, TERMS + 1)))
    return tuple(_root(lambda x: _off_root(shape, bi, x), low, high) for low, high in pairwise(starts))


def _off_root(shape: int, bi: float, x: float) -> float:
    """Nothing at a root. The equations are multiplied out, because tan and cot have poles between the roots."""
    if shape == 1:
        return x * sin(x) - bi * cos(x)
    if shape == 2:
        return x * bessel(1, x) - bi * bessel(0, x)
    return (1 - bi) * sin(x) - x * cos(x)


@lru_cache(maxsize=256)
def weights(shape: int, bi: float) -> tuple[float, ...]:
    """The coefficient [1] of each root in the middle. Source: as the head of this module."""
    return tuple(_weight(shape, x) for x in roots(shape, bi))


def _weight(shape: int, x: float) -> float:
    if shape == 1:
        return 4 * sin(x) / (2 * x + sin(2 * x))
    if shape == 2:
        j0, j1 = bessel(0, x), bessel(1, x)
        return 2 * j1 / (x * (j0**2 + j1**2))
    return 4 * (sin(x) - x * cos(x)) / (2 * x - sin(2 * x))


def theta(*, shape: int, bi: float, fo: float) -> float:
    """The share of the step that the middle has not made: 1 at the start, 0 in the end.

    Parameters: shape 1 slab, 2 cylinder, 3 sphere; bi = h l / k; fo = alpha t / l^2. Valid for bi > 0, fo >= 0.
    Errors: below 1e-6 from Fo 0.003 on; 1 before.
    Example (published, textbook table of first terms): Bi 1, slab: first root 0.8603, coefficient 1.1191.
    """
    if not 0 <= fo < inf:
        raise OutOfRange(f"Fo is nothing or more, not {fo}")
    if fo < NO_MOVE_FO:
        return 1.0
    pairs = zip(weights(shape, bi), roots(shape, bi), strict=True)
    return sum(weight * exp(-x * x * fo) for weight, x in pairs)
