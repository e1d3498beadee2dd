"""acts.csv and told_facts.csv in; what a cook does that words alone tell, and what takes the danger out of it, out."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from typing import Annotated

from generator.model.published import Cited, Sourced
from generator.tables.csvfile import Shelf, words
from generator.tables.phrases import Finder, Notation, Phrase, finder, read_notation

FACTS = (
    *("short", "hot", "cold", "heated", "reaches", "chilled stage", "jar stage", "kept cold", "wild"),
    *("frozen long", "deadly game", "cold thaw", "no heat", "ferment stage", "sour", "jars"),
    *("met in oil", "eaten at once", "nitrite"),
)
"What the recipe itself tells, beside words; rules/told.py says how each is known."


def sentences(cell: str, column: str) -> tuple[str, ...]:
    """Whole sentences, a slash between."""
    return tuple(one.strip() for one in cell.split(" / "))


Sentences = Annotated[tuple[str, ...], sentences]


@dataclass(frozen=True, slots=True, kw_only=True)
class ActRow(Cited):
    """One act, the rule that it feeds, and four kinds of sentences that show where it counts."""

    slug: str
    phrase: str
    when: Annotated[tuple[str, ...], words] = ()
    "Classes of words, in square brackets, one of which the recipe speaks of; and facts that hold."
    beside: Annotated[tuple[str, ...], words] = ()
    "Phrases that take the danger out of it in the same sentence; behind `within`, only among its own words."
    unless: Annotated[tuple[str, ...], words] = ()
    "Facts that take it out, of the recipe as it is written or of any of its sentences."
    certain: bool
    "The words alone are enough for a refusal."
    meets: Sentences
    harmless: Sentences
    negated: Sentences
    past: Sentences


@dataclass(frozen=True, slots=True, kw_only=True)
class ToldFact(Sourced):
    """A phrase by which a method tells a fact."""

    fact: str
    phrase: str


@dataclass(frozen=True)
class Acts:
    """Every act and fact, ready to be looked for."""

    rows: tuple[ActRow, ...]
    notation: Notation
    acts: Finder[ActRow]
    facts: Finder[str]
    beside: dict[str, Phrase]
    "Every phrase of a `beside`, by how it is written."


def read_acts(shelf: Shelf, cautions: Collection[str]) -> Acts:
    """Both tables; a phrase, a rule or a fact that is not known is refused."""
    notation = read_notation(shelf)
    beside: dict[str, Phrase] = {}
    acts: list[tuple[Phrase, ActRow]] = []
    facts: list[tuple[Phrase, str]] = []

    def note_fact(row: ToldFact) -> None:
        facts.append((notation.phrase(row.phrase), row.fact))

    told = {row.fact for row in shelf.rows("told_facts.csv", ToldFact, note_fact)}

    def note(row: ActRow) -> None:
        acts.append((notation.phrase(row.phrase), row))
        for one in row.beside:
            beside.setdefault(one, notation.phrase(one.removeprefix("within ")))

    known = {*told, *FACTS}
    classes = {f"[{name}]" for name in notation.classes}
    rows = shelf.rows("acts.csv", ActRow, note, slug=cautions, when=known | classes, unless=known | classes)
    return Acts(rows, notation, finder(acts), finder(facts), beside)
