"""Computed recipes in; how much of them could be judged, for whoever checks a book, out."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from generator.model.results import ComputedRecipe, JudgedText
from generator.tables import Tables
from generator.tables.stems import stem


def judged_lines(
    recipes: Sequence[ComputedRecipe],
    texts: Sequence[JudgedText],
    tables: Tables,
    *,
    is_read: bool,
    listed: bool,
) -> Iterator[str]:
    """Names that are known and not known, with their places where they are listed, and the sentences that were read."""
    lines = [
        line for one in recipes for line in one.recipe.ingredients if line.link is None and not line.is_water
    ]
    foods = _foods(tables)
    unknown = [line for line in lines if not is_known(line.name, tables, foods)]
    for line in unknown if listed else ():
        place = line.position
        where = f"{place.file}:{place.line}:{place.column}"
        yield f"{where}: '{line.name}' is a name that is not known, so nothing is judged by it."
    bodies = (*(one.recipe.body for one in recipes), *(one.gathering.body for one in texts))
    sentences = sum(len(body.sentences) for body in bodies) if is_read else 0
    yield (
        f"Of {len(lines)} names of ingredients {len(unknown)} {'is' if len(unknown) == 1 else 'are'} not known"
        f"{'' if listed or not unknown else ' (--cautions lists them)'}; {sentences} sentences were read. "
        "Pages and makings are never read."
    )


def is_known(name: str, tables: Tables, foods: Collection[str]) -> bool:
    """Something is known of it: an animal, plant, fungus or food, a salt, a weight, or a word by which a rule looks."""
    words, garden = name.lower(), tables.garden
    return (
        bool(tables.lexicon.find(words, whole=True) or tables.nitrite_names.all_in(words))
        or tables.is_bare_salt(words)
        or any(one.first_in(words) for one in garden.words.values())
        or bool(garden.blanched(words) or garden.allergens_in(words))
        or (bool(words.split()) and _last(words) in foods)
    )


def _foods(tables: Tables) -> frozenset[str]:
    """The last words of foods with a weight: green onions are onions."""
    pieces = (food for food, _ in tables.piece_names)
    return frozenset(map(_last, (*tables.food_names, *tables.produce, *pieces)))


def _last(name: str) -> str:
    return stem(name.split()[-1])
