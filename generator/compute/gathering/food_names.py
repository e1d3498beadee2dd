"""The name of an ingredient in, the food that it is out, so that one onion and two chopped onions are three."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction

from generator.compute.safety.facts.gather import animal_in
from generator.compute.weight.measures import SIZES
from generator.tables import Tables

CUT = frozenset({"chopped", "sliced", "diced", "cubed", "grated", "shredded"})
"Words before a name that say how it is cut, which nobody buys by. Source: words of the trade."
SAME_CUT = {"trimming": "trim"}
"Source: words of the trade."
OES = frozenset({"potato", "tomato", "mango"})
"Source: English spelling."
LEAVES = {"leaves": "leaf", "loaves": "loaf", "halves": "half"}
"Source: English spelling."


def food_of(name: str, tables: Tables) -> str:
    """The food that a name is bought as: preparation and number left out, never a near name."""
    words = _without_size(without_cut(name)).lower()
    meat = meat_of(words, tables)
    if meat:
        return meat
    refuse = tables.refuse_of(words)
    if refuse is not None:
        return refuse.food
    for size in ("", *SIZES):
        piece = tables.piece(words, size)
        if piece is not None:
            return piece.food
    rows = tables.food(words)
    return rows[0].food if rows else singular(words)


def meat_of(name: str, tables: Tables) -> str:
    """The meat of an animal by whichever of its names: venison trim is deer trim; empty for what is no meat."""
    animal = animal_in(name, tables)
    if animal is None:
        return ""
    words = f" {' '.join(re.sub('[-–]', ' ', name.lower()).split())} "
    spelled = (
        f" {spelling.replace('-', ' ')} "
        for spelling in tables.animal_spellings
        if tables.animal(spelling) == animal
    )
    called = next((one for one in spelled if one in words), "")
    cut = [singular(word) for word in words.replace(called, " ", 1).split()]
    return " ".join((animal.key, *(SAME_CUT.get(word, word) for word in cut if word != "meat")))


def without_cut(name: str) -> str:
    """Chopped onion is bought as onion; minced meat and crushed red pepper are bought as they are."""
    words = name.split()
    plain = words[1:] if len(words) == 2 and words[0].lower() in CUT else words
    return " ".join(plain)


def _size(name: str) -> str:
    return name[: len(name) - len(_without_size(name))].lower()


def _without_size(name: str) -> str:
    first, _, rest = name.partition(" ")
    return rest if rest and first.lower() in SIZES else name


def singular(name: str) -> str:
    """The last word of a name in the singular, as English mostly has it."""
    head, _, last = name.rpartition(" ")
    return f"{head} {_one(last)}".strip()


def _one(word: str) -> str:
    if word in LEAVES:
        return LEAVES[word]
    if word.endswith("ies") and len(word) > 4:
        return f"{word[:-3]}y"
    if word.endswith(("sses", "shes", "ches", "xes")) or (word.endswith("oes") and word[:-2] in OES):
        return word[:-2]
    return word[:-1] if word.endswith("s") and not word.endswith(("ss", "us", "is")) else word


def plural(name: str) -> str:
    """The last word of a name in the plural."""
    head, _, last = name.rpartition(" ")
    return f"{head} {_many(last)}".strip()


def _many(word: str) -> str:
    for many, one in LEAVES.items():
        if word == one:
            return many
    if _one(word) != word:
        return word
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return f"{word[:-1]}ies"
    return f"{word}es" if word.endswith(("s", "sh", "ch", "x")) or word in OES else f"{word}s"


def name_for(written: Iterable[str], *, count: Fraction | None) -> str:
    """One of the names as written: where things are counted, in the number that they have; a size where all have it."""
    found = {without_cut(name) for name in written}
    if len({_size(name) for name in found}) > 1:
        found = {_without_size(name) for name in found}
    names = sorted(found, key=lambda name: (-len(name), name.lower()))
    plurals = [name for name in names if singular(name.lower()) != name.lower()]
    singles = [name for name in names if name not in plurals]
    if count is None:
        return (plurals or names)[0]
    if count > 1:
        return plurals[0] if plurals else plural(names[0])
    return singles[0] if singles else singular(names[0])
