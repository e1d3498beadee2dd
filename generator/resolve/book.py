"""A manuscript in, a book out: every link followed, every use known, nothing lost."""

from __future__ import annotations

from generator.model.book import Book, Manuscript, Use
from generator.model.gathering import Gathering
from generator.model.recipe import PlainPage, Recipe
from generator.problems import ProblemLog
from generator.resolve.gathering import invite_all
from generator.resolve.graph import order_recipes
from generator.resolve.links import check_links, check_photos
from generator.resolve.uses import find_uses


def resolve_book(manuscript: Manuscript, log: ProblemLog) -> Book:
    """Follow the links of a whole book; what leads nowhere or round in a circle goes to the log."""
    by_file = {recipe.file: recipe for recipe in manuscript.recipes}
    unread = frozenset(manuscript.unread)
    written: tuple[Recipe | Gathering | PlainPage, ...] = (
        *manuscript.recipes,
        *manuscript.gatherings,
        *manuscript.pages,
    )
    files = frozenset(one.file for one in written) | unread
    photos = frozenset(manuscript.photos)
    uses: list[Use] = []
    for recipe in manuscript.recipes:
        uses += find_uses(recipe, by_file, unread, log)
    for one in written:
        check_links(one.body.links, one.file, files, log)
        check_photos(one.body.photos, one.file, photos, log)
    recipes = {recipe.slug: recipe for recipe in sorted(manuscript.recipes, key=lambda r: r.slug)}
    _check_drafts(uses, {slug for slug, recipe in recipes.items() if recipe.draft}, log)
    return Book(
        config=manuscript.config,
        recipes=recipes,
        uses=tuple(uses),
        order=order_recipes(recipes, uses, log),
        pages=manuscript.pages,
        gatherings=invite_all(manuscript.gatherings, by_file, unread, log),
        photos=manuscript.photos,
    )


def _check_drafts(uses: list[Use], drafts: set[str], log: ProblemLog) -> None:
    """A published dish cannot be made from a component that has no page."""
    for use in uses:
        if use.component in drafts and use.dish not in drafts:
            link = use.line.link
            log.add(
                "unknown-link",
                link.position if link else use.line.position,
                f"'{use.component}' is a draft and has no page.",
                "Take `draft: true` out of it, or make this recipe a draft too.",
            )
