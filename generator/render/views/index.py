"""The three ways into the book besides its chapters: by animal, by ingredient, by tag."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from generator.model.moment import MONTH_NAMES
from generator.model.results import ComputedRecipe
from generator.render.context import PLATES, Context, LinkView, term_ids


@dataclass(frozen=True, slots=True, kw_only=True)
class TermView:
    """One word of an index, the recipes that have it, and the dishes that get it through another recipe."""

    word: str
    id: str
    links: tuple[LinkView, ...]
    within: tuple[LinkView, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionView:
    """The words under one heading."""

    title: str
    plate: str
    terms: tuple[TermView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class IndexView:
    """One index."""

    title: str
    description: str
    empty: str
    "What to say where nothing is listed."
    sections: tuple[SectionView, ...]


def animal_index(context: Context) -> IndexView:
    """By group and animal: what is made of it, and the dishes it ends up in."""
    own = _by_word(context, lambda one: dict.fromkeys(meat.animal for meat in one.recipe.meats))
    all_of_it = _by_word(context, context.animals_of)
    ids = term_ids(all_of_it)
    groups: dict[str, list[TermView]] = {}
    for key, slugs in all_of_it.items():
        found = context.tables.animal(key)
        assert found is not None, key
        made = own.get(key, [])
        within = [slug for slug in slugs if slug not in made]
        term = TermView(
            word=found.title, id=ids[key], links=_links(context, made), within=_links(context, within)
        )
        groups.setdefault(found.group, []).append(term)
    return IndexView(
        title="By animal",
        description="Every animal in the book, what is made of it, and the dishes it ends up in.",
        empty="No recipe names an animal yet.",
        sections=tuple(
            SectionView(
                title=group.capitalize(),
                plate=context.plate(PLATES.get(group, "")),
                terms=tuple(sorted(groups[group], key=lambda term: term.word.casefold())),
            )
            for group in sorted(groups, key=_group_order)
        ),
    )


def _by_word(context: Context, words_of: Callable[[ComputedRecipe], Iterable[str]]) -> dict[str, list[str]]:
    """By each word of an index, the slugs of the recipes that have it."""
    found: dict[str, list[str]] = {}
    for one in context.published:
        for word in dict.fromkeys(words_of(one)):
            found.setdefault(word, []).append(one.recipe.slug)
    return found


def _group_order(group: str) -> tuple[int, str]:
    """Groups as the drawings are listed, unknown ones last."""
    known = list(PLATES)
    return (known.index(group) if group in known else len(known), group)


def ingredient_index(context: Context) -> IndexView:
    """By the name on the ingredient line, under its first letter; a plural joins its singular."""
    found = _by_word(context, _ingredient_names)
    for name in sorted(found):
        if f"{name}s" in found:
            found[f"{name}s"] += found.pop(name)
    return IndexView(
        title="By ingredient",
        description="Every ingredient in the book and the recipes that take it.",
        empty="No recipe lists an ingredient yet.",
        sections=_by_letter(context, found),
    )


def _ingredient_names(one: ComputedRecipe) -> Iterable[str]:
    yield from (line.ingredient.name.casefold() for line in one.all_lines if line.ingredient.name)
    cure = one.recipe.cure
    if cure is not None:
        parts = (("salt", cure.salt), ("sugar", cure.sugar), ("curing salt", cure.curing_salt))
        yield from (name for name, part in parts if part is not None)


def tag_index(context: Context) -> IndexView:
    """By tag, under its first letter; then by season, and by whose recipe it is, where recipes say so."""
    return IndexView(
        title="By tag",
        description="Every tag in the book and the recipes that carry it.",
        empty="No recipe carries a tag yet.",
        sections=(
            *_by_letter(context, _by_word(context, lambda one: one.recipe.tags)),
            *_section("By season", tuple(_seasons(context))),
            *_section("From", tuple(_origins(context))),
        ),
    )


def _section(title: str, terms: tuple[TermView, ...]) -> tuple[SectionView, ...]:
    return (SectionView(title=title, plate="", terms=terms),) if terms else ()


def _seasons(context: Context) -> Iterator[TermView]:
    """The months, from January on."""
    found = _by_word(context, lambda one: [MONTH_NAMES[month - 1] for month in one.recipe.season])
    for month in MONTH_NAMES:
        if month in found:
            yield TermView(word=month, id=f"season-{month.lower()}", links=_links(context, found[month]))


def _origins(context: Context) -> Iterator[TermView]:
    found = _by_word(context, lambda one: [one.recipe.origin] if one.recipe.origin else [])
    for word in sorted(found, key=lambda word: (word.casefold(), word)):
        yield TermView(word=word, id=context.origins[word], links=_links(context, found[word]))


def _by_letter(context: Context, found: dict[str, list[str]]) -> tuple[SectionView, ...]:
    ids = term_ids(found)
    letters: dict[str, list[TermView]] = {}
    for word in sorted(found, key=lambda word: (word.casefold(), word)):
        term = TermView(word=word, id=ids[word], links=_links(context, found[word]))
        letters.setdefault(word[0].upper(), []).append(term)
    return tuple(SectionView(title=letter, plate="", terms=tuple(terms)) for letter, terms in letters.items())


def _links(context: Context, slugs: list[str]) -> tuple[LinkView, ...]:
    found = [context.link_to(slug) for slug in dict.fromkeys(slugs)]
    return tuple(sorted(found, key=lambda link: (link.text.casefold(), link.href)))
