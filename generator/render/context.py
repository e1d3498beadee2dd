"""What every view needs: the computed book, the published tables, the theme, which files have a page, and its own place."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType

from generator.markdown import find_headings
from generator.model.book import BookConfig
from generator.model.plan import Plan
from generator.model.published import Source
from generator.model.results import ComputedBook, ComputedRecipe
from generator.model.shown import Shower
from generator.render import paths
from generator.render.amounts import Amounts
from generator.render.theme import Theme
from generator.tables import Tables

TAKEN = frozenset({"main"})
"Ids of every page's frame."

OWN_WEIGHING = Source(
    key="own-weighing",
    citation="Weighed in this house",
    certainty="common practice",
    note="The book's own scale, taken before published weights.",
)
"The source of a weight per measure that book.yaml gives."

OWN_LABEL = Source(
    key="own-label",
    citation="The label of the curing salt in this house",
    certainty="common practice",
    note="As book.yaml gives it; nobody else has looked at it.",
)
"The source of a curing salt that book.yaml gives."

CERTAINTY = {
    "seen": "Read in the publication itself.",
    "second-hand": "Second-hand: known only as others quote it.",
    "from memory": "From memory: not looked up again.",
    "common practice": "Common practice: no publication stands behind it.",
    "house choice": "Decided for this book.",
}
"How sure a source is, in words."

OF_THE_HOUSE = {source.key: source for source in (OWN_WEIGHING, OWN_LABEL)}
"What no table knows, because the book says it itself."


@dataclass(frozen=True, slots=True, kw_only=True)
class LinkView:
    """A word that may lead somewhere; without href it is only a word."""

    text: str
    href: str = ""
    note: str = ""
    "Printed behind it, quietly."


@dataclass(frozen=True, slots=True, kw_only=True)
class Context:
    """The material of one site, seen from one of its pages: links lead from there."""

    path: str = paths.FRONT
    "Of the page, within the site."
    computed: ComputedBook
    tables: Tables
    theme: Theme
    amounts: Amounts
    published: tuple[ComputedRecipe, ...]
    "Recipes that have a page, by name."
    bodies: dict[str, str]
    "Text of each source file that is published."
    files: dict[str, str]
    "Path of the site for each source file that has a page."
    chapters: dict[str, str]
    "Slug of each chapter that has a published recipe, in the order of the book."
    tags: dict[str, str]
    "The fragment of each tag in the index of tags."
    origins: dict[str, str]
    "The same of whose recipe it is, as written."
    plans: tuple[Plan, ...] = ()
    "Of the gatherings that have a page, by date."
    ways: Mapping[str, str]
    "The links into the book at the head of every page: their words, with the path of the site."
    foot: Mapping[str, str]
    "Those at the foot of every page."
    is_sheet: bool = False
    "One page alone: nothing around it that it could lead to."

    @property
    def config(self) -> BookConfig:
        """What `book.yaml` says."""
        return self.computed.book.config

    def in_chapter(self, chapter: str) -> tuple[ComputedRecipe, ...]:
        """The published recipes of one chapter, by name."""
        return tuple(one for one in self.published if one.recipe.chapter == chapter)

    def at(self, path: str) -> Context:
        """The same site, seen from another page."""
        return replace(self, path=path)

    def href(self, target: str) -> str:
        """The link from this page to a path of the site; nothing where a page stands alone."""
        return "" if self.is_sheet else paths.relative(self.path, target)

    def anchors(self, file: str) -> frozenset[str]:
        """Ids of the headings in the body of a source file."""
        headings = find_headings(self.bodies.get(file, ""), taken=TAKEN)
        return frozenset(heading.id for heading in headings)

    def link_to(self, slug: str) -> LinkView:
        """A recipe's name, leading to its page where it has one."""
        recipe = self.computed.book.recipes[slug]
        path = self.files.get(recipe.file)
        return LinkView(text=recipe.name, href=self.href(path) if path else "")

    def links_to(self, slugs: Iterable[str]) -> tuple[LinkView, ...]:
        """The same for several recipes, in their order."""
        return tuple(map(self.link_to, slugs))

    def source(self, key: str) -> Source:
        """The publication behind a key. A key that no table knows is a bug and raises KeyError."""
        return OF_THE_HOUSE[key] if key in OF_THE_HOUSE else self.tables.sources[key]

    def source_link(self, key: str, place: str = "") -> LinkView:
        """A publication, leading to its entry on the page of sources; the place in it is its note."""
        href = self.href(f"{paths.SOURCES}#{source_id(key)}")
        return LinkView(text=self.source(key).citation, href=href, note=place)

    def source_links(self, keys: Iterable[str]) -> tuple[LinkView, ...]:
        """The same for several publications, in their order."""
        return tuple(map(self.source_link, keys))

    def how_sure(self, key: str) -> str:
        """A publication's certainty, in words."""
        certainty = self.source(key).certainty
        return CERTAINTY.get(certainty, certainty.capitalize())

    def rule_href(self, slug: str) -> str:
        """The link to a rule's line on the page of rules."""
        return self.href(f"{paths.RULES}#{rule_id(slug)}")

    def plate_for(self, recipes: tuple[ComputedRecipe, ...]) -> str:
        """The drawing for some recipes: that of the commonest animal group among them, else the sprig."""
        counts: dict[str, int] = {}
        for one in recipes:
            for animal in self.animals_of(one)[:1]:
                plate = PLATES.get(self.animal_group(animal), "")
                counts[plate] = counts.get(plate, 0) + 1
        best = max(sorted(counts), key=lambda plate: counts[plate], default="")
        return self.plate(best)

    def animals_of(self, one: ComputedRecipe) -> tuple[str, ...]:
        """The animals of a recipe, then those that come in by way of what it uses, each once."""
        recipes = self.computed.book.recipes
        meats = (*one.recipe.meats, *(meat for need in one.needs for meat in recipes[need.recipe].meats))
        return tuple(dict.fromkeys(meat.animal for meat in meats))

    def plate(self, name: str) -> str:
        """The drawing of that name if the theme has it, else its sprig, else none."""
        return next((plate for plate in (name, "sprig") if plate in self.theme.plates), "")

    def animal_group(self, key: str) -> str:
        """The group of an animal: deer family, fish."""
        animal = self.tables.animal(key)
        return animal.group if animal else ""


