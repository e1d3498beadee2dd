"""Ranges of salt, sodium and per cent in, strings out: the low end rounded down, the high end up."""

from __future__ import annotations

from fractions import Fraction

from generator.model.quantity import Span
from generator.model.rounding import round_down, round_nearest, round_up

SALT_STEP_G = Fraction(1, 10)
"Source: house choice; no estimate here is finer."
COARSE_FROM_G, COARSE_STEP_G = Fraction(10), Fraction(1)
"From here whole grams. Source: house choice."
SODIUM_STEPS_MG = ((Fraction(140), Fraction(5)), (Fraction(10_000), Fraction(10)))
"Up to each, in steps of. Source: 21 CFR 101.9(c)(4), 5 to 140 mg by 5, above by 10 (second-hand)."
COARSE_SODIUM_MG = Fraction(100)
"Above all steps. Source: house choice."


def grams_shown(grams: Span) -> str:
    """`1.2 to 2.0`; one number where it is known; `up to 2.0` where the low end is nothing."""
    step = COARSE_STEP_G if grams.high >= COARSE_FROM_G else SALT_STEP_G
    return _shown(grams, step, places=1)


def sodium_shown(milligrams: Span) -> str:
    """`470 to 790`, in the steps of nutrition labels."""
    step = next((step for upto, step in SODIUM_STEPS_MG if milligrams.high <= upto), COARSE_SODIUM_MG)
    return _shown(milligrams, step, places=0)


def percent_shown(percent: Span) -> str:
    """`2.1 to 3.9`, to a tenth."""
    return _shown(percent, SALT_STEP_G, places=1)


def _shown(span: Span, step: Fraction, *, places: int) -> str:
    if not span.is_range:
        return _number(max(round_nearest(span.low, step), step if span.low else Fraction(0)), step, places)
    low, high = round_down(span.low, step), round_up(span.high, step)
    if low == 0:
        return f"up to {_number(high, step, places)}"
    if low == high:
        return _number(low, step, places)
    return f"{_number(low, step, places)} to {_number(high, step, places)}"


def _number(value: Fraction, step: Fraction, places: int) -> str:
    """With its tenth, 2.0, where the step is a tenth; thousands apart."""
    return f"{float(value):.1f}" if places and step < 1 else f"{int(value):,}"
