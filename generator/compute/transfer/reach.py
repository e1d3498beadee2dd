"""A piece, its cure and days in, how far salt and nitrite have probably reached out: three numbers and one word.

    "With these inputs the estimated salt level at the middle is about X % (likely range A to B %) of the even level."

Low, central and high each take one whole set of parameters (see `parameters.py` and `geometry.py`); the range is
wide because published diffusivities are. What is shown from here is an estimate for planning. A published rule
in days that asks for longer prevails.

Words: `probably not yet reached` where even the high case is below 50 %, `probably even` where even the low case
is above 75 %, else `uncertain`. A middle that a strong pump may have left at 4/3 of the even level or more is not even
either: `uncertain`. For nitrite the word is never more than `uncertain` beyond 25 mm from an open face or a line
of injected brine.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from math import ceil

from generator.compute.transfer.balance import (
    Balance,
    CoverBrine,
    DryCure,
    Pump,
    nitrite_balance,
    salt_balance,
)
from generator.compute.transfer.caveats import caveats_for
from generator.compute.transfer.course import LONGEST_DAYS, Course, Movement, course_of
from generator.compute.transfer.geometry import Piece, Way, farthest_mm, halved, way_of
from generator.compute.transfer.parameters import (
    CASES,
    Parameters,
    diffusivity_mm2_day,
    nitrite_loss_per_day,
)
from generator.problems import OutOfRange

NOT_REACHED = "probably not yet reached"
UNCERTAIN = "uncertain"
EVEN = "probably even"
REACHED_FROM = 0.5
"Of the even level. Source: judgement."
EVEN_FROM = 0.75
"Of the even level. Source: judgement."
COLDEST_C, WARMEST_C = -1.0, 15.0
"[degC] Source: meat freezes below; above it is no cold cure."
FRIDGE_C = 5.0
"[degC] Where no temperature is told. Source: house choice; the diffusivities of transfer.csv hold at 5 degC."
FIGURE_DAYS = 28
"A figure goes on at least so long. Source: house choice."


@dataclass(frozen=True, slots=True, kw_only=True)
class Estimate:
    """Three values of one quantity; low is the least of them."""

    low: float
    central: float
    high: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ReachInput:
    """All that decides how far a cure reaches. None in a fact: it was not told."""

    piece: Piece
    cure: CoverBrine | DryCure
    days: tuple[float, ...]
    "Since the piece went into the cure; 0 to 120."
    temperature_c: float = FRIDGE_C
    pump: Pump | None = None
    frozen_before: bool | None = False


@dataclass(frozen=True, slots=True, kw_only=True)
class DayReach:
    """What is estimated for one day, as shares of the even level."""

    day: float
    salt: Estimate
    "At the middle; where brine was injected, at the least-reached spot."
    salt_mean: Estimate
    "Over the whole piece."
    salt_word: str
    nitrite: Estimate | None
    "As salt; the even level without any loss. None where a weight was not told."
    nitrite_mean: Estimate | None
    nitrite_word: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Point:
    """One day of a figure: salt at the middle."""

    day: int
    salt: Estimate


@dataclass(frozen=True, slots=True, kw_only=True)
class Reach:
    """The estimate."""

    days: tuple[DayReach, ...]
    day_even_low: int | None
    "First whole day on which the high case is above 75 %: not before this day. None: not within 120 days."
    day_even_high: int | None
    "First whole day on which the low case is above 75 %, too. None: not within 120 days."
    series: tuple[Point, ...]
    "Whole days, as cured."
    series_without_pump: tuple[Point, ...] | None
    "The same piece in the same cure without the pump; None where there is none."
    even_salt_percent: Estimate
    "Salt in the meat at the even level, per cent of the meat without what cooking or smoking takes."
    farthest_mm: float
    "From any lean to an open face or a line of brine, by the low case; may be endless."
    caveats: tuple[str, ...]


@lru_cache(maxsize=256)
def estimate_reach(given: ReachInput, parameters: Parameters) -> Reach:
    """How far salt and nitrite have probably reached (see the head of this module).

    Valid for: thickness above 0 to 300 mm, -1 to 15 degC, 0 to 120 days, brines up to saturation, pumps up to half
    the green weight. Raises OutOfRange outside, and where a fact it needs is missing.
    Errors: D is known to a factor of two either way; constant D is a first approximation. Source: Crank 1975, ch. 4 to 6.
    """
    check_reach(given)
    salt = _Three.of_salt(given, parameters)
    nitrite = _Three.of_nitrite(given, parameters)
    farthest = _farthest(given, parameters)
    limit = parameters.nitrite_way.central
    course = _series(salt, int(LONGEST_DAYS))
    even_high = _first_day([point.salt.low for point in course])
    # the slowest case decides how far a figure goes: it is to show the middle arrive, if it does within 120 days
    last = max(FIGURE_DAYS, *(ceil(day) for day in given.days), even_high or 0)
    return Reach(
        days=tuple(_day(day, salt, nitrite, is_near=farthest <= limit) for day in given.days),
        day_even_low=_first_day([point.salt.high for point in course]),
        day_even_high=even_high,
        series=course[: last + 1],
        series_without_pump=_without_pump(given, parameters, last),
        even_salt_percent=_even_salt_percent(given, parameters),
        farthest_mm=farthest,
        caveats=caveats_for(given.piece, given.cure, given.pump, given.frozen_before),
    )


def nitrite_means(given: ReachInput, parameters: Parameters) -> tuple[Estimate, ...] | None:
    """Nitrite over the whole piece on each day, as `estimate_reach` has it, without the courses of salt.

    None where a weight was not told. Valid for, and raises, as `estimate_reach`.
    """
    check_reach(given)
    nitrite = _Three.of_nitrite(given, parameters)
    return None if nitrite is None else tuple(nitrite.mean(day) for day in given.days)


def movements(
    parameters: Parameters, *, case: str, temperature_c: float, frozen: bool | None
) -> tuple[Movement, Movement]:
    """How salt and nitrite move in one case, by D [mm2/day] and loss [1/day]; temperature_c [degC]. Source: the table."""
    salt, nitrite = (
        diffusivity_mm2_day(solute, parameters, case=case, temperature_c=temperature_c, frozen=frozen)
        for solute in (parameters.salt_diffusivity, parameters.nitrite_diffusivity)
    )
    loss = nitrite_loss_per_day(parameters, case=case, temperature_c=temperature_c)
    return Movement(diffusivity=salt), Movement(diffusivity=nitrite, loss_per_day=loss)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Three:
    """The courses of one solute in the three cases."""

    low: Course
    central: Course
    high: Course

    @classmethod
    def of_salt(cls, given: ReachInput, parameters: Parameters) -> _Three:
        """Salt."""
        low, central, high = (
            _course(given, parameters, case, salt_balance(given.cure, given.pump, parameters, case=case), 0)
            for case in CASES
        )
        return cls(low=low, central=central, high=high)

    @classmethod
    def of_nitrite(cls, given: ReachInput, parameters: Parameters) -> _Three | None:
        """Nitrite; None where its balance cannot be told."""
        courses = []
        for case in CASES:
            balance = nitrite_balance(given.cure, given.pump, parameters, case=case)
            if balance is None:
                return None
            courses.append(_course(given, parameters, case, balance, 1))
        return cls(low=courses[0], central=courses[1], high=courses[2])

    def middle(self, day: float) -> Estimate:
        """At the middle on a day, relative to the even level."""
        return ordered(self.low.middle(day), self.central.middle(day), self.high.middle(day))

    def mean(self, day: float) -> Estimate:
        """Over the piece on a day, relative to the even level."""
        return ordered(self.low.mean(day), self.central.mean(day), self.high.mean(day))


def ordered(*values: float) -> Estimate:
    """Three values as an estimate; where cases cross each other the least is low all the same."""
    low, central, high = sorted(max(0.0, value) for value in values)
    return Estimate(low=low, central=central, high=high)


def _course(given: ReachInput, parameters: Parameters, case: str, balance: Balance, solute: int) -> Course:
    way = way_of(given.piece, case=case)
    movement = movements(
        parameters, case=case, temperature_c=given.temperature_c, frozen=given.frozen_before
    )[solute]
    asked = LONGEST_DAYS if movement.loss_per_day == 0 else max(FIGURE_DAYS, *given.days)
    return course_of(
        way=way,
        middle_way=_middle_way(way, given.pump, parameters, case),
        movement=movement,
        balance=balance,
        pitch_mm=_pitch(given.pump, parameters, case),
        longest_days=asked,
    )


def _middle_way(way: Way, pump: Pump | None, parameters: Parameters, case: str) -> Way:
    if pump is None or not pump.along_bone:
        return way
    return halved(way, parameters.along_bone_way.of(case))


def _pitch(pump: Pump | None, parameters: Parameters, case: str) -> float | None:
    if pump is None:
        return None
    return parameters.needle_pitch.of(case) if pump.pitch_mm is None else pump.pitch_mm


def _farthest(given: ReachInput, parameters: Parameters) -> float:
    along = given.pump is not None and given.pump.along_bone
    return farthest_mm(given.piece, along_bone=along, pitch_mm=_pitch(given.pump, parameters, "low"))


def word_for(estimate: Estimate) -> str:
    """One of the three words for shares of the even level [1]. Source: judgement, see the head of this module."""
    if estimate.high < REACHED_FROM:
        return NOT_REACHED
    if estimate.low > EVEN_FROM and estimate.high < 1 / EVEN_FROM:
        return EVEN
    return UNCERTAIN


def nitrite_word_for(estimate: Estimate | None, *, is_near: bool) -> str:
    """The word for nitrite: never more than `uncertain` far from open faces, and where it cannot be told."""
    if estimate is None:
        return UNCERTAIN
    word = word_for(estimate)
    return UNCERTAIN if word == EVEN and not is_near else word


def _day(day: float, salt: _Three, nitrite: _Three | None, *, is_near: bool) -> DayReach:
    middle = salt.middle(day)
    nitrite_middle = nitrite.middle(day) if nitrite else None
    return DayReach(
        day=day,
        salt=middle,
        salt_mean=salt.mean(day),
        salt_word=word_for(middle),
        nitrite=nitrite_middle,
        nitrite_mean=nitrite.mean(day) if nitrite else None,
        nitrite_word=nitrite_word_for(nitrite_middle, is_near=is_near),
    )


def _first_day(levels: list[float]) -> int | None:
    return next((day for day, level in enumerate(levels) if level > EVEN_FROM), None)


def _series(salt: _Three, last: int) -> tuple[Point, ...]:
    return tuple(Point(day=day, salt=salt.middle(day)) for day in range(last + 1))


def _without_pump(given: ReachInput, parameters: Parameters, last: int) -> tuple[Point, ...] | None:
    if given.pump is None:
        return None
    return _series(_Three.of_salt(replace(given, pump=None), parameters), last)


def _even_salt_percent(given: ReachInput, parameters: Parameters) -> Estimate:
    """100 w c / (1 + w c), c even level [g/g water], w water of the meat [g/g]."""
    balances = [salt_balance(given.cure, given.pump, parameters, case=case) for case in CASES]
    salts = [balance.even_level * balance.meat_water for balance in balances]
    return ordered(*(100 * salt / (1 + salt) for salt in salts))


def check_reach(given: ReachInput) -> None:
    """Raises OutOfRange where no estimate is given."""
    if not COLDEST_C <= given.temperature_c <= WARMEST_C:
        raise OutOfRange(
            f"temperature must be from {COLDEST_C:g} to {WARMEST_C:g} C, not {given.temperature_c:g}"
        )
    if not given.days:
        raise OutOfRange("no day was asked for")
    for day in given.days:
        if not 0 <= day <= LONGEST_DAYS:
            raise OutOfRange(f"a cure lasts from 0 to {LONGEST_DAYS:g} days, not {day:g}")
