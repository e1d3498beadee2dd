"""A piece and its cure in, the course of one solute at the middle and on the mean out, for one case.

Levels are relative to the even level. What comes from outside and what the needle brought add up:

    middle(t) = outside(t) + c0 w(t) edge(t)
    mean(t)   = the same on the mean, without edge

outside: starts at 0 in the meat, the bath outside; w: starts at 1 throughout, nothing outside; c0: mean level from
the pump; edge: the least-reached spot of a stitch cell / its mean, because the least-reached spot counts. A bath
makes a linear problem, so the sum is exact but for the stitches. Under a film of saturated brine both parts are
solved together, and w (1 - edge) is taken off.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil, log2, pi

from generator.compute.transfer.balance import Balance
from generator.compute.transfer.cells import grid
from generator.compute.transfer.diffuse import (
    MOST_FO,
    Boundary,
    Closed,
    Limited,
    Reservoir,
    Trace,
    diffuse,
)
from generator.compute.transfer.geometry import Way

LONGEST_DAYS = 120.0
"The longest cure an estimate is given for. Source: house choice."
CORE = 0.5
"Radius of the brine that a needle leaves / radius of its cell. Source: judgement."
LONGEST_CELL_FO = 2.0
"After it a stitch cell is even to 1e-12. Source: first root of J1, 3.8317 (Crank, ch. 5)."


@dataclass(frozen=True, slots=True, kw_only=True)
class Movement:
    """How one solute moves in one case."""

    diffusivity: float
    "[mm2/day]"
    loss_per_day: float = 0.0
    "[1/day] in the meat"

    def fo(self, way: Way, days: float) -> float:
        """Fo = D t / L^2 [1] after so many days. Source: a definition."""
        return self.diffusivity * days / way.length_mm**2

    def loss(self, way: Way) -> float:
        """Da = k L^2 / D [1]. Source: a definition."""
        return self.loss_per_day * way.length_mm**2 / self.diffusivity


@dataclass(frozen=True, slots=True, kw_only=True)
class Course:
    """One solute in one piece in one case, ready to be asked."""

    start: float
    fo_per_day: float
    middle_fo_per_day: float
    outside: Trace
    middle_outside: Trace
    outside_times: float
    "What the traces of outside are to be multiplied with."
    is_started: bool
    "The traces of outside hold what the needle brought, too."
    inside: Trace | None
    "w; None where nothing was injected."
    middle_inside: Trace | None
    pitch_fo_per_day: float

    def middle(self, days: float) -> float:
        """Level of the least-reached spot at the middle, relative to the even level."""
        fo = self.middle_fo_per_day * days
        level = self.middle_outside.middle_at(fo) * self.outside_times
        if self.middle_inside is None:
            return level
        edge = edge_of_stitches(self.pitch_fo_per_day * days)
        # where outside holds what was injected, as if it were even, only what the edge lacks of that is taken off
        part = edge - 1.0 if self.is_started else edge
        return level + self.start * self.middle_inside.middle_at(fo) * part

    def mean(self, days: float) -> float:
        """Mean over the piece, relative to the even level."""
        fo = self.fo_per_day * days
        level = self.outside.mean_at(fo) * self.outside_times
        if self.inside is None or self.is_started:
            return level
        return level + self.start * self.inside.mean_at(fo)


def course_of(
    *,
    way: Way,
    middle_way: Way,
    movement: Movement,
    balance: Balance,
    pitch_mm: float | None,
    longest_days: float = LONGEST_DAYS,
) -> Course:
    """The course of one solute up to a time above 0; distance of the stitches in mm, longest time in days.

    `middle_way` is shorter than `way` where a line along the bone is counted.
    """
    pumped = balance.start > 0 and pitch_mm is not None
    # when the last salt of a film dissolves depends on both parts, so they do not add up and are solved together
    together = isinstance(balance.boundary, Reservoir) and way.is_open
    level = balance.boundary.level if isinstance(balance.boundary, Limited) else 1.0
    return Course(
        start=balance.start,
        fo_per_day=movement.fo(way, 1.0),
        middle_fo_per_day=movement.fo(middle_way, 1.0),
        outside=_outside(way, movement, balance, longest_days),
        middle_outside=_outside(middle_way, movement, balance, longest_days),
        outside_times=level,
        is_started=together,
        inside=_inside(way, movement, balance, longest_days) if pumped else None,
        middle_inside=_inside(middle_way, movement, balance, longest_days) if pumped else None,
        pitch_fo_per_day=movement.diffusivity * pi / pitch_mm**2 if pitch_mm else 0.0,
    )


def profile_of(*, way: Way, movement: Movement, balance: Balance, days: float) -> tuple[float, ...]:
    """Levels, relative to the even level, from the middle to the open face after so many days; stitches are evened out."""
    boundary: Boundary = balance.boundary if way.is_open else Closed()
    fo, loss = movement.fo(way, days), movement.loss(way)
    return diffuse(shape=way.shape, start=balance.start, boundary=boundary, fo_end=fo, loss=loss).profile


def _outside(way: Way, movement: Movement, balance: Balance, longest: float) -> Trace:
    """The part that comes from outside: of a bath for the level 1, of a film as it is and with the start."""
    if not way.is_open:
        return _trace(way, movement, longest, 0.0, Closed())
    if isinstance(balance.boundary, Limited):
        return _trace(way, movement, longest, 0.0, Limited(1.0, balance.ratio))
    return _trace(way, movement, longest, balance.start, balance.boundary)


def _inside(way: Way, movement: Movement, balance: Balance, longest: float) -> Trace:
    """The part that was there at the start, for the level 1. Without a loss it is what outside leaves of 1."""
    if not way.is_open:
        return _trace(way, movement, longest, 1.0, Closed())
    if movement.loss_per_day == 0:
        return _rest_of_one(_trace(way, movement, longest, 0.0, Limited(1.0, balance.ratio)))
    return _trace(way, movement, longest, 1.0, Limited(0.0, balance.ratio))


def _rest_of_one(trace: Trace) -> Trace:
    """1 - c: where meat and bath both start at 1 without a loss, nothing moves."""
    return replace(
        trace,
        middle=tuple(1.0 - level for level in trace.middle),
        middle_slope=tuple(-slope for slope in trace.middle_slope),
        mean=tuple(1.0 - level for level in trace.mean),
        mean_slope=tuple(-slope for slope in trace.mean_slope),
        face=tuple(1.0 - level for level in trace.face),
        face_slope=tuple(-slope for slope in trace.face_slope),
        bath=1.0 - trace.bath,
        profile=tuple(1.0 - level for level in trace.profile),
    )


def _trace(way: Way, movement: Movement, longest: float, start: float, boundary: Boundary) -> Trace:
    """To the longest time asked for; without a loss up to a power of two in Fo, so that solutes share solutions."""
    fo, loss = movement.fo(way, longest), movement.loss(way)
    if loss == 0:
        fo = 2.0 ** ceil(log2(fo))
    return diffuse(shape=way.shape, start=start, boundary=boundary, fo_end=min(fo, MOST_FO), loss=loss)


def edge_of_stitches(fo: float) -> float:
    """Level at the least-reached spot between stitches / mean level, without any cover brine.

    A square pitch s is taken as a cylinder of the same area, R = s / sqrt pi, the brine first in a core of R / 2,
    no flux at R.

    Parameters: fo = D t / R^2 = pi D t / s^2 [1]. Valid for: any fo from 0.
    Errors: the zone that a needle fills is an ovoid along the fibres (Uttaro et al. 2011), not a cylinder.
    Example (derived): pitch 30 mm, 2e-10 m2/s, 2 days: 0.74.
    Source: diffusion in a cylinder, Crank 1975, ch. 5; the core of half the radius is judgement.
    """
    return max(0.0, _stitch_cell().face_at(fo))


@lru_cache(maxsize=1)
def _stitch_cell() -> Trace:
    """A cell of a stitched piece, mean level 1: the core at 1 / CORE^2, nothing around it."""
    edge, levels = 0.0, []
    for volume in grid(2).volumes:
        inner, edge = edge, (edge**2 + 2 * volume) ** 0.5
        inside = max(0.0, min(edge, CORE) ** 2 - inner**2) / (edge**2 - inner**2)
        levels.append(inside / CORE**2)
    return diffuse(shape=2, start=tuple(levels), boundary=Closed(), fo_end=LONGEST_CELL_FO)
