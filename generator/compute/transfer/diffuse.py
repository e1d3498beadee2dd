"""A start profile, a boundary and a length of time in, the course of a concentration in a piece of meat out.

Everything here is without units, so that one solution serves every thickness and every diffusivity:

    x  = distance from the middle / L, from 0 (middle, or a sealed face) to 1 (open face)
    Fo = D t / L^2
    dc/dFo = 1/x^(m-1) d/dx (x^(m-1) dc/dx) - Da c,  m = 1 slab, 2 cylinder, 3 sphere,  Da = k L^2 / D
    middle: no flux.  open face: one of the boundaries below.

L is the half-thickness of a slab that is wetted on both faces, its whole thickness where one face is sealed, the
radius of a cylinder or a sphere (see `geometry.py`). Concentrations are per gram of meat water, in any unit.

Method: finite volumes on a grid that is finer towards the open face, the bath as one more cell; in time the
two-stage L-stable SDIRK method of second order, whose steps grow with time. One tridiagonal matrix per step.
Errors against the exact series of Crank: below 0.001 of the surface level from Fo = 0.005 on (see the tests).

Source: J. Crank, The Mathematics of Diffusion, 2nd ed., 1975, ch. 4 to 6 and 14 (equations and boundaries).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import sqrt
from operator import mul

from generator.compute.transfer.cells import CELLS, at_middle, between, factor, grid, solve
from generator.problems import OutOfRange

FIRST_STEP = 5e-5
"First step in Fo. Source: as CELLS."
FEWEST = 50
"A short time begins with one such part of it. Source: as CELLS."
GROWTH = 1.15
"Each step is at most so many times the one before. Source: as CELLS."
STEP_SHARE = 0.08
"Longest step, as a share of the time constant of the slowest fall. Source: as CELLS."
LATE_SHARE = 0.2
"The same once only the slowest fall is left, and of a loss at any time. Source: as CELLS."
RISE, EVENED = 1.5, 6.0
"Fo x SLOWEST: until the first the front comes in, after the second the piece is even. Source: as CELLS."
SLOWEST = {1: 2.467, 2: 5.783, 3: 9.870}
"Square of the first root of the exact series: (pi/2)^2, 2.4048^2, pi^2. Source: Crank, ch. 4 to 6."
GAMMA = 1.0 - 0.5**0.5
"Of the SDIRK method of second order. Source: Hairer and Wanner, Solving ODEs II (from memory)."
SECOND = 1.0 / GAMMA - 1.0
"Weight of the first stage in the second. Source: as GAMMA."
AT_REST = 1e-4
"Change per unit of Fo, of the highest level, at which a course is over. Source: as CELLS."
SPENT = 1e-5
"Share of its highest mean at which a solute that is lost counts as gone. Source: as CELLS."
ALMOST = 1e-3
"Share of a saturated film that counts as no undissolved salt. Source: as CELLS."
MOST_TRIES = 4
"Shorter steps tried to meet the moment when the last salt dissolves. Source: as CELLS."
ENDLESS = 1e15
"Volume of a bath whose level does not move, in volumes of meat water."
MOST_FO = 1e5
"Longer than any piece and time that `geometry.py` and `reach.py` let through."


@dataclass(frozen=True, slots=True)
class Constant:
    """The open face is kept at a level: very much bath, or salt that never runs out."""

    level: float


@dataclass(frozen=True, slots=True)
class Limited:
    """A bath of a given size that gives or takes: its level moves."""

    level: float
    "At the start."
    ratio: float
    "Water of the bath / water of the meat (alpha of Crank)."


@dataclass(frozen=True, slots=True)
class Reservoir:
    """A weighed dry cure: a film of saturated brine as long as undissolved salt is left, then a small bath."""

    amount: float
    "Of salt, as the level it would give spread over the meat water alone."
    ratio: float
    "Exuded water / water of the meat."
    saturation: float
    "The highest level of the film."


@dataclass(frozen=True, slots=True)
class Closed:
    """Nothing passes: the piece rests, and what it holds evens out."""


Boundary = Constant | Limited | Reservoir | Closed
Start = float | tuple[float, ...]
"One level throughout, or one level per cell from the middle to the open face."


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """The course of the middle and of the mean, at the steps that were made, and the profile at the end."""

    fo: tuple[float, ...]
    middle: tuple[float, ...]
    middle_slope: tuple[float, ...]
    mean: tuple[float, ...]
    mean_slope: tuple[float, ...]
    face: tuple[float, ...]
    "Of the outermost cell."
    face_slope: tuple[float, ...]
    bath: float
    "Level outside the open face at the end."
    profile: tuple[float, ...]
    "One level per cell at the end."

    def middle_at(self, fo: float) -> float:
        """Level of the middle, in the unit of the start, at Fo [1]; after the last step it stays."""
        return between(self.fo, self.middle, self.middle_slope, fo)

    def mean_at(self, fo: float) -> float:
        """Mean over the volume, in the unit of the start, at Fo [1]; after the last step it stays."""
        # within the first step uptake goes with the root of time, which no cubic follows (Crank 1975, 4.20)
        if len(self.fo) > 1 and 0 < fo < self.fo[1]:
            return self.mean[0] + (self.mean[1] - self.mean[0]) * sqrt(fo / self.fo[1])
        return between(self.fo, self.mean, self.mean_slope, fo)

    def face_at(self, fo: float) -> float:
        """Level of the outermost cell, in the unit of the start, at Fo [1]; after the last step it stays."""
        return between(self.fo, self.face, self.face_slope, fo)


@lru_cache(maxsize=1024)
def diffuse(*, shape: int, start: Start, boundary: Boundary, fo_end: float, loss: float = 0.0) -> Trace:
    """The course of a concentration up to a time.

    Parameters: shape 1, 2 or 3; start level or profile; boundary; fo_end = D t / L^2 [1]; loss = k L^2 / D [1] of
    a first-order loss in the meat (not in the bath).
    Valid for: 0 <= fo_end <= 100,000, loss >= 0, a profile of CELLS levels. Raises OutOfRange outside.
    Errors: below 0.001 of the surface level in middle and mean, for Fo >= 0.005.
    Source: Crank 1975, ch. 4 (slab), 5 (cylinder), 6 (sphere), limited bath in each; 14 (first-order loss).
    """
    _check(shape, start, fo_end, loss)
    run = _Run(shape, start, boundary, loss)
    step = min(FIRST_STEP, fo_end / FEWEST)
    while run.fo < fo_end and not run.is_over:
        run.advance(min(step, fo_end - run.fo))
        step = min(step * GROWTH, _longest_step(shape, run.fo, run.rate, loss))
    return run.trace()


def _longest_step(shape: int, fo: float, rate: float, loss: float) -> float:
    """Short while the front comes in, longer once the slowest fall is left alone, then as long as the loss lets."""
    past = fo * SLOWEST[shape]
    longest = (STEP_SHARE if past < RISE else LATE_SHARE) / SLOWEST[shape]
    if past > EVENED:
        longest = max(longest, LATE_SHARE / max(loss, rate, AT_REST))
    return min(longest, LATE_SHARE / loss) if loss > 0 else longest


def _check(shape: int, start: Start, fo_end: float, loss: float) -> None:
    if shape not in SLOWEST:
        raise OutOfRange(f"a shape has 1, 2 or 3 ways for salt to come in, not {shape}")
    if not 0 <= fo_end <= MOST_FO:
        raise OutOfRange(f"Fo must be from 0 to {MOST_FO:g}, not {fo_end}")
    if not 0 <= loss < float("inf"):
        raise OutOfRange(f"a loss must be nothing or more, not {loss}")
    if isinstance(start, tuple) and len(start) != CELLS:
        raise OutOfRange(f"a start profile has {CELLS} levels, not {len(start)}")


class _Run:
    """One solution under way: the levels of all cells and of the bath, and what was noted of them."""

    def __init__(self, shape: int, start: Start, boundary: Boundary, loss: float) -> None:
        self.shape, self.loss, self.grid = shape, loss, grid(shape)
        levels = list(start) if isinstance(start, tuple) else [start] * CELLS
        boundary = _dissolved(boundary)
        level, ratio, self.left = _outside(boundary)
        self.saturation = boundary.saturation if isinstance(boundary, Reservoir) else 0.0
        self.film = boundary.ratio if isinstance(boundary, Reservoir) else 0.0
        self.conductances = list(self.grid.conductances)
        if isinstance(boundary, Closed):
            self.conductances[-1] = 0.0
        self.volumes = [*self.grid.volumes, ratio / shape]
        self.levels = [*levels, level]
        self.fo, self.is_over, self.tau = 0.0, False, 0.0
        self.factors: tuple[list[float], list[float]] = ([], [])
        self.notes: list[tuple[float, ...]] = []
        self.highest = max(abs(level) for level in self.levels)
        self.most = 0.0
        self._note((0.0, 0.0))

    def advance(self, step: float) -> None:
        """One step in Fo; a shorter one where the last undissolved salt of a dry cure goes within it."""
        levels, slopes = self._step(step)
        if self.saturation:
            taken = self._mean(levels) - self.mean
            spare = self.left - self.saturation * self.film
            for _ in range(MOST_TRIES):
                if taken <= spare * (1 + ALMOST):
                    break
                # uptake slows down, so a step cut in proportion takes a little too much: it comes nearer from above
                step *= spare / taken
                levels, slopes = self._step(step)
                taken = self._mean(levels) - self.mean
            self.left -= taken
            if self.left < self.saturation * self.film * (1 + ALMOST):
                self._film_alone(levels)
        self.fo += step
        self.levels = levels
        self._note(slopes)

    def _film_alone(self, levels: list[float]) -> None:
        """No undissolved salt is left: the film becomes a bath of its own small size."""
        levels[-1] = self.left / self.film
        self.volumes[-1] = self.film / self.shape
        self.tau = 0.0
        self.saturation = 0.0

    def _step(self, step: float) -> tuple[list[float], tuple[float, float]]:
        """Levels after a step, the slopes of middle and face there (SDIRK, both stages with one matrix)."""
        tau = GAMMA * step
        if tau != self.tau:
            self.tau = tau
            self.factors = factor(self.volumes, self.conductances, tau, self.loss)
        first = solve(self.volumes, self.levels, *self.factors)
        between = [b * SECOND - a * (SECOND - 1.0) for a, b in zip(self.levels, first, strict=True)]
        second = solve(self.volumes, between, *self.factors)
        middle_rise = at_middle(self.grid, second) - at_middle(self.grid, between)
        return second, (middle_rise / tau, (second[-2] - between[-2]) / tau)

    def _mean(self, levels: list[float]) -> float:
        return self.shape * float(sum(map(mul, self.grid.volumes, levels)))

    def _note(self, slopes: tuple[float, float]) -> None:
        levels, (middle_slope, face_slope) = self.levels, slopes
        self.mean, middle = self._mean(levels), at_middle(self.grid, levels)
        inflow = self.conductances[-1] * (levels[-1] - levels[-2])
        mean_slope = self.shape * inflow - self.loss * self.mean
        self.notes.append((self.fo, middle, middle_slope, self.mean, mean_slope, levels[-2], face_slope))
        self.most = max(self.most, abs(self.mean))
        fastest = max(abs(mean_slope), abs(middle_slope))
        self.rate = fastest / max(abs(self.mean), abs(middle), 1e-12)
        if self.fo * SLOWEST[self.shape] > 1.0 and not self.saturation:
            spent = self.loss > 0 and max(abs(self.mean), abs(middle)) < SPENT * self.most
            self.is_over = fastest <= AT_REST * self.highest or spent

    def trace(self) -> Trace:
        """What was noted, frozen."""
        fo, middle, middle_slope, mean, mean_slope, face, face_slope = zip(*self.notes, strict=True)
        return Trace(
            fo=fo,
            middle=middle,
            middle_slope=middle_slope,
            mean=mean,
            mean_slope=mean_slope,
            face=face,
            face_slope=face_slope,
            bath=self.levels[-1],
            profile=tuple(self.levels[:-1]),
        )


def _dissolved(boundary: Boundary) -> Boundary:
    """A dry cure that its film can hold is a small bath from the start."""
    if isinstance(boundary, Reservoir) and boundary.ratio > 0:
        level = boundary.amount / boundary.ratio
        if level <= boundary.saturation * (1 + ALMOST):
            return Limited(level, boundary.ratio)
    return boundary


def _outside(boundary: Boundary) -> tuple[float, float, float]:
    """Level outside the open face, size of the bath, and undissolved salt with the film's, at the start."""
    match boundary:
        case Constant(level=level):
            return level, ENDLESS, 0.0
        case Limited(level=level, ratio=ratio):
            if not ratio > 0:
                raise OutOfRange(f"a bath must have some water, not {ratio}")
            return level, ratio, 0.0
        case Reservoir(amount=amount, ratio=ratio, saturation=saturation):
            if not (ratio > 0 and saturation > 0):
                raise OutOfRange("a dry cure must have some exuded brine and a saturation")
            return saturation, ENDLESS, amount
        case Closed():
            return 0.0, ENDLESS, 0.0
