"""The name of an ingredient or a dish in, the animals whose meat it speaks of out, by the names of names.csv."""

from __future__ import annotations

import re
from collections.abc import Sequence

from generator.compute.safety.facts.names import find_names, stems_in
from generator.english import is_turned_down
from generator.model.published import Animal
from generator.model.recipe import Recipe
from generator.tables import Tables
from generator.tables.names import Found

FATS = frozenset({"fat", "lard", "tallow", "suet", "schmaltz", "dripping", "drippings", "oil"})
BOILED_OUT = frozenset({"stock", "broth", "bouillon", "gelatin", "gelatine", "sauce", "juice"})
BESIDES = frozenset({"egg", "eggs", "feather", "feathers", "casing", "casings"})
PLANTS = frozenset(
    {"mushroom", "mushrooms", "fungus", "woods", "grape", "grapes", "berry", "berries", "lettuce", "garlic"}
)
NOT_MEAT = FATS | BOILED_OUT | BESIDES | PLANTS
"Words that turn the name of an animal into something that is not a piece of its meat."

BEGINS_A_PHRASE = frozenset({"with", "for", "in", "from"})
"Words behind which a name speaks of something besides."

_COMPOUND = re.compile(r"\b(?:low|non|reduced)-fat\b|\bfat-free\b|\bcasing-on\b")
"Compounds of which the animal's word is no part."
_WORD = re.compile(r"[^\s–-]+")
STRICTEST = (
    *("bear", "carnivore", "wild pig", "waterfowl", "upland bird", "small game", "other game", "deer family"),
    *("reptile", "poultry", "domestic", "shellfish", "fish"),
)
"Of several animals in one name the first of these is judged."


def animal_in(name: str, tables: Tables, *, company: str = "") -> Animal | None:
    """The animal whose meat an ingredient's name speaks of, of several the one that is judged most strictly.

    `duck fat` and `venison stock` are no meat of theirs, `low-fat elk mince` and `venison with pork fat` are: a word
    that says so counts only right behind the animal, or as the last word before `with`, `for` or `in`. What stands
    before an `and` is meat of its own in `bear and mushrooms`, and may not be in `duck and goose fat`.
    """
    return _strictest(animals_in(name, tables, company=company))


def animals_in(name: str, tables: Tables, *, company: str = "") -> tuple[Animal, ...]:
    """Every animal of a table whose meat a name speaks of."""
    return tuple(
        dict.fromkeys(animal for one in found_in(name, tables, company) for animal in meant(one, tables))
    )


def found_in(name: str, tables: Tables, company: str = "") -> tuple[Found, ...]:
    """Names of animals in the name of an ingredient that are meat there."""
    # As long as before, so that every word keeps its place.
    text = _COMPOUND.sub(lambda one: " " * len(one.group()), name)
    names = find_names(tables.lexicon, text, company)
    animals = [one for one in names if one.kind == "animal"]
    if not animals:
        return ()
    words = [(one.group().lower().strip(",.()"), one.start()) for one in _WORD.finditer(text)]
    plants = [one for one in names if one.kind in ("plant", "fungus") and " " in one.name]
    words = [word for word in words if not any(one.start <= word[1] < one.end for one in plants)]
    head = next((words[:at] for at, (word, _) in enumerate(words) if word in BEGINS_A_PHRASE and at), words)
    if head and head[-1][0] in NOT_MEAT:
        head = [*_before_and(head, tables)]
    return tuple(one for one in animals if _is_meat(one, head))


def _is_meat(one: Found, head: Sequence[tuple[str, int]]) -> bool:
    """It stands in the head of the name, and what follows makes it nothing else."""
    if not any(start == one.start or one.start < start < one.end for _, start in head):
        return False
    behind = next((word for word, start in head if start >= one.end), "")
    return behind not in NOT_MEAT


def _before_and(head: Sequence[tuple[str, int]], tables: Tables) -> Sequence[tuple[str, int]]:
    """The words before the last `and` that are meat, whatever is no meat behind it; none where they may share it."""
    end = len(head)
    for at in (at for at in range(len(head) - 1, 0, -1) if head[at][0] == "and"):
        last = head[at - 1][0]
        if last != "meat" and _speaks_of_animal(head[at + 1 : end], tables):
            return ()
        if last not in NOT_MEAT:
            return head[:at]
        end = at
    return ()


def _speaks_of_animal(words: Sequence[tuple[str, int]], tables: Tables) -> bool:
    """By a word of its own: `goose eggs` are food, and still of the goose."""
    found = (one for word, _ in words for one in find_names(tables.lexicon, word))
    return any(one.kind == "animal" for one in found)


def meant(found: Found, tables: Tables) -> tuple[Animal, ...]:
    """The animals of a name; none for one of no table."""
    known = tuple(animal for key in found.means if (animal := tables.animals_by_key.get(key)) is not None)
    return tuple(animal for animal in known if animal.key == found.name) or known


def _strictest(animals: Sequence[Animal]) -> Animal | None:
    return min(animals, key=lambda animal: STRICTEST.index(animal.group), default=None)


def is_bare_cut(name: str, tables: Tables) -> bool:
    """True for `steaks` and `stew meat`: a cut, and no animal."""
    words, sets = frozenset(stems_in(name)), tables.lexicon.sets
    return bool(words & sets["bare cut"]) and words <= sets["bare cut"] | sets["bare word"]


def animal_called(recipe: Recipe, tables: Tables) -> tuple[Animal | None, str]:
    """The animal that a recipe speaks of outside of its lines, and the words that do; the title's before a sentence's."""
    for text in (recipe.name, recipe.summary, *recipe.tags):
        animal = animal_in(text, tables)
        if animal is not None:
            return animal, text
    for sentence in recipe.body.sentences:
        for one in () if sentence.is_quoted else find_names(tables.lexicon, sentence.text, whole=False):
            animal = _strictest(meant(one, tables)) if one.kind == "animal" else None
            if animal is not None and not is_turned_down(sentence.text, one.start, one.end, is_name=True):
                return animal, sentence.text[one.start : one.end]
    return None, ""
