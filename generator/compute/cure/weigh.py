"""A solved cure that is within its limits in, weights for the scale out.

Salt and sugar are rounded first, then the curing salt down: the floor of min(c, L rest / (1,000,000 n - L)) with what
is shown, so that weighing what is shown never passes the limit.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.compute.cure.case import NitriteCase, Solved
from generator.compute.cure.limits import most_curing_salt_g
from generator.model.published import NitriteLimit
from generator.model.quantity import Span
from generator.model.results import CureWeights
from generator.model.shown import Shower


def weigh(solved: Solved, limit: NitriteLimit | None, shower: Shower) -> CureWeights:
    """Weights [g] to 0.01 g, the curing salt down."""
    case = _rounded(solved, "weigh", shower)
    return CureWeights(
        salt_g=case.salt_g,
        sugar_g=case.sugar_g,
        curing_salt_g=shower.rounded(_capped(case, limit), use="weigh curing salt", system="metric"),
    )


def show_weights(solved: Solved, limit: NitriteLimit | None, shower: Shower) -> dict[str, str]:
    """The page's strings in grams. Meat and water round up, which can only lower the nitrite figure."""
    given = solved.given

    def grams(value: Fraction, use: str) -> str:
        return shower.base(Span.of(value), use=use, system="metric")

    capped = _capped(_rounded(solved, "cure weight", shower), limit)
    return {
        "green_weight": grams(solved.setting.meat_g, "cure base"),
        "water": grams(solved.setting.water_g, "cure base") if given.is_brine else "",
        "salt": grams(solved.salt_g, "cure weight") if given.salt is not None else "",
        "sugar": grams(solved.sugar_g, "cure weight") if given.sugar is not None else "",
        "curing_salt": grams(capped, "curing salt") if given.curing_salt is not None else "",
    }


def _rounded(solved: Solved, use: str, shower: Shower) -> NitriteCase:
    return replace(
        solved.nitrite_case,
        salt_g=shower.rounded(solved.salt_g, use=use, system="metric"),
        sugar_g=shower.rounded(solved.sugar_g, use=use, system="metric"),
    )


def _capped(case: NitriteCase, limit: NitriteLimit | None) -> Fraction:
    if limit is None:
        return case.curing_salt_g
    return min(case.curing_salt_g, most_curing_salt_g(case, limit.limit_ppm))
