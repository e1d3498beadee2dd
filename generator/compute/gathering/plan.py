"""A gathering whose links are followed in, everything that follows from it out."""

from __future__ import annotations

from collections.abc import Iterable

from generator.compute.gathering.demand import make_demand
from generator.compute.gathering.schedule import schedule
from generator.compute.gathering.shopping import make_list, unmatched
from generator.compute.recipe import Kitchen
from generator.model.book import Book
from generator.model.gathering import Invited
from generator.model.plan import Making, Plan
from generator.model.results import CHECK_BEYOND
from generator.problems import Problem


def plan_gathering(book: Book, invited: Invited, kitchen: Kitchen) -> Plan:
    """Demand down to the raw meat, the list, the hours; what cannot be met stands in the plan's own problems."""
    makings = make_demand(book, invited, kitchen)
    laid = schedule(book, invited, makings, kitchen)
    return Plan(
        invited=invited,
        makings=makings,
        shopping=make_list(book, invited, makings, kitchen),
        steps=laid.steps,
        problems=(*_of_makings(makings), *laid.problems),
        notes=(*laid.notes, *_unmatched(book, invited, makings, kitchen), *_beyond(makings)),
    )


def _unmatched(
    book: Book, invited: Invited, makings: tuple[Making, ...], kitchen: Kitchen
) -> tuple[str, ...]:
    """A slip of the pen on the list of what is there would buy or cure it all over again."""
    made = {making.slug for making in makings}
    names = [book.recipes[slug].name for _, slug, _ in invited.components if slug not in made]
    names += unmatched(book, invited, makings, kitchen)
    return tuple(f"On hand, and nothing here takes it under that name: {name}." for name in names)


def _beyond(makings: Iterable[Making]) -> tuple[str, ...]:
    """Hand work, pots and cooling do not scale with the amounts."""
    names = [making.recipe.recipe.name for making in makings if making.batches > CHECK_BEYOND]
    if not names:
        return ()
    return (
        "Times of hand work, of the pot and of cooling are as written for one batch. Allow more, or make it in turns: "
        f"{', '.join(names)}.",
    )


def _of_makings(makings: Iterable[Making]) -> tuple[Problem, ...]:
    """What this scale alone makes wrong of a recipe: a cure above its limit. What is not made has none."""
    found = (problem for making in makings if making.batches for problem in making.recipe.problems)
    return tuple(dict.fromkeys(problem for problem in found if problem.is_error))
