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
from generator.render.context import Context, LinkView, at_gathering, make_context
from generator.render.measures import measures_asset
from generator.render.plans import plan_calendar
from generator.render.theme import Theme, make_environment
from generator.render.views.contents import chapter_view, front_view, plain_view
from generator.render.views.gathering import fetch_view, gathering_view
from generator.render.views.index import animal_index, ingredient_index, tag_index
from generator.render.views.recipe import recipe_view
from generator.render.views.shell import View, fill_page
from generator.render.views.smoker import smoker_view
from generator.render.views.sources import RULES_TITLE, rules_view, sources_view
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
    path: str = ""
    "Of the only page of its kind; empty for a page of each recipe, chapter or gathering."
    way: str = ""
    "Words of the link to it at the head of every page; empty where views link to it."
    foot: str = ""
    "Words of the link to it at the foot of every page."


def _one(
    name: str, template: str, path: str, view: Callable[[Context], View], *, way: str = "", foot: str = ""
) -> PageKind:
    """A single page."""

    def views(site: Context) -> Views:
        at = site.at(path)
        yield at, view(at)

    return PageKind(name=name, template=template, views=views, path=path, way=way, foot=foot)


def _each(name: str, template: str, views: Callable[[Context], Views]) -> PageKind:
    """A page of each of something."""
    return PageKind(name=name, template=template, views=views)


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


PAGE_KINDS = (
    _one("front", "front", paths.FRONT, front_view, way="Contents"),
    _each("chapter", "chapter", _chapters),
    _each("recipe", "recipe", _of_recipes(paths.recipe_path, recipe_view)),
    _each("smoker's sheet", "smoker", _of_recipes(paths.smoker_path, smoker_view)),
    _each("gathering", "gathering", _of_gatherings(paths.gathering_path, gathering_view)),
    _each("wall sheet", "wall", _of_gatherings(paths.wall_path, wall_view)),
    _each("shopping list", "fetch", _of_gatherings(paths.list_path, fetch_view)),
    _each("gathering card", "recipe", _cards),
    _one("by animal", "index", paths.BY_ANIMAL, animal_index, way="By animal"),
    _one("by ingredient", "index", paths.BY_INGREDIENT, ingredient_index, way="By ingredient"),
    _one("by tag", "index", paths.BY_TAG, tag_index, way="By tag"),
    _each("plain page", "plain", _plain_pages),
    _one("sources", "sources", paths.SOURCES, sources_view, way="Sources"),
    _one("rules", "rules", paths.RULES, rules_view, foot=RULES_TITLE),
)
"Every kind of page, in the order in which pages are made and ways into the book are listed."


def render_book(
    computed: ComputedBook, plans: tuple[Plan, ...] = (), *, tables: Tables, theme: Theme
) -> Site:
    """Every page of every kind, the theme's files, and the photos to be written. Drafts get no page."""
    ways = {kind.way: kind.path for kind in PAGE_KINDS if kind.way}
    foot = {kind.foot: kind.path for kind in PAGE_KINDS if kind.foot}
    context = make_context(computed, tables=tables, theme=theme, plans=plans, ways=ways, foot=foot)
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
