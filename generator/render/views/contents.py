"""The front page, the pages of chapters and the plain pages: what the book holds, and prose under a name."""

from __future__ import annotations

from dataclasses import dataclass

from markupsafe import Markup

from generator.model.recipe import PlainPage, Recipe
from generator.render import paths
from generator.render.context import Context, LinkView
from generator.render.plans import guest_count, plan_clock
from generator.render.prose import Prose
from generator.render.yields import yield_words

NO_CHAPTER = "Other recipes"
"Heading of the recipes that name no chapter."


@dataclass(frozen=True, slots=True, kw_only=True)
class EntryView:
    """A recipe in a list."""

    recipe: Recipe
    href: str
    yields: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ChapterView:
    """One chapter, on its page and on the front page."""

    title: str
    href: str
    "Empty for recipes without a chapter."
    plate: str
    recipes: tuple[EntryView, ...]

    @property
    def description(self) -> str:
        """Its recipes by name."""
        return f"{self.title}: {', '.join(one.recipe.name for one in self.recipes)}."


@dataclass(frozen=True, slots=True, kw_only=True)
class FrontView:
    """The front page: the book's contents."""

    title: str
    description: str
    family: str
    chapters: tuple[ChapterView, ...]
    gatherings: tuple[LinkView, ...]
    "By date."
    pages: tuple[LinkView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PlainView:
    """One plain page."""

    title: str
    description: str
    summary: str
    body: Markup


def front_view(context: Context) -> FrontView:
    """Every chapter in the order of the book, then the gatherings and the plain pages."""
    config = context.config
    loose = ("",) if context.in_chapter("") else ()
    pages = sorted(context.computed.book.pages, key=lambda one: (one.name.casefold(), one.slug))
    return FrontView(
        title=config.title,
        description=f"{config.title}. {config.family}".rstrip(". ") + ".",
        family=config.family,
        chapters=tuple(chapter_view(context, chapter) for chapter in (*context.chapters, *loose)),
        gatherings=_gatherings(context),
        pages=tuple(
            LinkView(text=one.name, href=context.href(paths.plain_path(one.slug)), note=one.summary)
            for one in pages
        ),
    )


def _gatherings(context: Context) -> tuple[LinkView, ...]:
    """Each with its date and its guests."""
    return tuple(
        LinkView(
            text=one.name,
            href=context.href(paths.gathering_path(one.slug)),
            note=f"{plan_clock(plan).date(one.serve_at)}, {guest_count(one.guests)}",
        )
        for plan in context.plans
        for one in (plan.invited.gathering,)
    )


def chapter_view(context: Context, chapter: str) -> ChapterView:
    """The recipes of a chapter, or those of none, by name."""
    recipes = context.in_chapter(chapter)
    entries = (
        EntryView(
            recipe=one.recipe,
            href=context.href(paths.recipe_path(one.recipe.slug)),
            yields=yield_words(context.amounts, one),
        )
        for one in recipes
    )
    return ChapterView(
        title=chapter or NO_CHAPTER,
        href=context.href(paths.chapter_path(context.chapters[chapter])) if chapter else "",
        plate=context.plate_for(recipes),
        recipes=tuple(entries),
    )


def plain_view(context: Context, plain: PlainPage) -> PlainView:
    """The page's prose; its headings come below the page's own."""
    return PlainView(
        title=plain.name,
        description=plain.summary or plain.name,
        summary=plain.summary,
        body=Prose(context=context, file=plain.file).html(plain.body.text),
    )
