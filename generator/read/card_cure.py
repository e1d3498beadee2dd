"""The curing salts and nitrates of an old card in, a question with the lines of `meat:` and `cure:` to fill in out.

They are never put into place: what a card says of them was right for one pile of meat and one salt, or never was.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace

from generator.english import sentence_spans
from generator.model.quantity import Dimension
from generator.model.recipe import Ingredient
from generator.read.card import read_thing
from generator.read.draft import Draft, Entry, in_yaml
from generator.read.grammar import Grammar
from generator.read.number import NUMBER_WORDS
from generator.tables.nitrite_names import SURE, NitriteName

_CURES = (
    "is never put into place as it stands, because a wrong gram of it hurts. Fill in the lines below this one, take "
    "the # away before each, and it is worked out and judged."
)
_NO_FOOD = "is no food. Ask who wrote it what was meant; a cure takes a curing salt, weighed, under cure."
_KINDS = frozenset(
    (
        *(
            "kosher",
            "coarse",
            "fine",
            "table",
            "pickling",
            "canning",
            "sea",
            "plain",
            "rock",
            "iodized",
            "dairy",
        ),
        *("non-iodized", "dense-flake", "hollow-flake", "brown", "br.", "br", "white", "granulated", "gran."),
        *(
            "cane",
            "maple",
            "dark",
            "light",
            "raw",
            "cold",
            "hot",
            "boiling",
            "warm",
            "spring",
            "well",
            "soft",
        ),
    )
)
"Before salt, sugar or water: all of it is salt, sugar or water, as onion salt is not."
_LEFT_ALONE = ("plain", "vegetable")
"Kinds of names that the rules judge where they stand."
_COUNTED = re.compile(
    rf"\d|[½¼¾⅓⅔⅛]|\b(?:{'|'.join(NUMBER_WORDS)}|an?|half|pinch|spoon[a-z]{0, 5})\b", re.IGNORECASE
)
"A sentence with a number may tell how much."


def doses_of(method: list[list[str]], grammar: Grammar) -> tuple[list[list[str]], list[str]]:
    """The paragraphs without the sentences that tell how much of a curing salt to take, and those sentences."""
    kept: list[list[str]] = []
    doses: list[str] = []
    for lines in method:
        text = "\n".join(lines)
        for begin, end in reversed(list(sentence_spans(text))):
            sentence = " ".join(text[begin:end].split())
            if _is_dose(sentence, grammar):
                doses.insert(0, sentence)
                text = text[:begin] + text[end:].lstrip(" ")
        kept += [[line.strip() for line in text.split("\n") if line.strip()]] if text.strip() else []
    return kept, doses


def _is_dose(sentence: str, grammar: Grammar) -> bool:
    found = grammar.tables.nitrite_names.all_in(sentence)
    is_cure = any(name.kind in SURE or (name.kind == "unknown" and name.is_mark) for name in found)
    return is_cure and _COUNTED.search(sentence) is not None


def with_cure(draft: Draft, grammar: Grammar) -> Draft:
    """The draft with its curing salts and nitrates, and what is weighed beside them, as a block to be filled in."""
    named = {id(entry): name for entry in draft.entries for name in _names_in(entry, grammar)[:1]}
    if not named:
        return draft
    read = {
        id(entry): read_thing(entry.words, grammar)
        for entry in draft.entries
        if entry.key in ("ingredients", "cure")
    }
    block = _Cure(grammar, read, named, [entry for entry in draft.entries if id(entry) in read])
    questions = [
        Entry(key="cure", words=entry.words, question=_cure_question(entry, named[id(entry)]))
        for entry in draft.entries
        if id(entry) in named
    ]
    lines = tuple(block.lines())
    kept = [entry for entry in draft.entries if id(entry) not in named and id(entry) not in block.taken]
    return replace(draft, entries=(*kept, *questions), cure=lines)


def _names_in(entry: Entry, grammar: Grammar) -> tuple[NitriteName, ...]:
    if entry.key not in ("ingredients", "cure"):
        return ()
    found = grammar.tables.nitrite_names.all_in(entry.words)
    return tuple(name for name in found if name.kind not in _LEFT_ALONE)


def _cure_question(entry: Entry, named: NitriteName) -> str:
    return f'cure: "{entry.words}" {_NO_FOOD if named.kind == "not food" else _CURES}'


@dataclass(slots=True)
class _Cure:
    """Writes the lines of the blocks and remembers which entries stand in them."""

    grammar: Grammar
    read: dict[int, Ingredient | None]
    named: dict[int, NitriteName]
    entries: list[Entry]
    taken: set[int]

    def __init__(
        self,
        grammar: Grammar,
        read: dict[int, Ingredient | None],
        named: dict[int, NitriteName],
        entries: list[Entry],
    ) -> None:
        self.grammar, self.read, self.named, self.entries = grammar, read, named, entries
        self.taken = set()

    def lines(self) -> Iterator[str]:
        """`meat:` and `cure:` as they would stand in the file; empty where the card does not say."""
        if all(name.kind == "not food" for name in self.named.values()):
            return
        yield from self._meat()
        water = self._take("water")
        yield "cure:"
        yield f"  method: {'brine' if water else 'dry'}"
        if water:
            yield f"  water: {water}"
        yield f"  salt: {self._take('salt')}".rstrip()
        sugar = self._take("sugar")
        if sugar:
            yield f"  sugar: {sugar}"
        for entry in self.entries:
            if id(entry) in self.named:
                yield from self._curing_salt(entry, self.named[id(entry)])

    def _meat(self) -> Iterator[str]:
        """The lines that weigh an animal; where there is none, what is to be told."""
        found = [entry for entry in self.entries if self._animal(entry)]
        self.taken.update(map(id, found))
        if len(found) == 1:
            yield f"meat: {in_yaml(found[0].words)}"
            return
        yield "meat:"
        yield from (f"  - {in_yaml(entry.words)}" for entry in found)
        yield from () if found else ("  animal:", "  weight:")

    def _animal(self, entry: Entry) -> str:
        """The animal of a line that has a weight and names one."""
        line = self.read[id(entry)]
        quantity = line.quantity if line else None
        if line is None or quantity is None or quantity.dimension is not Dimension.WEIGHT:
            return ""
        words = line.name.lower().split()
        return next((word for word in words if self.grammar.tables.animal(word)), "")

    def _take(self, key: str) -> str:
        """The amount of the line whose name ends in a word, and what stands before the word in it."""
        for entry in self.entries:
            line = self.read[id(entry)]
            if line is None or id(entry) in self.named or line.quantity is None or line.quantity.is_vague:
                continue
            *kinds, last = line.name.lower().split()
            if last == key and _KINDS.issuperset(kinds):
                self.taken.add(id(entry))
                kind = "" if line.name.lower() == key or key == "water" else f" {line.name}"
                return f"{line.quantity.written}{kind}"
        return ""

    def _curing_salt(self, entry: Entry, named: NitriteName) -> Iterator[str]:
        line = self.read[id(entry)]
        amount = line.quantity.written if line and line.quantity else ""
        if named.kind in ("nitrate", "unknown nitrate"):
            yield " ".join(word for word in ("  nitrate:", amount, named.key) if word)
        elif named.kind != "not food":
            yield f"  curing salt: {amount}".rstrip()
            yield f"  kind of curing salt: {named.key}".rstrip()
