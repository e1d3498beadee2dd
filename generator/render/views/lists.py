"""The front page and the pages of chapters: recipes by name with what they make."""

from __future__ import annotations

from dataclasses import dataclass

from generator.model.plan import Plan
from generator.model.results import ComputedRecipe
from generator.render import paths
from generator.render.context import Context, LinkView
from generator.render.plan_words import guest_count, plan_clock
from generator.render.views.yields import yield_words

NO_CHAPTER = "Other recipes"
"Heading of the recipes that name no chapter."


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryView:
    """A recipe in a list."""

    name: str
    href: str
    summary: str
    yields: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterEntryView:
    """A chapter with its recipes."""

    title: str
    href: str
    "Empty for recipes without a chapter."
    plate: str
    recipes: tuple[EntryView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class GatheringEntryView:
    """A gathering in the list of the front page."""

    date: str
    name: str
    href: str
    guests: str


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontView:
    """The front page: the book's contents."""

    title: str
    description: str
    family: str
    chapters: tuple[ChapterEntryView, ...]
    gatherings: tuple[GatheringEntryView, ...]
    "By date."
    pages: tuple[LinkView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterView:
    """One chapter."""

    title: str
    description: str
    plate: str
    recipes: tuple[EntryView, ...]


def front_view(context: Context, page: str) -> FrontView:
    """Every chapter in the order of the book, then the plain pages."""
    chapters = [_chapter_entry(context, page, chapter) for chapter in context.chapters]
    loose = context.in_chapter("")
    if loose:
        entries = tuple(_entry(context, page, one) for one in loose)
        plate = context.plate_for(loose)
        chapters.append(ChapterEntryView(title=NO_CHAPTER, href="", plate=plate, recipes=entries))
    config = context.config
    return FrontView(
        title=config.title,
        description=f"{config.title}. {config.family}".rstrip(". ") + ".",
        family=config.family,
        chapters=tuple(chapters),
        gatherings=tuple(_gathering(page, plan) for plan in context.plans),
        pages=tuple(
            LinkView(text=one.name, href=paths.relative(page, paths.plain_path(one.slug)), note=one.summary)
            for one in sorted(context.computed.book.pages, key=lambda one: (one.name.casefold(), one.slug))
        ),
    )


def chapter_view(context: Context, page: str, chapter: str) -> ChapterView:
    """The recipes of a chapter with their summaries."""
    recipes = context.in_chapter(chapter)
    return ChapterView(
        title=chapter,
        description=f"{chapter}: {', '.join(one.recipe.name for one in recipes)}.",
        plate=context.plate_for(recipes),
        recipes=tuple(_entry(context, page, one) for one in recipes),
    )


def _chapter_entry(context: Context, page: str, chapter: str) -> ChapterEntryView:
    recipes = context.in_chapter(chapter)
    return ChapterEntryView(
        title=chapter,
        href=paths.relative(page, paths.chapter_path(context.chapters[chapter])),
        plate=context.plate_for(recipes),
        recipes=tuple(_entry(context, page, one) for one in recipes),
    )


def _gathering(page: str, plan: Plan) -> GatheringEntryView:
    one = plan.invited.gathering
    return GatheringEntryView(
        date=plan_clock(plan).date(one.serve_at),
        name=one.name,
        href=paths.relative(page, paths.gathering_path(one.slug)),
        guests=guest_count(one.guests),
    )


def _entry(context: Context, page: str, one: ComputedRecipe) -> EntryView:
    return EntryView(
        name=one.recipe.name,
        href=paths.relative(page, paths.recipe_path(one.recipe.slug)),
        summary=one.recipe.summary,
        yields=yield_words(context, one),
    )
