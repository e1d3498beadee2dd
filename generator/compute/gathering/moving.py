"""A plan and courses that may move in; whether anything gets worse by it, out."""

from __future__ import annotations

from collections.abc import Mapping
from itertools import combinations

from generator.compute.gathering.capacity import (
    Taking,
    check_capacity,
    fits_smoker,
    in_smoker,
    same_heat,
    takings,
)
from generator.compute.gathering.deadlines import late_starts, past_keep
from generator.compute.gathering.layout import Given, Layout, lay_out
from generator.problems import ProblemLog

TOO_EARLY = "sooner it would be before work starts"
TOO_LONG = "sooner it would wait longer than it keeps"
TOO_MANY = "sooner there would be no room for it in the kitchen"
Groups = tuple[frozenset[str], ...]
"Slugs of components that keep their distance from each other."


def moved(given: Given, before: Layout, earlier: Mapping[str, int]) -> Layout | None:
    """The plan with those courses earlier; None where one would begin too early, or wait longer than it keeps."""
    after = lay_out(given, earlier)
    late, was_late = late_starts(given, after), late_starts(given, before)
    worse_start = any(start < was_late.get(slug, start + 1) for slug, start in late.items())
    return None if worse_start or _waits_longer(given, before, after) else after


def hindrance(given: Given, before: Layout, after: Layout) -> str:
    """Why a plan may not become another; empty where it may. What is too late as it is may begin sooner still."""
    if late_starts(given, after).keys() - late_starts(given, before).keys():
        return TOO_EARLY
    if _waits_longer(given, before, after):
        return TOO_LONG
    return TOO_MANY if _conflicts(given, after) > _conflicts(given, before) else ""


def _waits_longer(given: Given, before: Layout, after: Layout) -> bool:
    was_over = past_keep(given, before)
    return any(wait > was_over.get(slug, 0) for slug, wait in past_keep(given, after).items())


def _conflicts(given: Given, layout: Layout) -> int:
    log = ProblemLog()
    check_capacity(given, layout, log)
    return len(log)


def movable(given: Given) -> tuple[str, ...]:
    """Components alone: a dish is served when it is done."""
    return tuple(slug for slug in given.order if slug not in given.dishes)


def bring_together(given: Given) -> tuple[dict[str, int], Groups]:
    """How much earlier [min] each component is moved so that it goes in with another, and which go together."""
    earlier: dict[str, int] = {}
    groups: list[frozenset[str]] = []
    for one, other in combinations(_smokes(given, lay_out(given, earlier)), 2):
        tried = _joined(given, earlier, groups, (one.slug, one.index), (other.slug, other.index))
        earlier, groups = tried or (earlier, groups)
    return earlier, tuple(groups)


def _joined(
    given: Given,
    earlier: dict[str, int],
    groups: list[frozenset[str]],
    first: tuple[str, int],
    second: tuple[str, int],
) -> tuple[dict[str, int], list[frozenset[str]]] | None:
    """The later of two smokes, moved to begin with the other; None where that cannot be."""
    layout = lay_out(given, earlier)
    one, other = (_found(given, layout, key) for key in (first, second))
    if one.slug == other.slug or not same_heat(one.stage, other.stage):
        return None
    # By slug where both begin together: the same two smokes are told the same way in every run.
    early, late = sorted((one, other), key=lambda taking: (taking.start, taking.slug))
    stays, goes = _group(groups, early.slug), _group(groups, late.slug)
    if goes & stays or not fits_smoker(given, tuple(sorted(stays | goes))):
        return None
    by = late.start - early.start
    if by and not goes <= set(movable(given)):
        return None
    tried = earlier | {slug: earlier.get(slug, 0) + by for slug in goes} if by else earlier
    after = moved(given, layout, tried)
    if after is None or _found(given, after, first).start != _found(given, after, second).start:
        return None
    return tried, [*(group for group in groups if group not in (stays, goes)), stays | goes]


def _smokes(given: Given, layout: Layout) -> tuple[Taking, ...]:
    return takings(given, layout, in_smoker)


def _found(given: Given, layout: Layout, key: tuple[str, int]) -> Taking:
    return next(one for one in _smokes(given, layout) if (one.slug, one.index) == key)


def _group(groups: list[frozenset[str]], slug: str) -> frozenset[str]:
    return next((group for group in groups if slug in group), frozenset((slug,)))


def smoke_notes(given: Given, layout: Layout) -> dict[tuple[str, int], str]:
    """For each smoke that is one with another: which."""
    notes: dict[tuple[str, int], str] = {}
    smokes = _smokes(given, layout)
    for one in smokes:
        mates = [
            other
            for other in smokes
            if other.slug != one.slug and other.start == one.start and same_heat(one.stage, other.stage)
        ]
        if mates and fits_smoker(given, tuple(sorted({one.slug, *(mate.slug for mate in mates)}))):
            names = " and ".join(given.book.recipes[mate.slug].name for mate in mates)
            notes[one.slug, one.index] = f"in one smoke with {names}"
    return notes
