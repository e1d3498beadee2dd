"""The three ways into the book besides its chapters: by animal, by ingredient, by tag."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from generator.model.results import ComputedRecipe
from generator.render.context import PLATES, Context, LinkView, term_ids
from generator.render.prose import lines_of


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


def animal_index(context: Context, page: str) -> IndexView:
    """By group and animal: what is made of it, and the dishes it ends up in."""
    own: dict[str, list[str]] = {}
    within: dict[str, list[str]] = {}
    for one in context.published:
        if one.recipe.meat is not None:
            own.setdefault(one.recipe.meat.animal, []).append(one.recipe.slug)
        for animal in context.animals_of(one):
            if one.recipe.slug not in own.get(animal, []):
                within.setdefault(animal, []).append(one.recipe.slug)
    groups: dict[str, list[TermView]] = {}
    ids = term_ids(own.keys() | within.keys())
    for key in own.keys() | within.keys():
        found = context.tables.animal(key)
        assert found is not None, key
        term = TermView(
            word=found.title,
            id=ids[key],
            links=_links(context, page, own.get(key, [])),
            within=_links(context, page, within.get(key, [])),
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


def _group_order(group: str) -> tuple[int, str]:
    """Groups as the drawings are listed, unknown ones last."""
    known = list(PLATES)
    return (known.index(group) if group in known else len(known), group)


def ingredient_index(context: Context, page: str) -> IndexView:
    """By the name on the ingredient line, under its first letter; a plural joins its singular."""
    found: dict[str, list[str]] = {}
    for one in context.published:
        for name in dict.fromkeys(_ingredient_names(one)):
            found.setdefault(name, []).append(one.recipe.slug)
    for name in sorted(found):
        if f"{name}s" in found:
            found[f"{name}s"] += found.pop(name)
    return IndexView(
        title="By ingredient",
        description="Every ingredient in the book and the recipes that take it.",
        empty="No recipe lists an ingredient yet.",
        sections=_by_letter(context, page, found),
    )


def _ingredient_names(one: ComputedRecipe) -> Iterable[str]:
    for line in lines_of(one):
        if line.ingredient.name:
            yield line.ingredient.name.casefold()
    cure = one.recipe.cure
    if cure is not None:
        parts = (("salt", cure.salt), ("sugar", cure.sugar), ("curing salt", cure.curing_salt))
        yield from (name for name, part in parts if part is not None)


def tag_index(context: Context, page: str) -> IndexView:
    """By tag, under its first letter."""
    found: dict[str, list[str]] = {}
    for one in context.published:
        for tag in dict.fromkeys(one.recipe.tags):
            found.setdefault(tag, []).append(one.recipe.slug)
    return IndexView(
        title="By tag",
        description="Every tag in the book and the recipes that carry it.",
        empty="No recipe carries a tag yet.",
        sections=_by_letter(context, page, found),
    )


def _by_letter(context: Context, page: str, found: dict[str, list[str]]) -> tuple[SectionView, ...]:
    ids = term_ids(found)
    letters: dict[str, list[TermView]] = {}
    for word in sorted(found, key=lambda word: (word.casefold(), word)):
        term = TermView(word=word, id=ids[word], links=_links(context, page, found[word]))
        letters.setdefault(word[0].upper(), []).append(term)
    return tuple(SectionView(title=letter, plate="", terms=tuple(terms)) for letter, terms in letters.items())


def _links(context: Context, page: str, slugs: list[str]) -> tuple[LinkView, ...]:
    found = [context.link_to(page, slug) for slug in dict.fromkeys(slugs)]
    return tuple(sorted(found, key=lambda link: (link.text.casefold(), link.href)))
