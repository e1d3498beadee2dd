"""Targets and amounts of a cure in, its weights as linear forms of batches, meat and water out.

The unknowns are total salt S (with the salt of the curing salt), sugar U and curing salt c. Each line of the cure
gives one linear equation between them; they are solved together and exactly. With targets only this gives
c = k (1+s+u)(m+w) / (n - k (1-h)) for a brine left until even, and c = k m / n for a dry cure.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from generator.model.form import MEAT, NOTHING, WATER, Figure, Form
from generator.model.published import CuringSalt
from generator.model.recipe import Target, TargetKind
from generator.model.results import CureForms

PER_CENT = Fraction(100)
"Source: per cent, a definition."
PER_MILLION = Fraction(1_000_000)
"Source: parts per million, a definition."


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """Salt, sugar or curing salt: a target, or a form for the weight put in, or neither (none of it)."""

    target: Target | None = None
    weight: Form = NOTHING


@dataclass(frozen=True, slots=True, kw_only=True)
class Equation:
    """salt S + sugar U + curing_salt c = known."""

    salt: Fraction = Fraction(0)
    sugar: Fraction = Fraction(0)
    curing_salt: Fraction = Fraction(0)
    known: Form = NOTHING


class NoSolution(ValueError):
    """The targets contradict each other: no weights reach them all."""


@lru_cache(maxsize=256)
def solve_cure(
    *,
    method: str,
    salt: Part,
    sugar: Part,
    curing_salt: Part,
    kind: CuringSalt,
    lean_share: Fraction,
    saturated_percent: Fraction,
) -> CureForms:
    """The forms and figures of a cure. `lean_share` is the share of the green weight that counts (skin left out)."""
    brine = method == "brine"
    lean = MEAT.times(lean_share)
    base = MEAT.plus(WATER) if brine else MEAT
    equations = (
        _salt_equation(salt, base, kind, saturated_percent),
        _sugar_equation(sugar, base, kind),
        _curing_salt_equation(curing_salt, lean, kind, brine),
    )
    total_salt, sugar_form, cure_form = _solve(equations)
    weighed = total_salt.minus(cure_form.times(kind.salt))
    whole = WATER.plus(weighed).plus(sugar_form).plus(cure_form) if brine else NOTHING
    under = lean.plus(whole)
    return CureForms(
        salt=weighed,
        sugar=sugar_form,
        curing_salt=cure_form,
        total_salt=total_salt,
        brine=whole,
        nitrite_ppm=Figure(factor=PER_MILLION * kind.nitrite, over=cure_form, under=under),
        salt_percent=Figure(factor=PER_CENT, over=total_salt, under=base),
        strength_percent=Figure(factor=PER_CENT, over=total_salt, under=whole) if brine else None,
    )


def _salt_equation(part: Part, base: Form, kind: CuringSalt, saturated_percent: Fraction) -> Equation:
    """Total salt by target, or the salt weighed (total less the curing salt's own) by amount."""
    if part.target is None:
        return Equation(salt=Fraction(1), curing_salt=-kind.salt, known=part.weight)
    if part.target.kind is TargetKind.PERCENT:
        return Equation(salt=Fraction(1), known=base.times(part.target.value / PER_CENT))
    share = part.target.value / PER_CENT
    if part.target.kind is TargetKind.DEGREES:
        share = share * saturated_percent / PER_CENT
    own = _share_of_brine(share, kind)
    return Equation(salt=own.salt + 1, sugar=own.sugar, curing_salt=own.curing_salt, known=own.known)


def _sugar_equation(part: Part, base: Form, kind: CuringSalt) -> Equation:
    """Sugar by target or by amount."""
    if part.target is None:
        return Equation(sugar=Fraction(1), known=part.weight)
    share = part.target.value / PER_CENT
    if part.target.kind is TargetKind.PERCENT:
        return Equation(sugar=Fraction(1), known=base.times(share))
    own = _share_of_brine(share, kind)
    return Equation(salt=own.salt, sugar=own.sugar + 1, curing_salt=own.curing_salt, known=own.known)


def _share_of_brine(share: Fraction, kind: CuringSalt) -> Equation:
    """- share x brine on the left, with its water on the right: brine = w + S + U + (1 - h) c."""
    return Equation(
        salt=-share,
        sugar=-share,
        curing_salt=-share * (1 - kind.salt),
        known=WATER.times(share),
    )


def _curing_salt_equation(part: Part, lean: Form, kind: CuringSalt, brine: bool) -> Equation:
    """n c = k (m + brine) in a brine left until even, n c = k m in a dry cure; or the amount."""
    if part.target is None:
        return Equation(curing_salt=Fraction(1), known=part.weight)
    share = part.target.value / PER_MILLION
    if not brine:
        return Equation(curing_salt=kind.nitrite, known=lean.times(share))
    return Equation(
        salt=-share,
        sugar=-share,
        curing_salt=kind.nitrite - share * (1 - kind.salt),
        known=lean.plus(WATER).times(share),
    )


def _solve(equations: tuple[Equation, Equation, Equation]) -> tuple[Form, Form, Form]:
    """Exact elimination of three unknowns; the right-hand sides are forms."""
    rows = [([equation.salt, equation.sugar, equation.curing_salt], equation.known) for equation in equations]
    for column in range(len(rows)):
        pivot = next((r for r in range(column, len(rows)) if rows[r][0][column] != 0), None)
        if pivot is None:
            raise NoSolution("the targets of this cure contradict each other")
        rows[column], rows[pivot] = rows[pivot], rows[column]
        left, known = rows[column]
        scale = 1 / left[column]
        rows[column] = ([value * scale for value in left], known.times(scale))
        for other in range(len(rows)):
            if other != column:
                rows[other] = _subtract(rows[other], rows[column], rows[other][0][column])
    return rows[0][1], rows[1][1], rows[2][1]


def _subtract(
    row: tuple[list[Fraction], Form], pivot: tuple[list[Fraction], Form], times: Fraction
) -> tuple[list[Fraction], Form]:
    left = [value - times * lead for value, lead in zip(row[0], pivot[0], strict=True)]
    return left, row[1].minus(pivot[1].times(times))
