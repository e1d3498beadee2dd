"""A cured piece in, what rest and soak leave of its salt out: the chain cure, rest, soak."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from generator.compute.transfer.balance import salt_balance
from generator.compute.transfer.cells import mean_of
from generator.compute.transfer.course import LONGEST_DAYS, Movement, profile_of
from generator.compute.transfer.diffuse import Boundary, Closed, Constant, Limited, Start, diffuse
from generator.compute.transfer.geometry import Way, way_of
from generator.compute.transfer.parameters import CASES, Parameters
from generator.compute.transfer.reach import Estimate, ReachInput, check_reach, movements, ordered
from generator.problems import OutOfRange

HOURS = 24.0
"In a day."
LONGEST_SOAK_H = 168.0
"Source: house choice, a week."
MOST_CHANGES = 50
"Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseState:
    """Salt in the piece in one case: levels from the middle to the open face, relative to the even level."""

    way: Way
    movement: Movement
    meat_water: float
    "g per g of green weight"
    levels: Start

    @property
    def mean(self) -> float:
        """Mean over the piece, relative to the even level."""
        return self.levels if isinstance(self.levels, float) else mean_of(self.way.shape, self.levels)


@dataclass(frozen=True, slots=True, kw_only=True)
class PieceState:
    """Salt in the piece in all three cases, to be rested or soaked."""

    low: CaseState
    central: CaseState
    high: CaseState

    @property
    def mean(self) -> Estimate:
        """Mean over the piece, relative to the even level."""
        return ordered(self.low.mean, self.central.mean, self.high.mean)

    @property
    def middle(self) -> Estimate:
        """At the middle, relative to the even level; stitches taken as evened out."""
        levels = [state.levels for state in (self.low, self.central, self.high)]
        return ordered(*(level if isinstance(level, float) else level[0] for level in levels))


def state_after_cure(given: ReachInput, parameters: Parameters, *, day: float) -> PieceState:
    """Salt in the piece when it leaves the cure on a day (0 to 120). Source: as `estimate_reach`."""
    check_reach(replace(given, days=(day,)))
    states = []
    for case in CASES:
        way = way_of(given.piece, case=case)
        balance = salt_balance(given.cure, given.pump, parameters, case=case)
        movement, _ = movements(
            parameters, case=case, temperature_c=given.temperature_c, frozen=given.frozen_before
        )
        levels = profile_of(way=way, movement=movement, balance=balance, days=day)
        states.append(CaseState(way=way, movement=movement, meat_water=balance.meat_water, levels=levels))
    return PieceState(low=states[0], central=states[1], high=states[2])


def state_when_even(given: ReachInput, parameters: Parameters) -> PieceState:
    """Salt in the piece once it is even: level 1 throughout, in every case. Source: a definition."""
    state = state_after_cure(given, parameters, day=0.0)
    cases = (replace(case, levels=1.0) for case in (state.low, state.central, state.high))
    low, central, high = cases
    return PieceState(low=low, central=central, high=high)


def rest(state: PieceState, *, days: float) -> PieceState:
    """The piece out of the cure and in the cold: nothing leaves, what it holds evens out. 0 to 120 days.

    Source: Crank 1975, ch. 4 to 6, without flux at the face.
    """
    if not 0 <= days <= LONGEST_DAYS:
        raise OutOfRange(f"a rest lasts from 0 to {LONGEST_DAYS:g} days, not {days}")
    return _each(state, lambda case: _moved(case, days, Closed()))


@dataclass(frozen=True, slots=True, kw_only=True)
class Soaked:
    """What a soak leaves."""

    state: PieceState
    left: Estimate
    "Share of the salt that was in the piece before the soak."


def soak(state: PieceState, *, hours: float, water_per_meat: float | None = None, changes: int = 0) -> Soaked:
    """Share of the salt left after a soak in fresh water, from the levels the piece has now.

    Fresh water much more than meat (None), or water_per_meat [g/g green weight], poured away and filled anew
    `changes` times at even distances. Each case is soaked with its own diffusivity and faces.
    Valid for: 0 to 168 h, water above 0, 0 to 50 changes; cold water (the temperature of the cure). OutOfRange
    outside. Errors: no published figure for a whole joint was found; D is known to a factor of two either way.
    Example (derived): 25 mm slab, even, 24 h in much water at 4 degC and 2e-10 m2/s: 0.62 left.
    Source: Crank 1975, ch. 4 to 6, desorption.
    """
    _check_soak(hours, water_per_meat, changes)
    after = _each(state, lambda case: _soaked(case, hours / HOURS, water_per_meat, changes))
    pairs = ((state.low, after.low), (state.central, after.central), (state.high, after.high))
    return Soaked(state=after, left=ordered(*(b.mean / a.mean if a.mean > 0 else 1.0 for a, b in pairs)))


def _soaked(case: CaseState, days: float, water: float | None, changes: int) -> CaseState:
    if not case.way.is_open:
        return _moved(case, days, Closed())
    bath: Boundary = Constant(0.0) if water is None else Limited(0.0, water / case.meat_water)
    for _ in range(changes + 1):
        case = _moved(case, days / (changes + 1), bath)
    return case


def _moved(case: CaseState, days: float, boundary: Boundary) -> CaseState:
    fo = case.movement.fo(case.way, days)
    trace = diffuse(shape=case.way.shape, start=case.levels, boundary=boundary, fo_end=fo)
    return replace(case, levels=trace.profile)


def _each(state: PieceState, change: Callable[[CaseState], CaseState]) -> PieceState:
    return PieceState(low=change(state.low), central=change(state.central), high=change(state.high))


def _check_soak(hours: float, water_per_meat: float | None, changes: int) -> None:
    if not 0 <= hours <= LONGEST_SOAK_H:
        raise OutOfRange(f"a soak lasts from 0 to {LONGEST_SOAK_H:g} h, not {hours}")
    if water_per_meat is not None and not 0 < water_per_meat < float("inf"):
        raise OutOfRange(f"a soak needs some water, not {water_per_meat} g per g of meat")
    if not 0 <= changes <= MOST_CHANGES:
        raise OutOfRange(f"the water is changed 0 to {MOST_CHANGES} times, not {changes}")
