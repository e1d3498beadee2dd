"""Uses in, an order out in which every component stands before its dishes; a cycle is told as its path."""

from __future__ import annotations

from collections.abc import Iterable
from graphlib import CycleError, TopologicalSorter

from generator.model.book import Use
from generator.model.recipe import Recipe
from generator.problems import ProblemLog


def order_recipes(recipes: dict[str, Recipe], uses: Iterable[Use], log: ProblemLog) -> tuple[str, ...]:
    """Slugs from the leaves up; empty where recipes need each other in a circle."""
    uses = tuple(uses)
    needs: dict[str, set[str]] = {slug: set() for slug in sorted(recipes)}
    for use in uses:
        needs[use.dish].add(use.component)
    try:
        sorter = TopologicalSorter({slug: sorted(parts) for slug, parts in needs.items()})
        return tuple(sorter.static_order())
    except CycleError as error:
        _report_cycle(tuple(error.args[1]), uses, recipes, log)
        return ()


def _report_cycle(
    path: tuple[str, ...], uses: tuple[Use, ...], recipes: dict[str, Recipe], log: ProblemLog
) -> None:
    """The path reads as the cook meets it: each recipe uses the next one."""
    steps = tuple(reversed(path))
    first = next((use for use in uses if use.dish == steps[0] and use.component == steps[1]), None)
    link = first.line.link if first else None
    log.add(
        "cycle",
        link.position if link else recipes[steps[0]].position,
        f"{recipes[steps[0]].name} needs itself: {' → '.join(steps)}.",
        "Take the link out of one of these ingredient lines.",
    )
