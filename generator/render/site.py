"""A computed book, the published tables and a theme in, a whole site out: every page kind in turn.

The same input gives the same bytes: no clock, no counter, every list in a named order.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from generator.model.page import CalendarJob, Page, PhotoJob, Site
from generator.model.plan import Plan
from generator.model.results import ComputedBook, ComputedRecipe
from generator.render import paths
from generator.render.calendar import plan_calendar
from generator.render.context import Context, LinkView, at_gathering, make_context
from generator.render.measures import measures_asset
from generator.render.theme import Theme, make_environment
from generator.render.views.contents import chapter_view, front_view, plain_view
from generator.render.views.gathering import fetch_view, gathering_view
from generator.render.views.index import animal_index, ingredient_index, tag_index
from generator.render.views.recipe import recipe_view
from generator.render.views.rules import rules_view
from generator.render.views.shell import View, fill_page
from generator.render.views.smoker import smoker_view
from generator.render.views.sources import sources_view
from generator.render.views.wall import wall_view
from generator.tables import Tables

PHOTO_WIDTH = 1600
"Widest side of a photo on a page [px]: twice the measure of the text, for dense screens."

Views = Iterator[tuple[Context, View]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PageKind:
    """One kind of page: its template, and each page of this kind as the place it is seen from and its view."""

    name: str
    template: str
    views: Callable[[Context], Views]


def _one(path: str, view: Callable[[Context], View]) -> Callable[[Context], Views]:
    """A single page."""
    return lambda site: ((at, view(at)) for at in (site.at(path),))


def _chapters(site: Context) -> Views:
    for chapter, slug in site.chapters.items():
        at = site.at(paths.chapter_path(slug))
        yield at, chapter_view(at, chapter)


def _plain_pages(site: Context) -> Views:
    for plain in site.computed.book.pages:
        at = site.at(paths.plain_path(plain.slug))
        yield at, plain_view(at, plain)


def _of_recipes(
    path: Callable[[str], str], view: Callable[[Context, ComputedRecipe], View | None]
) -> Callable[[Context], Views]:
    """A page of each published recipe that has something to show on it."""

    def views(site: Context) -> Views:
        for one in site.published:
            at = site.at(path(one.recipe.slug))
            if (found := view(at, one)) is not None:
                yield at, found

    return views


def _of_gatherings(
    path: Callable[[str], str], view: Callable[[Context, Plan], View]
) -> Callable[[Context], Views]:
    """A page of each gathering."""

    def views(site: Context) -> Views:
        for plan in site.plans:
            at = at_gathering(site, plan).at(path(plan.invited.gathering.slug))
            yield at, view(at, plan)

    return views


def _cards(site: Context) -> Views:
    for plan in site.plans:
        one = plan.invited.gathering
        for making in plan.makings:
            if making.recipe.recipe.file in site.files:
                at = at_gathering(site, plan).at(paths.card_path(one.slug, making.slug))
                back = LinkView(text=one.name, href=at.href(paths.gathering_path(one.slug)))
                yield at, recipe_view(at, making.recipe, gathering=back)


PAGE_KINDS: tuple[PageKind, ...] = tuple(
    PageKind(name=name, template=template, views=views)
    for name, template, views in (
        ("front", "front", _one(paths.FRONT, front_view)),
        ("chapter", "chapter", _chapters),
        ("recipe", "recipe", _of_recipes(paths.recipe_path, recipe_view)),
        ("smoker's sheet", "smoker", _of_recipes(paths.smoker_path, smoker_view)),
        ("gathering", "gathering", _of_gatherings(paths.gathering_path, gathering_view)),
        ("wall sheet", "wall", _of_gatherings(paths.wall_path, wall_view)),
        ("shopping list", "fetch", _of_gatherings(paths.list_path, fetch_view)),
        ("gathering card", "recipe", _cards),
        ("by animal", "index", _one(paths.BY_ANIMAL, animal_index)),
        ("by ingredient", "index", _one(paths.BY_INGREDIENT, ingredient_index)),
        ("by tag", "index", _one(paths.BY_TAG, tag_index)),
        ("plain page", "plain", _plain_pages),
        ("sources", "sources", _one(paths.SOURCES, sources_view)),
        ("rules", "rules", _one(paths.RULES, rules_view)),
    )
)
"Every kind of page, in the order in which they are made."


def render_book(
    computed: ComputedBook, plans: tuple[Plan, ...] = (), *, tables: Tables, theme: Theme
) -> Site:
    """Every page of every kind, the theme's files, and the photos to be written. Drafts get no page."""
    context = make_context(computed, tables=tables, theme=theme, plans=plans)
    environment = make_environment(theme)
    pages = tuple(
        Page(path=at.path, html=fill_page(environment, kind.template, at, view))
        for kind in PAGE_KINDS
        for at, view in kind.views(context)
    )
    measures = measures_asset(tables, context.config.units)
    return Site(
        pages=pages, assets=(*theme.assets, measures), photos=_photos(context), calendars=_calendars(context)
    )


def _calendars(context: Context) -> tuple[CalendarJob, ...]:
    """The plan of each gathering as a calendar file."""
    names = {slug: recipe.name for slug, recipe in context.computed.book.recipes.items()}
    return tuple(
        plan_calendar(plan, paths.calendar_path(plan.invited.gathering.slug), names) for plan in context.plans
    )


def _photos(context: Context) -> tuple[PhotoJob, ...]:
    """Every photo that a published recipe or a page shows, each once."""
    bodies = [(one.recipe.file, one.recipe.body) for one in context.published]
    bodies += [(plain.file, plain.body) for plain in context.computed.book.pages]
    bodies += [(one.file, one.body) for one in (plan.invited.gathering for plan in context.plans)]
    sources = {paths.book_path(file, photo.target) for file, body in bodies for photo in body.photos}
    return tuple(
        PhotoJob(source=source, path=paths.photo_path(source), width=PHOTO_WIDTH)
        for source in sorted(sources)
    )
