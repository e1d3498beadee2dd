"""Targets and amounts of a cure in, its weights as linear forms of batches, meat and water out.

The unknowns are total salt S (with the salt of the curing salt), sugar U, curing salt c, nitrate N and accelerator E.
Each line of the cure gives one linear equation between them; they are solved together and exactly. With targets for
salt, sugar and curing salt alone this gives

    brine left until even   c = k (1+s+u)(m+w) / (n - k (1-h))
    short cure, pick-up q   c = k (w + (s+u)(m+w)) / (n q - k (1-h))
    dry cure                c = k m / n

and in each the salt to weigh is S - h c.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from generator.compute.cure.formulas import PER_CENT, PER_MILLION
from generator.model.form import MEAT, NOTHING, WATER, Figure, Form
from generator.model.published import CuringSalt
from generator.model.recipe import Target, TargetKind
from generator.model.results import CureForms

SALT, SUGAR, CURING_SALT, NITRATE, ACCELERATOR = range(5)
"The unknowns, in the order of the columns."
UNKNOWNS = 5


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One line of a cure: a target, or a form for the weight put in, or neither (none of it)."""

    target: Target | None = None
    weight: Form = NOTHING


@dataclass(frozen=True, slots=True, kw_only=True)
class Needle:
    """A separately mixed brine that is injected: its share of the green weight and the nitrite it carries."""

    share: Fraction
    "Of the green weight."
    nitrite: Fraction
    "Sodium nitrite per gram of pump brine."
    nitrate: Fraction = Fraction(0)
    salt: Fraction = Fraction(0)
    "Salt per gram of pump brine."


@dataclass(frozen=True, slots=True, kw_only=True)
class CureProblem:
    """All that decides the weights of a cure, but for batches, meat and water."""

    is_brine: bool
    salt: Part = Part()
    sugar: Part = Part()
    curing_salt: Part = Part()
    nitrate: Part = Part()
    accelerator: Part = Part()
    kind: CuringSalt
    nitrate_share: Fraction = Fraction(1)
    "Nitrate salt in what `nitrate` weighs."
    lean_share: Fraction = Fraction(1)
    "Share of the green weight that a limit counts: the skin of a belly left out."
    pick_up: Fraction | None = None
    "Of a short cure: share of the weight gained, by which its target and its figure are told."
    needle: Needle | None = None
    saturated_percent: Fraction


@dataclass(frozen=True, slots=True)
class _Sum:
    """columns . unknowns + known, as one side of an equation."""

    columns: tuple[Fraction, ...]
    known: Form = NOTHING

    def times(self, factor: Fraction) -> _Sum:
        return _Sum(tuple(column * factor for column in self.columns), self.known.times(factor))

    def plus(self, other: _Sum) -> _Sum:
        columns = tuple(a + b for a, b in zip(self.columns, other.columns, strict=True))
        return _Sum(columns, self.known.plus(other.known))

    def minus(self, other: _Sum) -> _Sum:
        return self.plus(other.times(Fraction(-1)))


def _unknown(index: int, factor: Fraction | int = 1) -> _Sum:
    return _Sum(tuple(Fraction(factor if column == index else 0) for column in range(UNKNOWNS)))


def _known(form: Form) -> _Sum:
    return _Sum((Fraction(0),) * UNKNOWNS, form)


class NoSolution(ValueError):
    """The targets contradict each other: no weights reach them all."""


@lru_cache(maxsize=256)
def solve_cure(problem: CureProblem) -> CureForms:
    """The weights of a cure [g] as forms, and its figures [ppm, %] as ratios of them, all exact.

    Raises NoSolution where the targets contradict each other.
    Source: the definitions of ingoing nitrite, USDA FSIS Directive 7620.3, chapter 3 (second-hand), one equation each.
    """
    brine, under = _brine(problem), _under(problem)
    solved = _solve(
        (
            _salt_is(problem, brine),
            _share_is(problem.sugar, SUGAR, problem, brine),
            _nitrite_is(problem, brine, under),
            _nitrate_is(problem, under),
            _accelerator_is(problem, under),
        )
    )
    return _forms(problem, solved, brine, under)


def _brine(problem: CureProblem) -> _Sum:
    """Water, salt, sugar, curing salt, nitrate and accelerator together; nothing in a dry cure."""
    if not problem.is_brine:
        return _known(NOTHING)
    return _Sum(
        (Fraction(1), Fraction(1), 1 - problem.kind.salt, Fraction(1), Fraction(1)),
        WATER,
    )


def _under(problem: CureProblem) -> _Sum:
    """What nitrite and nitrate are spread over: the lean meat, with the brines in a brine."""
    lean = _known(MEAT.times(problem.lean_share))
    injected = MEAT.times(problem.needle.share) if problem.needle else NOTHING
    return lean.plus(_brine(problem)).plus(_known(injected))


def _base(problem: CureProblem) -> Form:
    """What percentages are of: meat and water in a brine, the meat in a dry cure."""
    return MEAT.plus(WATER) if problem.is_brine else MEAT


def _salt_is(problem: CureProblem, brine: _Sum) -> _Sum:
    """Total salt by target, or the salt weighed (total less the curing salt's own) by amount; both equal nothing."""
    if problem.salt.target is None:
        weighed = _unknown(SALT).minus(_unknown(CURING_SALT, problem.kind.salt))
        return weighed.minus(_known(problem.salt.weight))
    return _share_is(problem.salt, SALT, problem, brine)


