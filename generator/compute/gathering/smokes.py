"""A plan in; smokes that can be one, brought together by moving a component earlier, out."""

from __future__ import annotations

from itertools import combinations

from generator.compute.gathering.kit import Taking, fits_smoker, in_smoker, same_heat, takings
from generator.compute.gathering.laid import Given, Laid, lay_out
from generator.compute.gathering.slack import movable, moved

Groups = tuple[frozenset[str], ...]
"Slugs of components that keep their distance from each other."


def bring_together(given: Given) -> tuple[dict[str, int], Groups]:
    """How much earlier each component is moved so that it goes in with another, and which go together."""
    earlier: dict[str, int] = {}
    groups: list[frozenset[str]] = []
    laid = lay_out(given, earlier)
    for one, other in combinations(_smokes(given, laid), 2):
        laid = lay_out(given, earlier)
        tried = _joined(given, laid, earlier, groups, (one.slug, one.index), (other.slug, other.index))
        if tried is not None:
            earlier, groups = tried
    return earlier, tuple(groups)


def _joined(
    given: Given,
    laid: Laid,
    earlier: dict[str, int],
    groups: list[frozenset[str]],
    first: tuple[str, int],
    second: tuple[str, int],
) -> tuple[dict[str, int], list[frozenset[str]]] | None:
    """The later of two smokes, moved to begin with the other; None where that cannot be."""
    one, other = (_found(given, laid, key) for key in (first, second))
    if one.slug == other.slug or not same_heat(one.stage, other.stage):
        return None
    early, late = sorted((one, other), key=lambda taking: (taking.start, taking.slug))
    stays, goes = _group(groups, early.slug), _group(groups, late.slug)
    if goes & stays or not fits_smoker(given, tuple(sorted(stays | goes))):
        return None
    by = late.start - early.start
    if by and not goes <= set(movable(given)):
        return None
    tried = earlier | {slug: earlier.get(slug, 0) + by for slug in goes} if by else earlier
    after = moved(given, laid, tried)
    if after is None or _found(given, after, first).start != _found(given, after, second).start:
        return None
    return tried, [*(group for group in groups if group not in (stays, goes)), stays | goes]


def _smokes(given: Given, laid: Laid) -> tuple[Taking, ...]:
    return takings(given, laid, in_smoker)


def _found(given: Given, laid: Laid, key: tuple[str, int]) -> Taking:
    return next(one for one in _smokes(given, laid) if (one.slug, one.index) == key)


def _group(groups: list[frozenset[str]], slug: str) -> frozenset[str]:
    return next((group for group in groups if slug in group), frozenset((slug,)))


def smoke_notes(given: Given, laid: Laid) -> dict[tuple[str, int], str]:
    """For each smoke that is one with another: which."""
    notes: dict[tuple[str, int], str] = {}
    smokes = _smokes(given, laid)
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
