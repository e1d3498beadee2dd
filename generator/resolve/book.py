"""A manuscript in, a book out: every link followed, every use known, every component before its dishes, nothing lost."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from graphlib import CycleError, TopologicalSorter

from generator.model.book import Book, Manuscript, Use
from generator.model.gathering import Gathering
from generator.model.recipe import PlainPage, Recipe
from generator.model.slug import fold
from generator.problems import ProblemLog
from generator.resolve.gathering import invite_all
from generator.resolve.links import Linked, check_links, check_photos
from generator.resolve.uses import find_uses, uncounted


def resolve_book(manuscript: Manuscript, log: ProblemLog) -> Book:
    """Follow the links of a whole book; what leads nowhere or round in a circle goes to the log."""
    by_file = {recipe.file: recipe for recipe in manuscript.recipes}
    linked = Linked(by_file, frozenset(manuscript.unread), log)
    written: tuple[Recipe | Gathering | PlainPage, ...] = (
        *manuscript.recipes,
        *manuscript.gatherings,
        *manuscript.pages,
    )
    files = linked.unread.union(one.file for one in written)
    photos = frozenset(manuscript.photos)
    uses = [use for recipe in manuscript.recipes for use in find_uses(recipe, linked)]
    for one in written:
        check_links(one.body.links, one.file, files, log)
        check_photos(one.body.photos, one.file, photos, log)
    _tell_same_names(manuscript.recipes, log)
    recipes = {
        recipe.slug: replace(recipe, holes=(*recipe.holes, *uncounted(recipe, uses)))
        for recipe in sorted(manuscript.recipes, key=lambda r: r.slug)
    }
    _check_drafts(uses, {slug for slug, recipe in recipes.items() if recipe.draft}, linked)
    return Book(
        config=manuscript.config,
        recipes=recipes,
        uses=tuple(uses),
        order=_order(recipes, uses, log),
        pages=manuscript.pages,
        gatherings=invite_all(manuscript.gatherings, linked),
        photos=manuscript.photos,
    )


def _tell_same_names(recipes: Iterable[Recipe], log: ProblemLog) -> None:
    """A reader who looks for one in the index cannot tell it from the other."""
    first: dict[str, Recipe] = {}
    for recipe in sorted(recipes, key=lambda one: one.file):
        other = first.setdefault(fold(recipe.name), recipe)
        if other is not recipe:
            message = f"'{recipe.name}' is also the name of {other.file}."
            hint = f"Say in one of the names what is different: name: {recipe.name} of Aunt Orla."
            log.add("same-name", recipe.position, message, hint)


def _check_drafts(uses: list[Use], drafts: set[str], linked: Linked) -> None:
    for use in uses:
        if use.component in drafts and use.dish not in drafts:
            link = use.line.link
            linked.refuse_draft(use.component, "recipe", link.position if link else use.line.position)


def _order(recipes: dict[str, Recipe], uses: list[Use], log: ProblemLog) -> tuple[str, ...]:
    """Slugs from the leaves up; empty where recipes need each other in a circle."""
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
    path: tuple[str, ...], uses: list[Use], recipes: dict[str, Recipe], log: ProblemLog
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
