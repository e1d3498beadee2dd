"""The one contract between command and page: cure weights as linear forms, figures as ratios of forms.

A weight is c0 + cb b + cm m + cw w, with b batches, m green weight [g] and w water [g], the coefficients exact
fractions. A figure is a ratio of two forms, or the sum of two such ratios, times a constant.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Setting:
    """Where forms are evaluated: batches [1], green weight [g], water [g]."""

    batches: Fraction
    meat_g: Fraction
    water_g: Fraction


@dataclass(frozen=True, slots=True, kw_only=True)
class Form:
    """c0 + cb b + cm m + cw w [g], exact."""

    c0: Fraction = Fraction(0)
    cb: Fraction = Fraction(0)
    cm: Fraction = Fraction(0)
    cw: Fraction = Fraction(0)

    def at(self, setting: Setting) -> Fraction:
        """The weight [g] at a setting."""
        # Whole numbers until the end: one reduction to lowest terms instead of one a step.
        over, under = self.c0.numerator, self.c0.denominator
        for factor, value in (
            (self.cb, setting.batches),
            (self.cm, setting.meat_g),
            (self.cw, setting.water_g),
        ):
            if factor and value:
                below = factor.denominator * value.denominator
                over = over * below + factor.numerator * value.numerator * under
                under *= below
        return Fraction(over, under)

    def times(self, factor: Fraction) -> Form:
        """Every coefficient multiplied."""
        return Form(c0=self.c0 * factor, cb=self.cb * factor, cm=self.cm * factor, cw=self.cw * factor)

    def plus(self, other: Form) -> Form:
        """Coefficient by coefficient sum."""
        return Form(
            c0=self.c0 + other.c0,
            cb=self.cb + other.cb,
            cm=self.cm + other.cm,
            cw=self.cw + other.cw,
        )

    def minus(self, other: Form) -> Form:
        """Coefficient by coefficient difference."""
        return self.plus(other.times(Fraction(-1)))


MEAT = Form(cm=Fraction(1))
WATER = Form(cw=Fraction(1))
NOTHING = Form()


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """factor x over / under: a concentration as a ratio of two forms."""

    factor: Fraction
    "1,000,000 for ppm, 100 for per cent."
    over: Form
    under: Form

    def at(self, setting: Setting) -> Fraction | None:
        """The figure at a setting, or None where there is nothing to divide by."""
        under = self.under.at(setting)
        return None if under == 0 else self.factor * self.over.at(setting) / under
