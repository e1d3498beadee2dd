"""Computed records in, plain data for `--json` out: unknown is null, a range is [low, high], numbers are numbers."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from generator.model.quantity import Span
from generator.model.results import (
    Caution,
    ComponentNeed,
    ComputedLine,
    ComputedRecipe,
    CureResult,
)
from generator.model.rounding import round_nearest
from generator.problems import Problem

HUNDREDTH = Fraction(1, 100)
"Source: house choice, the step of every weight and concentration in JSON."

Data = dict[str, Any]


def number(value: Fraction | None, step: Fraction = HUNDREDTH) -> float | int | None:
    """A number to a step, whole numbers without a point; unknown is null."""
    if value is None:
        return None
    rounded = round_nearest(value, step)
    return int(rounded) if rounded.denominator == 1 else float(rounded)


def exact(value: Fraction | None) -> float | int | None:
    """A number as near as a float can be: for batches and servings, which have no step."""
    if value is None:
        return None
    return int(value) if value.denominator == 1 else float(value)


def span(value: Span | None) -> float | int | list[float | int | None] | None:
    """A single number, or [low, high] for a range; unknown is null."""
    if value is None:
        return None
    return [number(value.low), number(value.high)] if value.is_range else number(value.low)


def problem_data(problem: Problem) -> Data:
    """One problem with its place; a problem of the command line has none."""
    place = problem.position
    return {
        "file": place.file if place else None,
        "line": place.line if place else None,
        "column": place.column if place else None,
        "severity": problem.severity.value,
        "slug": problem.slug,
        "message": problem.message,
        "hint": problem.hint,
    }


def cure_data(cure: CureResult) -> Data:
    """A cure at one setting: weights to 0.01 g or null, every figure that could be worked out, problems."""
    weigh = cure.weigh
    return {
        "method": cure.method,
        "cut": cure.cut,
        "curing_salt": cure.kind.key,
        "green_weight_g": number(cure.green_weight_g),
        "water_g": number(cure.water_g),
        "weigh": None
        if weigh is None
        else {
            "salt_g": number(weigh.salt_g),
            "sugar_g": number(weigh.sugar_g),
            "curing_salt_g": number(weigh.curing_salt_g),
        },
        "shown": {key: text or None for key, text in cure.shown.items()} or None,
        "ingoing_nitrite_ppm": {
            "whole_system": number(cure.whole_system_ppm),
            "pick_up": number(cure.pick_up_ppm),
            "dry": number(cure.dry_ppm),
        },
        "ingoing_nitrite_range_ppm": span(cure.ppm_range),
        "limit_ppm": number(cure.limit.limit_ppm) if cure.limit else None,
        "salt_percent": number(cure.salt_percent),
        "sugar_percent": number(cure.sugar_percent),
        "brine_strength_percent": number(cure.strength_percent),
        "salometer_degrees": number(cure.salometer_degrees),
        "pump_g": number(cure.pump_g),
        "problems": [problem_data(problem) for problem in cure.problems],
    }


def sheet_data(computed: ComputedRecipe, units: str) -> Data:
    """One recipe at one scale."""
    return {
        "name": computed.recipe.name,
        "batches": exact(computed.scale.batches),
        "serves": exact(computed.serves),
        "makes": _makes(computed, units),
        "ingredients": [_line(line, units) for line in all_lines(computed)],
        "cure": cure_data(computed.cure) if computed.cure else None,
        "components": [_need(need) for need in computed.needs],
        "cautions": [_caution(caution) for caution in computed.cautions],
        "problems": [problem_data(problem) for problem in computed.problems],
    }


def all_lines(computed: ComputedRecipe) -> tuple[ComputedLine, ...]:
    """The raw meat first, then the ingredient lines."""
    first = (computed.meat_line,) if computed.meat_line else ()
    return (*first, *computed.lines)


def _makes(computed: ComputedRecipe, units: str) -> str | None:
    if computed.makes_shown is None or computed.recipe.makes is None:
        return None
    return f"{computed.makes_shown.in_units(units)} {computed.recipe.makes.noun}".strip()


def _line(line: ComputedLine, units: str) -> Data:
    return {
        "id": line.ingredient.id,
        "name": line.ingredient.name,
        "shown": line.shown.in_units(units) if line.shown else None,
        "grams": span(line.grams),
        "millilitres": span(line.millilitres),
        "check": line.check or None,
    }


def _need(need: ComponentNeed) -> Data:
    return {
        "recipe": need.recipe,
        "path": list(need.path),
        "amount_g": number(need.amount_g),
        "batches": exact(need.batches),
        "green_weight_g": number(need.green_weight_g),
    }


def _caution(caution: Caution) -> Data:
    return {
        "signal": caution.signal,
        "slug": caution.slug,
        "text": caution.text,
        "because": caution.because,
        "sources": list(caution.sources),
    }
