"""A shape in, its cells out, and the tridiagonal solution over them: the space half of `diffuse.py`.

Cells go from the middle (x = 0) to the open face (x = 1) and are finer towards the face, where a front begins.
The bath is one more cell behind the face, so that one symmetric tridiagonal matrix holds meat and bath.

Source: finite volumes, two-point flow between the middles of cells, of second order (Patankar, Numerical Heat
Transfer and Fluid Flow, 1980, from memory).
"""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from operator import mul

CELLS = 60
"Cells from the middle to the open face. Source: chosen so that the tables of Crank are met to 0.001."
CROWDING = 0.8
"How much finer than the average the grid is at the open face. Source: as CELLS."


@dataclass(frozen=True, slots=True, kw_only=True)
class Grid:
    """Cells from the middle outwards; volumes and conductances per unit area of the open face."""

    centres: tuple[float, ...]
    volumes: tuple[float, ...]
    conductances: tuple[float, ...]
    "From each cell to the next, from the last cell to the open face."


@lru_cache(maxsize=8)
def grid(shape: int) -> Grid:
    """The cells of a slab (1), cylinder (2) or sphere (3), all lengths as shares of L [1].

    Source: as the head of this module; the spacing is a house choice.
    """
    steps = [i / CELLS for i in range(CELLS + 1)]
    faces = [s + CROWDING * s * (1.0 - s) for s in steps]
    centres = [(a + b) / 2 for a, b in pairwise(faces)]
    volumes = [(b**shape - a**shape) / shape for a, b in pairwise(faces)]
    inner = [faces[i + 1] ** (shape - 1) / (centres[i + 1] - centres[i]) for i in range(CELLS - 1)]
    return Grid(
        centres=tuple(centres),
        volumes=tuple(volumes),
        conductances=(*inner, 1.0 / (1.0 - centres[-1])),
    )


def mean_of(shape: int, profile: tuple[float, ...]) -> float:
    """Mean of a profile over the volume, in the unit of its levels. Source: a definition."""
    return shape * float(sum(map(mul, grid(shape).volumes, profile)))


def factor(
    volumes: list[float], conductances: list[float], tau: float, loss: float
) -> tuple[list[float], list[float]]:
    """The symmetric tridiagonal matrix of a stage as L D L^T: the multipliers and 1 / D.

    Parameters: volumes and conductances [1] per area of the open face, the bath last; tau, part of a step in Fo [1];
    loss = k L^2 / D [1], in the meat alone. Source: Thomas algorithm (from memory).
    """
    multipliers, inverse = [], []
    before, carried = 0.0, 0.0
    keep = 1.0 + tau * loss
    for volume, conductance in zip(volumes, conductances, strict=False):
        flow = tau * conductance
        one = 1.0 / (volume * keep + before + flow - carried)
        inverse.append(one)
        share = flow * one
        multipliers.append(share)
        carried = flow * share
        before = flow
    inverse.append(1.0 / (volumes[-1] + before - carried))
    return multipliers, inverse


def solve(
    volumes: list[float], levels: list[float], multipliers: list[float], inverse: list[float]
) -> list[float]:
    """The levels that a stage leads to: forward and back through the factored matrix (Thomas)."""
    carried, forward = 0.0, []
    for volume, level, share in zip(volumes, levels, multipliers, strict=False):
        forward.append(carried := carried + volume * level)
        carried *= share
    found = (carried + volumes[-1] * levels[-1]) * inverse[-1]
    back = [found]
    for carried, one, share in zip(reversed(forward), inverse[-2::-1], reversed(multipliers), strict=True):
        found = carried * one + share * found
        back.append(found)
    back.reverse()
    return back


def at_middle(cells: Grid, levels: list[float]) -> float:
    """Level at x = 0, in its unit, from the two innermost cells: a parabola that is flat there, as no flux asks."""
    near, far = cells.centres[0] ** 2, cells.centres[1] ** 2
    return levels[0] + (levels[0] - levels[1]) * near / (far - near)


def between(
    times: tuple[float, ...], values: tuple[float, ...], slopes: tuple[float, ...], at: float
) -> float:
    """Value at a time, both in their own units: the cubic through values and slopes of the steps on both sides (Hermite)."""
    i = bisect_left(times, at)
    if i == 0:
        return values[0]
    if i == len(times):
        return values[-1]
    width = times[i] - times[i - 1]
    s = (at - times[i - 1]) / width
    rise = values[i] - values[i - 1]
    a = slopes[i - 1] * width - rise
    b = rise - slopes[i] * width
    return (1 - s) * values[i - 1] + s * values[i] + s * (1 - s) * (a * (1 - s) + b * s)
