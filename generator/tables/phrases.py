"""Phrases of the trade in, patterns out: the one notation in which tables say what a sentence must hold.

    [leave] … (out|on the [warm place]) … overnight

Words stand as they are compared: lower case, a hyphen is a space. `(a|b c)` is one of several, behind it `?` that it may
be missing; `[leave]` is any word of a row of word_classes.csv; `…` is up to six words within a clause; `#` a number.
A text is looked at once: a phrase is tried only where a text holds a word of each of its parts, and no part repeats
without end, so that the work grows with the text.
"""

from __future__ import annotations

import re
from bisect import bisect_right
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from typing import Generic, TypeVar

from generator.model.published import Sourced
from generator.tables.csvfile import Shelf, Wrong

T = TypeVar("T")

BREAK = "|"
"Stands between two clauses; no gap reaches over it."
BREAKS = frozenset({";", ":", "(", ")", "—", ".", "!", "?", "then", "but"})
GAP, NUMBER = "…", "#"
MOST = 7
"Words and commas in a gap: six words, and a comma between. Source: house choice."
NUMBERS = (
    *("a", "an", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("twelve", "half", "half an", "few", "couple", "several", "a few", "a couple of", "a half", "½"),
)
_WORD = re.compile(r"[^\W_]+(?:['’][^\W_]+)*|[,;:()—.!?]|(?<=\s)–(?=\s)")
_PART = re.compile(r"\(([^()]*)\)(\??)|\[([a-z ]+)\](\??)|(…)|([^\s()\[\]?…]+)(\??)")
_NO = "(?:not|never|cannot|instead|rather|(?:do|does|is|are|wo|ca|should|must)n't) "
"Words that no gap reaches over: what stands behind them is turned down."
_SINGULAR_S = ("ss", "us", "is")


@dataclass(frozen=True, slots=True, kw_only=True)
class WordClass(Sourced):
    """Words that stand for each other in a phrase."""

    name: str
    words: tuple[str, ...]
    plural: bool
    "Each word is also read as several of it."


@dataclass(frozen=True, slots=True)
class Spoken:
    """A text as phrases see it: its words in a row, a bar between clauses, and where each stood."""

    text: str
    joined: str
    begins: tuple[int, ...]
    "Offset of each word in `joined`."
    places: tuple[tuple[int, int], ...]
    "Begin and end of each word in the text."
    words: frozenset[str]

    def span(self, start: int, end: int) -> tuple[int, int]:
        """The part of the text behind a part of `joined`."""
        first, last = bisect_right(self.begins, start) - 1, bisect_right(self.begins, end - 1) - 1
        return self.places[max(first, 0)][0], self.places[max(last, 0)][1]


def spoken(text: str) -> Spoken:
    """A text in the form of phrases."""
    words, places, begins, offset = [], [], [], 1
    for one in _WORD.finditer(text):
        word = one.group().lower().replace("’", "'")
        word = BREAK if word in BREAKS or word == "–" else word
        words.append(word)
        places.append(one.span())
        begins.append(offset)
        offset += len(word) + 1
    return Spoken(text, f" {' '.join(words)} ", tuple(begins), tuple(places), frozenset(words))


@dataclass(frozen=True, slots=True)
class _Part:
    """One part of a phrase: its alternatives, each of words; none at all is a gap."""

    ways: tuple[tuple[str, ...], ...]
    may_lack: bool = False

    @property
    def pattern(self) -> str:
        if not self.ways:
            return rf"(?:(?!{_NO})[^| ]+ ){{0,{MOST}}}?"
        ways = "|".join(" (?:, )?".join(map(_word_pattern, way)) for way in self.ways)
        return f"(?:(?:{ways}) (?:, )?)" + ("?" if self.may_lack else "")

    @property
    def needs(self) -> frozenset[str] | None:
        """A text that has none of these words does not have the part; None where that cannot be said."""
        plain = [next((word for word in way if word != NUMBER), None) for way in self.ways]
        if self.may_lack or not plain or None in plain:
            return None
        return frozenset(word for word in plain if word is not None)


def _word_pattern(word: str) -> str:
    if word != NUMBER:
        return re.escape(word)
    return rf"(?:\d+(?: \d+)?|{'|'.join(sorted(NUMBERS, key=len, reverse=True))})"


@dataclass(frozen=True)
class Phrase:
    """One phrase, made into a pattern where a text first holds its words."""

    written: str
    parts: tuple[_Part, ...]

    @cached_property
    def needs(self) -> tuple[frozenset[str], ...]:
        """Words of which a text holds at least one of each set; the fewest first."""
        found = [part.needs for part in self.parts]
        return tuple(sorted((one for one in found if one is not None), key=len))

    @cached_property
    def pattern(self) -> re.Pattern[str]:
        """Over `Spoken.joined`."""
        return re.compile("(?<= )" + "".join(part.pattern for part in self.parts))

    def find(self, heard: Spoken) -> Iterator[tuple[int, int]]:
        """Begin and end in the text of each place where it stands."""
        if all(not need.isdisjoint(heard.words) for need in self.needs):
            for one in self.pattern.finditer(heard.joined):
                yield heard.span(one.start(), len(one.group().rstrip(" ,")) + one.start())

    def stands_in(self, heard: Spoken) -> bool:
        """True where it stands anywhere."""
        return next(self.find(heard), None) is not None


@dataclass(frozen=True)
class Notation:
    """The classes that phrases name."""

    classes: Mapping[str, WordClass]
    known: dict[str, tuple[tuple[str, ...], ...]] = field(default_factory=dict, compare=False)

    def phrase(self, written: str) -> Phrase:
        """A phrase as a row has it; Wrong for one that cannot be read or would match every text."""
        parts, end = [], 0
        for found in _PART.finditer(written):
            if written[end : found.start()].strip():
                raise Wrong(f"'{written}' is no phrase near '{written[end:]}'")
            parts.append(self._part(found))
            end = found.end()
        if written[end:].strip():
            raise Wrong(f"'{written}' is no phrase near '{written[end:]}'")
        phrase = Phrase(written, tuple(parts))
        if not phrase.needs:
            raise Wrong(f"'{written}' holds no word that must be there")
        return phrase

    def _part(self, found: re.Match[str]) -> _Part:
        several, lacks, name, lacks_name, gap, word, lacks_word = found.groups()
        may_lack = bool(lacks or lacks_name or lacks_word)
        if gap:
            return _Part(())
        if name:
            return _Part(self.ways(name), may_lack)
        ways = [one.strip() for one in (several if several is not None else word).split("|")]
        return _Part(tuple(way for one in ways for way in self._way(one)), may_lack)

    def _way(self, one: str) -> Iterator[tuple[str, ...]]:
        """An alternative of words; a class in it stands for each of its words."""
        head, bracket, rest = one.partition("[")
        if not bracket:
            yield tuple(one.split())
            return
        name, _, tail = rest.partition("]")
        for way in self.ways(name):
            yield (*head.split(), *way, *tail.split())

    def ways(self, name: str) -> tuple[tuple[str, ...], ...]:
        """Every word of a class, the longest first."""
        if name not in self.known:
            row = self.classes.get(name)
            if row is None:
                raise Wrong(f"unknown class of words '{name}'")
            words = {form for word in row.words for form in (word, *([several(word)] if row.plural else []))}
            longest = sorted(words, key=lambda word: (-len(word), word))
            self.known[name] = tuple(tuple(word.split()) for word in longest)
        return self.known[name]


def several(word: str) -> str:
    """More than one of a thing, by the plain rule; what has another plural stands in its row as a word of its own."""
    if word.endswith("y") and word[-2:-1] not in "aeiou":
        return f"{word[:-1]}ies"
    if word.endswith(("ch", "sh", "x", "z", "o", *_SINGULAR_S)):
        return f"{word}es"
    return word if word.endswith("s") else f"{word}s"


@dataclass(frozen=True)
class Finder(Generic[T]):
    """Many phrases, each with what it means, looked for together."""

    by_word: Mapping[str, Sequence[tuple[tuple[frozenset[str], ...], Phrase, T]]]
    "Under each word of the smallest set of which a text needs one: the other sets, the phrase, what it means."

    def find(self, heard: Spoken) -> Iterator[tuple[T, int, int]]:
        """What stands in a text, in the order of its words in the alphabet; of two words of a set the first finds all."""
        words = heard.words
        seen: set[int] = set()
        for word in sorted(words & self.by_word.keys()):
            for needs, phrase, meant in self.by_word[word]:
                # most phrases fall out here, so it is done without a call
                for need in needs:
                    if need.isdisjoint(words):
                        break
                else:
                    if id(phrase) not in seen:
                        seen.add(id(phrase))
                        for start, end in phrase.find(heard):
                            yield meant, start, end


def finder(pairs: Collection[tuple[Phrase, T]]) -> Finder[T]:
    """The phrases by their words."""
    by_word: dict[str, list[tuple[tuple[frozenset[str], ...], Phrase, T]]] = {}
    for phrase, meant in pairs:
        first, *others = phrase.needs
        for word in first:
            by_word.setdefault(word, []).append((tuple(others), phrase, meant))
    return Finder(by_word)


def read_notation(shelf: Shelf) -> Notation:
    """The classes of words."""
    return Notation(shelf.by("name", "word_classes.csv", WordClass))
