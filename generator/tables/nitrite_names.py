"""nitrite_names.csv in; names of nitrite and nitrate salts found in the words of an ingredient line out.

Names are compared as words, without accents and signs; of names that overlap the longest wins, so that Himalayan pink
salt is no pink salt. Marks of makers are there to be found and are never shown.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Annotated

from generator.model.published import Sourced
from generator.model.slug import stream_safe
from generator.tables.csvfile import Shelf, Wrong

KINDS = (
    *("nitrite", "nitrate", "unknown nitrate", "mixed", "unknown", "not food"),
    *("vegetable", "ask", "ask alone", "plain"),
)
SURE = ("nitrite", "nitrate", "unknown nitrate", "mixed")
STOP = "|"
"Stands for a comma, a bracket or a dot between two words."
ALONE: tuple[list[str], ...] = ([], [STOP], ["for"], ["mix"], ["mixture"])
"What may follow a word that means a cure only where it stands alone: cure, cure for the ham."
NAMED = "@"
"Stands for a name that was found."

_NO = "no|not|never|without|avoid|neither|nor|unlike|instead of|rather than|in place of|opposed to|free of|free from"
_BETWEEN = f"an?|the|any|added|adding|add|more|extra|use|using|other|or|and|of|{NAMED}"
"What may stand between a no and what it denies: no added nitrite, no nitrate or nitrite. No other word may."
_DENIED = re.compile(rf" (?:{_NO})(?: (?:{_BETWEEN}))* $")
FARTHEST = 400
"Characters before a name in which a no can deny it. Source: house; behind more words the name counts."
_NUMBER = re.compile(r"(?:#|\bno\.?|\bnr\.?|\bnumber|№|nº|n°)[ ]*(?=[12]\b(?![.,]\d))")
_WORD = re.compile(r"[^\W_]+|#|[^\w\s%'’-]")


@dataclass(frozen=True, slots=True, kw_only=True)
class NitriteName(Sourced):
    """What one row of names means."""

    row: str
    kind: str
    names: tuple[str, ...]
    title: str
    "How a message names it: never by a maker's mark."
    is_mark: Annotated[bool, "mark"]
    "A maker's: its words are not shown."
    key: str = ""
    "The curing salt of curing_salts.csv as which it is reckoned; empty where the name does not tell its strength."


@dataclass(frozen=True, slots=True, eq=False)
class NitriteNames:
    """Every name, looked for as whole words from the left, the longest that fits."""

    pattern: re.Pattern[str]
    rows: Mapping[str, NitriteName]

    def all_in(self, words: str) -> tuple[NitriteName, ...]:
        """What a name and its preparation speak of, without what they deny: `no nitrite added`, `nitrite-free`."""
        spaced = f" {_folded(words)} "
        rows = []
        before, end = "", 0
        for one in self.pattern.finditer(spaced):
            before = f"{before}{spaced[max(end, one.start() - FARTHEST) : one.start()]}"[-FARTHEST:]
            next_word = spaced[one.end() : one.end() + FARTHEST].split()[:1]
            if next_word != ["free"] and not _is_denied(before):
                rows.append((self.rows[_key(one)], next_word))
            before, end = f"{before} {NAMED}", one.end()
        return tuple(row for row, next_word in rows if row.kind != "ask alone" or next_word in ALONE)

    @property
    def pure_or_mixed(self) -> tuple[str, ...]:
        """Names in letters alone, of what surely is or holds nitrite or nitrate; no mark of a maker."""
        return tuple(
            name
            for name, row in self.rows.items()
            if row.kind in SURE and not row.is_mark and name.replace(" ", "").isalpha()
        )

    def has_more_than_name(self, name: str) -> bool:
        """True where a line's name speaks of something besides, so that its amount is not of the salt alone."""
        rest = self.pattern.sub(" ", f" {_folded(name)} ").split()
        return bool({"and", "or", "with", "plus", "mixed", "each", "in", "&", "+"} & set(rest))


def _is_denied(before: str) -> bool:
    """True where a no stands before a name in its clause, with nothing behind it that is not part of it."""
    clause = f" {before} ".rpartition(f" {STOP} ")[2]
    return _DENIED.search(f" {clause.strip()} ") is not None


def _key(found: re.Match[str]) -> str:
    """The name as the table has it: a plural and the commas within are gone."""
    return " ".join(word for word in found.group("name").split() if word != STOP)


def _folded(words: str) -> str:
    """Words without accents, capitals and signs; a number sign in each of its writings is #, a comma a stop."""
    signs = unicodedata.normalize("NFKD", stream_safe(words))
    plain = "".join(sign for sign in signs if not unicodedata.combining(sign)).casefold()
    tokens = _WORD.findall(_NUMBER.sub(" # ", plain).replace("'", "").replace("’", ""))
    return " ".join(token if token[0].isalnum() or token in "#&+" else STOP for token in tokens)


def read_nitrite_names(shelf: Shelf, curing_salts: Collection[str]) -> NitriteNames:
    """All names. A name that another one folds to is refused: it would find one of them only."""
    rows: dict[str, NitriteName] = {}

    def note(row: NitriteName) -> None:
        for name in map(_folded, row.names):
            if name in rows:
                raise Wrong(f"{name} stands twice")
            rows[name] = row

    shelf.rows("nitrite_names.csv", NitriteName, note, kind=KINDS, key=curing_salts)
    return NitriteNames(_pattern(rows), {name.replace(f" {STOP}", ""): row for name, row in rows.items()})


def _pattern(names: Collection[str]) -> re.Pattern[str]:
    longest = sorted(names, key=lambda name: (-len(name), name))
    stop = re.escape(f" {STOP}")
    each = "|".join(f"(?:{stop})? ".join(map(re.escape, name.split())) for name in longest)
    return re.compile(f" (?P<name>{each})s?(?= )")
