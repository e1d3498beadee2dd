"""A solved cure that is within its limits in, weights for the scale out.

Salt and sugar are rounded first, then the curing salt down: the floor of min(c, L rest / (1,000,000 n - L)) with what
is shown, so that weighing what is shown never passes the limit.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from generator.compute.cure.case import NitriteCase, Solved
from generator.compute.cure.limits import most_curing_salt_by_pick_up_g, most_curing_salt_g
from generator.model.published import NitriteLimit
from generator.model.quantity import Span
from generator.model.results import CureResult, CureWeights
from generator.model.shown import Shower


def weigh(solved: Solved, result: CureResult, shower: Shower) -> CureWeights:
    """Weights [g] to 0.01 g, the curing salt down."""
    case = _rounded(solved, "weigh", shower)
    return CureWeights(
        salt_g=case.salt_g,
        sugar_g=case.sugar_g,
        curing_salt_g=shower.rounded(_capped(case, solved, result), use="weigh curing salt", system="metric"),
    )


def show_weights(solved: Solved, result: CureResult, shower: Shower) -> dict[str, str]:
    """The page's strings in grams. Meat and water round up, which can only lower the nitrite figure."""
    given = solved.given

    def grams(value: Fraction, use: str) -> str:
        return shower.base(Span.of(value), use=use, system="metric")

    capped = _capped(_rounded(solved, "cure weight", shower), solved, result)
    return {
        "green_weight": grams(solved.setting.meat_g, "cure base"),
        "water": grams(solved.setting.water_g, "cure base") if given.is_brine else "",
        "salt": grams(solved.salt_g, "cure weight") if given.salt is not None else "",
        "sugar": grams(solved.sugar_g, "cure weight") if given.sugar is not None else "",
        "curing_salt": grams(capped, "curing salt") if given.curing_salt is not None else "",
        "nitrate": grams(solved.nitrate_g, "curing salt") if given.nitrate is not None else "",
        "accelerator": grams(solved.accelerator_g, "curing salt") if given.accelerator is not None else "",
    }


def _rounded(solved: Solved, use: str, shower: Shower) -> NitriteCase:
    return replace(
        solved.nitrite_case,
        salt_g=shower.rounded(solved.salt_g, use=use, system="metric"),
        sugar_g=shower.rounded(solved.sugar_g, use=use, system="metric"),
    )


def _capped(case: NitriteCase, solved: Solved, result: CureResult) -> Fraction:
    limit = result.limit
    if limit is None or solved.given.curing_salt is None:
        return case.curing_salt_g
    pick_up = solved.given.pick_up
    if pick_up is None:
        return min(case.curing_salt_g, most_curing_salt_g(case, limit.limit_ppm))
    by_pick_up = most_curing_salt_by_pick_up_g(case, pick_up, limit.limit_ppm)
    return min(case.curing_salt_g, by_pick_up, _by_what_enters(case, result, limit))


def _by_what_enters(case: NitriteCase, result: CureResult, limit: NitriteLimit) -> Fraction:
    """Of a short cure: the limit on the whole system is higher by the share that cannot have entered yet."""
    whole, judged = result.whole_system_ppm, result.judged_ppm
    share = judged / whole if whole and judged else Fraction(1)
    return most_curing_salt_g(case, limit.limit_ppm / share)