PLATES = {
    "deer family": "deer",
    "other game": "deer",
    "wild pig": "pig",
    "bear": "bear",
    "small game": "hare",
    "waterfowl": "waterfowl",
    "upland bird": "bird",
    "poultry": "bird",
    "fish": "fish",
    "shellfish": "shell",
    "domestic": "hoof",
}
"The drawing of each animal group: its track where it leaves one."


def at_gathering(context: Context, plan: Plan) -> Context:
    """The same site as seen from one gathering: what is made for it leads to its card, at its scale."""
    if context.is_sheet:
        return context
    slug = plan.invited.gathering.slug
    cards = {making.recipe.recipe.file: paths.card_path(slug, making.slug) for making in plan.makings}
    return replace(
        context, files=context.files | {file: path for file, path in cards.items() if file in context.files}
    )


def term_ids(words: Iterable[str]) -> dict[str, str]:
    """The fragment of each word of an index, no two the same."""
    slugs = paths.slugs_of(tuple(sorted(set(words))))
    return {word: f"term-{slug}" for word, slug in slugs.items()}


def origin_ids(words: Iterable[str]) -> dict[str, str]:
    """The fragment of each person or year of an index; none is that of a term."""
    slugs = paths.slugs_of(tuple(sorted(set(words))))
    return {word: f"from-{slug}" for word, slug in slugs.items()}


def source_id(key: str) -> str:
    """The fragment of a source's entry."""
    return f"source-{paths.slug_of(key)}"


def rule_id(slug: str) -> str:
    """The fragment of a rule's line on the page of rules."""
    return f"rule-{paths.slug_of(slug)}"


NO_WAYS: Mapping[str, str] = MappingProxyType({})


def make_context(
    computed: ComputedBook,
    *,
    tables: Tables,
    theme: Theme,
    plans: tuple[Plan, ...] = (),
    ways: Mapping[str, str] = NO_WAYS,
    foot: Mapping[str, str] = NO_WAYS,
    sheet_units: str | None = None,
) -> Context:
    """Everything that is the same for all pages of a site, or for one sheet shown in some system of units."""
    book = computed.book
    kept = (one for one in computed.recipes.values() if not one.recipe.draft)
    published = tuple(sorted(kept, key=lambda one: (one.recipe.name.casefold(), one.recipe.slug)))
    recipes = [one.recipe for one in published]
    used = {recipe.chapter for recipe in recipes if recipe.chapter}
    chapters = tuple(dict.fromkeys((*(c for c in book.config.chapters if c in used), *sorted(used))))
    files = {recipe.file: paths.recipe_path(recipe.slug) for recipe in recipes}
    files |= {page.file: paths.plain_path(page.slug) for page in book.pages}
    shown = tuple(plan for plan in plans if not plan.invited.gathering.draft)
    gatherings = [plan.invited.gathering for plan in shown]
    files |= {one.file: paths.gathering_path(one.slug) for one in gatherings}
    shower = Shower(tables.rounding, tables.units)
    return Context(
        computed=computed,
        tables=tables,
        theme=theme,
        amounts=Amounts(shower, sheet_units or book.config.units),
        published=published,
        bodies={one.file: one.body.text for one in recipes}
        | {page.file: page.body.text for page in book.pages}
        | {one.file: one.body.text for one in gatherings},
        files={} if sheet_units else files,
        chapters=paths.slugs_of(chapters),
        tags=term_ids(tag for recipe in recipes for tag in recipe.tags),
        origins=origin_ids(recipe.origin for recipe in recipes if recipe.origin),
        plans=shown,
        ways=ways,
        foot=foot,
        is_sheet=sheet_units is not None,
    )
