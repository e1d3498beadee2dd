"""A computed book, the published tables and a theme in, a whole site out: every page kind in turn.

The same input gives the same bytes: no clock, no counter, every list in a named order.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from generator.model.page import CalendarJob, Page, PhotoJob, Site
from generator.model.plan import Plan
from generator.model.results import ComputedBook
from generator.render import paths
from generator.render.calendar import plan_calendar
from generator.render.context import Context, LinkView, at_gathering, make_context
from generator.render.measures import measures_asset
from generator.render.templates import fill_template, make_environment
from generator.render.theme import Theme
from generator.render.views.fetch import fetch_view
from generator.render.views.gathering import gathering_view
from generator.render.views.index import animal_index, ingredient_index, tag_index
from generator.render.views.lists import chapter_view, front_view
from generator.render.views.plain import plain_view
from generator.render.views.recipe import recipe_view
from generator.render.views.rules import rules_view
from generator.render.views.shell import View, shell_view
from generator.render.views.smoker import smoker_view
from generator.render.views.sources import sources_view
from generator.render.views.wall import wall_view
from generator.tables import Tables

PHOTO_WIDTH = 1600
"Widest side of a photo on a page [px]: twice the measure of the text, for dense screens."

Views = Iterator[tuple[str, View]]


@dataclass(frozen=True, slots=True, kw_only=True)
class PageKind:
    """One kind of page: its template, and the path and view of each page of this kind."""

    name: str
    template: str
    views: Callable[[Context], Views]


def _front(context: Context) -> Views:
    yield paths.FRONT, front_view(context, paths.FRONT)


def _chapters(context: Context) -> Views:
    for chapter, slug in context.chapters.items():
        path = paths.chapter_path(slug)
        yield path, chapter_view(context, path, chapter)


def _recipes(context: Context) -> Views:
    for one in context.published:
        path = paths.recipe_path(one.recipe.slug)
        yield path, recipe_view(context, path, one)


def _smoker(context: Context) -> Views:
    for one in context.published:
        path = paths.smoker_path(one.recipe.slug)
        view = smoker_view(context, path, one)
        if view is not None:
            yield path, view


def _by_animal(context: Context) -> Views:
    yield paths.BY_ANIMAL, animal_index(context, paths.BY_ANIMAL)


def _by_ingredient(context: Context) -> Views:
    yield paths.BY_INGREDIENT, ingredient_index(context, paths.BY_INGREDIENT)


def _by_tag(context: Context) -> Views:
    yield paths.BY_TAG, tag_index(context, paths.BY_TAG)


def _plain_pages(context: Context) -> Views:
    for plain in context.computed.book.pages:
        path = paths.plain_path(plain.slug)
        yield path, plain_view(context, path, plain)


def _sources(context: Context) -> Views:
    yield paths.SOURCES, sources_view(context, paths.SOURCES)


def _rules(context: Context) -> Views:
    yield paths.RULES, rules_view(context, paths.RULES)


def _gatherings(context: Context) -> Views:
    for plan in context.plans:
        path = paths.gathering_path(plan.invited.gathering.slug)
        yield path, gathering_view(at_gathering(context, plan), path, plan)


def _walls(context: Context) -> Views:
    for plan in context.plans:
        path = paths.wall_path(plan.invited.gathering.slug)
        yield path, wall_view(at_gathering(context, plan), path, plan)


def _lists(context: Context) -> Views:
    for plan in context.plans:
        path = paths.list_path(plan.invited.gathering.slug)
        yield path, fetch_view(at_gathering(context, plan), path, plan)


def _cards(context: Context) -> Views:
    for plan in context.plans:
        one = plan.invited.gathering
        at = at_gathering(context, plan)
        for making in plan.makings:
            if making.recipe.recipe.file in context.files:
                path = paths.card_path(one.slug, making.slug)
                back = LinkView(text=one.name, href=paths.relative(path, paths.gathering_path(one.slug)))
                yield path, recipe_view(at, path, making.recipe, gathering=back)


PAGE_KINDS: tuple[PageKind, ...] = (
    PageKind(name="front", template="front", views=_front),
    PageKind(name="chapter", template="chapter", views=_chapters),
    PageKind(name="recipe", template="recipe", views=_recipes),
    PageKind(name="smoker's sheet", template="smoker", views=_smoker),
    PageKind(name="gathering", template="gathering", views=_gatherings),
    PageKind(name="wall sheet", template="wall", views=_walls),
    PageKind(name="shopping list", template="fetch", views=_lists),
    PageKind(name="gathering card", template="recipe", views=_cards),
    PageKind(name="by animal", template="index", views=_by_animal),
    PageKind(name="by ingredient", template="index", views=_by_ingredient),
    PageKind(name="by tag", template="index", views=_by_tag),
    PageKind(name="plain page", template="plain", views=_plain_pages),
    PageKind(name="sources", template="sources", views=_sources),
    PageKind(name="rules", template="rules", views=_rules),
)
"Every kind of page, in the order in which they are made."


def render_book(
    computed: ComputedBook, plans: tuple[Plan, ...] = (), *, tables: Tables, theme: Theme
) -> Site:
    """Every page of every kind, the theme's files, and the photos to be written. Drafts get no page."""
    context = make_context(computed, tables=tables, theme=theme, plans=plans)
    environment = make_environment(theme)
    pages = tuple(
        Page(
            path=path,
            html=fill_template(environment, kind.template, shell=shell_view(context, path, view), view=view),
        )
        for kind in PAGE_KINDS
        for path, view in kind.views(context)
    )
    measures = measures_asset(tables, context.config.units)
    return Site(
        pages=pages,
        assets=(*theme.assets, measures),
        photos=_photos(context),
        calendars=_calendars(context),
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
