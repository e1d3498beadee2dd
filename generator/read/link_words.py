"""What a link of the text says and the ids that it may mean in, those that it does mean out: `beans` is dry pinto beans."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable, Sequence

from generator.model.slug import slugify, stream_safe

MOST_IDS = 200
"A text that names more is read by whole ids alone. Source: house; keeps the work in proportion."


def without_accents(id: str) -> str:
    """The id by which two names that differ by accents count as the same: creme-fraiche."""
    if id.isascii():
        return id
    apart = unicodedata.normalize("NFD", stream_safe(id))
    return "".join(sign for sign in apart if not unicodedata.combining(sign))


def meant(written: str, ids: Sequence[str]) -> list[str]:
    """The ids that end in these words, else those that hold them; an s at the end of a word, case and accents aside."""
    words = _words(written)
    if not words or len(ids) > MOST_IDS:
        return []
    split = [(id, _words(id)) for id in ids]
    same = [id for id, of in split if of == words]
    ending = [id for id, of in split if of[-len(words) :] == words]
    return same or ending or [id for id, of in split if _holds(of, words)]


def _words(written: str) -> list[str]:
    return [_singular(word) for word in without_accents(slugify(written)).split("-") if word]


def _singular(word: str) -> str:
    return word[:-1] if len(word) > 3 and word.endswith("s") and not word.endswith("ss") else word


def _holds(of: Sequence[str], words: Sequence[str]) -> bool:
    return any(of[at : at + len(words)] == words for at in range(len(of) - len(words) + 1))


def stage_ids(names: Iterable[tuple[str, str]]) -> dict[str, tuple[int, ...]]:
    """The numbers of the stages, from 0, by their name and by what the recipe calls them; of two also `simmer-2`."""
    numbers: dict[str, list[int]] = {}
    for number, both in enumerate(names):
        for id in dict.fromkeys(slugify(name) for name in both if name):
            numbers.setdefault(id, []).append(number)
    several = {
        f"{id}-{place}": (number,)
        for id, found in numbers.items()
        if len(found) > 1
        for place, number in enumerate(found, 1)
    }
    return {id: tuple(found) for id, found in numbers.items()} | several
