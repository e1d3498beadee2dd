"""A plan and courses that may move in; whether anything gets worse by it, out."""

from __future__ import annotations

from itertools import combinations

from generator.compute.gathering.capacity import (
    check_capacity,
    fits_smoker,
    in_smoker,
    same_heat,
    takings,
)
from generator.compute.gathering.deadlines import late_starts, past_keep
from generator.compute.gathering.layout import AS_COUNTED, Given, LaidStage, Layout, Moves, lay_out
from generator.problems import ProblemLog

TOO_EARLY = "sooner it would be before work starts"
TOO_LONG = "sooner it would wait longer than it keeps"
TOO_MANY = "sooner there would be no room for it in the kitchen"
Groups = tuple[frozenset[str], ...]
"Slugs of components that keep their distance from each other."


def moved(given: Given, before: Layout, moves: Moves) -> Layout | None:
    """The plan with those moves; None where one would begin too early, or wait longer than it keeps."""
    after = lay_out(given, moves)
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


def bring_together(given: Given) -> tuple[Moves, Groups]:
    """Each component moved so that it goes in with another, and which go together."""
    moves = AS_COUNTED
    groups: Groups = ()
    for one, other in combinations(takings(lay_out(given), in_smoker), 2):
        tried = _joined(given, moves, groups, (one.slug, one.index), (other.slug, other.index))
        moves, groups = tried or (moves, groups)
    return moves, groups


def _joined(
    given: Given,
    moves: Moves,
    groups: Groups,
    first: tuple[str, int],
    second: tuple[str, int],
) -> tuple[Moves, Groups] | None:
    """The later of two smokes, moved to begin with the other; None where that cannot be."""
    layout = lay_out(given, moves)
    one, other = (_found(layout, key) for key in (first, second))
    if one.slug == other.slug or not same_heat(one.stage, other.stage):
        return None
    # By slug where both begin together: the same two smokes are told the same way in every run.
    early, late = sorted((one, other), key=lambda taking: (taking.start, taking.slug))
    stays, goes = group_of(groups, early.slug), group_of(groups, late.slug)
    if goes & stays or not fits_smoker(given, tuple(sorted(stays | goes))):
        return None
    by = late.start - early.start
    if by and not goes <= set(movable(given)):
        return None
    sooner = {slug: moves.earlier.get(slug, 0) + by for slug in goes}
    tried = Moves(earlier={**moves.earlier, **sooner}) if by else moves
    after = moved(given, layout, tried)
    if after is None or _found(after, first).start != _found(after, second).start:
        return None
    return tried, (*(group for group in groups if group not in (stays, goes)), stays | goes)


def _found(layout: Layout, key: tuple[str, int]) -> LaidStage:
    return next(one for one in takings(layout, in_smoker) if (one.slug, one.index) == key)


def group_of(groups: Groups, slug: str) -> frozenset[str]:
    """Those that a course keeps its distance from, itself among them."""
    return next((group for group in groups if slug in group), frozenset((slug,)))


def smoke_notes(given: Given, layout: Layout) -> dict[tuple[str, int], str]:
    """For each smoke that is one with another: which."""
    notes: dict[tuple[str, int], str] = {}
    smokes = takings(layout, in_smoker)
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