def _share_is(part: Part, unknown: int, problem: CureProblem, brine: _Sum) -> _Sum:
    """An unknown as a share of meat and water, as a share of the brine, in degrees, or as an amount."""
    if part.target is None:
        return _unknown(unknown).minus(_known(part.weight))
    share = part.target.value / PER_CENT
    if part.target.kind is TargetKind.PERCENT:
        return _unknown(unknown).minus(_known(_base(problem).times(share)))
    if part.target.kind is TargetKind.DEGREES:
        share = share * problem.saturated_percent / PER_CENT
    return _unknown(unknown).minus(brine.times(share))


def _nitrite_is(problem: CureProblem, brine: _Sum, under: _Sum) -> _Sum:
    """Nitrite by target on the basis of the method, or the curing salt by amount."""
    part = problem.curing_salt
    if part.target is None:
        return _unknown(CURING_SALT).minus(_known(part.weight))
    wanted = part.target.value / PER_MILLION
    if problem.pick_up is not None:
        picked_up = _unknown(CURING_SALT, problem.kind.nitrite * problem.pick_up)
        return picked_up.minus(brine.times(wanted))
    needle = problem.needle
    injected = MEAT.times(needle.share * needle.nitrite) if needle else NOTHING
    nitrite = _unknown(CURING_SALT, problem.kind.nitrite).plus(_known(injected))
    return nitrite.minus(under.times(wanted))


def _nitrate_is(problem: CureProblem, under: _Sum) -> _Sum:
    """Nitrate by target (that of the curing salt counted in), or by amount."""
    part = problem.nitrate
    if part.target is None:
        return _unknown(NITRATE).minus(_known(part.weight))
    needle = problem.needle
    injected = MEAT.times(needle.share * needle.nitrate) if needle else NOTHING
    own = _unknown(NITRATE, problem.nitrate_share).plus(_unknown(CURING_SALT, problem.kind.nitrate))
    return own.plus(_known(injected)).minus(under.times(part.target.value / PER_MILLION))


def _accelerator_is(problem: CureProblem, under: _Sum) -> _Sum:
    """Ascorbate or erythorbate by target, or by amount."""
    part = problem.accelerator
    if part.target is None:
        return _unknown(ACCELERATOR).minus(_known(part.weight))
    return _unknown(ACCELERATOR).minus(under.times(part.target.value / PER_MILLION))


def _forms(problem: CureProblem, solved: tuple[Form, ...], brine: _Sum, under: _Sum) -> CureForms:
    kind, needle = problem.kind, problem.needle
    cure = solved[CURING_SALT]
    nitrite = cure.times(kind.nitrite)
    nitrate = cure.times(kind.nitrate).plus(solved[NITRATE].times(problem.nitrate_share))
    if needle is not None:
        nitrite = nitrite.plus(MEAT.times(needle.share * needle.nitrite))
        nitrate = nitrate.plus(MEAT.times(needle.share * needle.nitrate))
    whole, spread = _valued(brine, solved), _valued(under, solved)
    all_salt, base = solved[SALT], _base(problem)
    if needle is not None:
        all_salt = all_salt.plus(MEAT.times(needle.share * needle.salt))
        base = base.plus(MEAT.times(needle.share))
    picked_up = None
    if problem.pick_up is not None:
        share = cure.times(kind.nitrite * problem.pick_up)
        picked_up = Figure(factor=PER_MILLION, over=share, under=whole)
    return CureForms(
        salt=solved[SALT].minus(cure.times(kind.salt)),
        sugar=solved[SUGAR],
        curing_salt=cure,
        nitrate=solved[NITRATE],
        accelerator=solved[ACCELERATOR],
        total_salt=solved[SALT],
        brine=whole,
        nitrite_ppm=Figure(factor=PER_MILLION, over=nitrite, under=spread),
        pick_up_ppm=picked_up,
        nitrate_ppm=Figure(factor=PER_MILLION, over=nitrate, under=spread),
        accelerator_ppm=Figure(factor=PER_MILLION, over=solved[ACCELERATOR], under=spread),
        salt_percent=Figure(factor=PER_CENT, over=all_salt, under=base),
        strength_percent=Figure(factor=PER_CENT, over=solved[SALT], under=whole)
        if problem.is_brine
        else None,
    )


def _valued(side: _Sum, solved: tuple[Form, ...]) -> Form:
    """A sum with its unknowns filled in."""
    form = side.known
    for column, value in zip(side.columns, solved, strict=True):
        form = form.plus(value.times(column))
    return form


def _solve(equations: tuple[_Sum, ...]) -> tuple[Form, ...]:
    """Exact elimination; every equation says that its sum is nothing."""
    rows = list(equations)
    for column in range(UNKNOWNS):
        # Any row will do that is not nothing here: fractions are exact, so no pivot is better than another.
        pivot = next((r for r in range(column, UNKNOWNS) if rows[r].columns[column] != 0), None)
        if pivot is None:
            raise NoSolution("the targets of this cure contradict each other")
        rows[column], rows[pivot] = rows[pivot], rows[column]
        rows[column] = rows[column].times(1 / rows[column].columns[column])
        for other in range(UNKNOWNS):
            if other != column:
                rows[other] = rows[other].minus(rows[column].times(rows[other].columns[column]))
    return tuple(row.known.times(Fraction(-1)) for row in rows)
