"""A plan and courses that may move in; whether anything gets worse by it, out."""

from __future__ import annotations

from collections.abc import Mapping

from generator.compute.gathering.keeping import past_keep
from generator.compute.gathering.kit import check_kit
from generator.compute.gathering.laid import Given, Laid, lay_out
from generator.compute.gathering.late import late_starts
from generator.problems import ProblemLog

TOO_EARLY = "sooner it would be before work starts"
TOO_LONG = "sooner it would wait longer than it keeps"
TOO_MANY = "sooner there would be no room for it in the kitchen"


def moved(given: Given, before: Laid, earlier: Mapping[str, int]) -> Laid | None:
    """The plan with those courses earlier; None where one would begin too early, or wait longer than it keeps."""
    after = lay_out(given, earlier)
    late, was_late = late_starts(given, after), late_starts(given, before)
    worse_start = any(start < was_late.get(slug, start + 1) for slug, start in late.items())
    return None if worse_start or _waits_longer(given, before, after) else after


def hindrance(given: Given, before: Laid, after: Laid) -> str:
    """Why a plan may not become another; empty where it may. What is too late as it is may begin sooner still."""
    if late_starts(given, after).keys() - late_starts(given, before).keys():
        return TOO_EARLY
    if _waits_longer(given, before, after):
        return TOO_LONG
    return TOO_MANY if _conflicts(given, after) > _conflicts(given, before) else ""


def _waits_longer(given: Given, before: Laid, after: Laid) -> bool:
    was_over = past_keep(given, before)
    return any(wait > was_over.get(slug, 0) for slug, wait in past_keep(given, after).items())


def _conflicts(given: Given, laid: Laid) -> int:
    log = ProblemLog()
    check_kit(given, laid, log)
    return len(log)


def movable(given: Given) -> tuple[str, ...]:
    """Components alone: a dish is served when it is done."""
    return tuple(slug for slug in given.order if slug not in given.dishes)
