"""Rows of turned_down.csv in; whether a sentence turns down an act in it out.

A row is a word or a phrase, written as a part of a pattern, with a sentence in which it turns down the act between the
stars and one in which it does not. The rows of a kind are one pattern.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from generator.english.sentences import clause_of
from generator.tables.csvfile import Shelf

FOLDER = Path(__file__).parent
KINDS = (
    *("denial", "no denial", "past", "turn", "grave", "remedy", "throwing"),
    *("verdict", "fine", "claim", "claimed", "look-alike"),
)
"""Before the act in its clause: a denial, or what only sounds like one. Of a story: that it is one, how it is turned
down behind the act, and how before it. What is done if it happened; what is thrown away; a verdict behind the act, and
one that is praise. A claim and what is claimed, such as `kills germs`. What is taken for something else."""
GAP = ".{0,80}?"
"Between an `if` and its remedy. Source: house; a clause."


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One word or phrase."""

    phrase: str
    kind: str
    basis: str
    down: str
    "A sentence that turns down the act between the stars; another may follow."
    stands: str
    "One with the same word, or the same story, in which the act stands."


@cache
def rows() -> tuple[Row, ...]:
    """The whole table."""
    return Shelf(FOLDER).rows("turned_down.csv", Row, kind=KINDS)


class TurnedDown:
    """The patterns of some rows, compiled once."""

    def __init__(self, given: Iterable[Row]) -> None:
        listed = tuple(given)

        def words(kind: str) -> str:
            found = "|".join(row.phrase for row in listed if row.kind == kind)
            return rf"(?:{found})" if found else "(?!)"

        self.denial = _pattern(words("denial"))
        self.no_denial = _pattern(words("no denial"))
        self.past = _pattern(words("past"))
        self.turn = _pattern(words("turn"))
        self.grave = _pattern(words("grave"))
        self.after = _pattern(words("verdict"))
        self.fine = _pattern(words("fine"))
        self.look_alike = _pattern(words("look-alike"))
        self.claim = _pattern(rf"{words('claim')}\b(?: \w+){{0,4}} {words('claimed')}")
        self.remedy = _pattern(
            rf"if\b{GAP}\b{words('remedy')}\b|\b{words('throwing')}\b{GAP}\b(?:if|that|which|any)"
        )

    def says(self, text: str, start: int, end: int, following: str, *, is_name: bool) -> bool:
        """As `is_turned_down`."""
        begin, stop = clause_of(text, start)
        if self._is_denied(text[begin:start]) or self._verdict(text[end:stop]) or self._verdict(text[end:]):
            return True
        # What is thrown away if it happened stands behind the if or the throwing; what stands before is done.
        remedy = self.remedy.search(text)
        if remedy is not None and start >= remedy.start():
            return True
        if is_name and self.look_alike.search(text):
            return True
        return self.past.search(text) is not None and self._ends_badly(text, start, end, following)

    def _is_denied(self, before: str) -> bool:
        """A denial before the act, in its clause; what only sounds like one is taken out first."""
        return self.denial.search(self.no_denial.sub(" ", before)) is not None

    def _verdict(self, behind: str) -> bool:
        """A verdict behind the act: `... is unsafe`, `... kills`; `is safe` is praise, `is not safe` is none."""
        found = self.after.search(self.claim.sub(" ", behind))
        return found is not None and not self.fine.fullmatch(found.group())

    def _ends_badly(self, text: str, start: int, end: int, following: str) -> bool:
        """The rest of a story or the next sentence turns it down, or its beginning tells how it ended.

        Praise of it, and a claim that it cures, do not.
        """
        behind = (self.no_denial.sub(" ", self.claim.sub(" ", words)) for words in (text[end:], following))
        if any(map(self.turn.search, behind)):
            return True
        return self.grave.search(self.claim.sub(" ", text[:start])) is not None


def _pattern(words: str) -> re.Pattern[str]:
    return re.compile(rf"\b(?:{words})\b", re.IGNORECASE)


@cache
def _all() -> TurnedDown:
    return TurnedDown(rows())


def is_turned_down(text: str, start: int, end: int, *, following: str = "", is_name: bool = False) -> bool:
    """True where an act (or, with `is_name`, the naming of a thing) in a sentence is not what the cook is told to do.

    `following` is the next sentence: a story is turned down there as often as in its own.
    """
    return _all().says(text, start, end, following, is_name=is_name)
