"""A plan and courses that may move earlier in; whether nothing gets worse by it, out."""

from __future__ import annotations

from collections.abc import Mapping

from generator.compute.gathering.keeping import past_keep
from generator.compute.gathering.laid import Given, Laid, lay_out
from generator.compute.gathering.late import late_starts


def moved(given: Given, before: Laid, earlier: Mapping[str, int]) -> Laid | None:
    """The plan with those courses earlier; None where one would begin too early, or wait longer than it keeps."""
    after = lay_out(given, earlier)
    late, was_late = late_starts(given, after), late_starts(given, before)
    over, was_over = past_keep(given, after), past_keep(given, before)
    worse_start = any(start < was_late.get(slug, start + 1) for slug, start in late.items())
    worse_wait = any(wait > was_over.get(slug, 0) for slug, wait in over.items())
    return None if worse_start or worse_wait else after


def movable(given: Given) -> tuple[str, ...]:
    """Components alone: a dish is served when it is done."""
    return tuple(slug for slug in given.order if slug not in given.dishes)
