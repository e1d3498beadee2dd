"""A recipe's words in, the acts that they tell the cook to do out, each with its sentence, its hours and its heat.

Read are the name, summary, tags and lines of a recipe, what its stages wait for, and the sentences of its method; of a
book in English alone. What a sentence turns down is no act.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import zip_longest

from generator.english import clause_of, is_turned_down
from generator.english.degrees import temperatures_in
from generator.english.figures import lengths_in
from generator.model.recipe import Recipe, Sentence, Stage
from generator.model.results import Cause
from generator.problems import Position
from generator.tables.acts import ActRow, Acts
from generator.tables.phrases import Spoken, spoken

MOST_LOOKS = 9
"So often an act may be turned down in one sentence; behind it, it counts. Source: house; keeps the work in proportion."


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """One stretch of words of a recipe: a sentence of its method, or its name, a line, a tag."""

    kind: str
    "sentence, name, summary, tag, line, stage; dish, of which a gathering speaks"
    heard: Spoken
    following: str
    "The next sentence of the method."
    sentence: Sentence | None
    position: Position
    scale: str = "F"
    "That of degrees which name none: F or C, as the book's page has it."

    @property
    def text(self) -> str:
        """As it is written."""
        return self.heard.text

    @property
    def is_quoted(self) -> bool:
        """Somebody else's words."""
        return self.sentence is not None and self.sentence.is_quoted

    def is_turned_down(self, start: int, end: int) -> bool:
        """True where the cook is told not to."""
        return is_turned_down(self.text, start, end, following=self.following)

    def cause(self, start: int) -> Cause:
        """The whole of it, at the place of a word."""
        at = self.position if self.sentence is None else self.sentence.at(start)
        return Cause(kind=self.kind, words=self.text, position=at)


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """What a cook is told to do."""

    row: ActRow
    told: Told
    index: int
    "Of its words among all of the recipe's."
    start: int
    end: int

    @property
    def words(self) -> str:
        """The act itself, without the rest of its sentence."""
        return self.told.text[self.start : self.end]

    @property
    def clause(self) -> str:
        """The act and the rest of its clause."""
        begin, end = clause_of(self.told.text, self.start)
        return self.told.text[min(begin, self.start) : max(end, self.end)]

    @property
    def minutes(self) -> Fraction | None:
        """The longest time among its own words, else in its clause; None: none is told in figures."""
        own = minutes_in(self.words) or minutes_in(self.clause)
        return max(own) if own else None

    @property
    def degrees_f(self) -> tuple[Fraction, ...]:
        """Temperatures [degF] in its clause."""
        return degrees_in(self.clause, self.told.scale)


def minutes_in(text: str) -> list[Fraction]:
    """Every time that a text tells in figures or small number words, the high end of each."""
    return [length.minutes.high for length in lengths_in(text)]


def degrees_in(text: str, scale: str) -> tuple[Fraction, ...]:
    """Every temperature of a text [degF], the high end of each; `scale` is that of degrees without one."""
    return tuple(heat for heat, _, _ in degrees_at(text, scale))


def degrees_at(text: str, scale: str) -> Iterator[tuple[Fraction, int, int]]:
    """Each of them with where it begins and ends."""
    for heat, start, end in temperatures_in(text, scale=scale):
        yield heat.high.fahrenheit, start, end


def told_in(recipe: Recipe) -> tuple[Told, ...]:
    """Every stretch of words that is read, those of the method last."""
    at = recipe.position
    heads = [("name", recipe.name, at), ("summary", recipe.summary, at)]
    heads += [("tag", tag, at) for tag in recipe.tags]
    heads += [("line", line.written, line.position) for line in recipe.ingredients]
    heads += [("stage", _words_of(stage), stage.position) for stage in recipe.stages if not stage.is_read]
    plain = (
        Told(kind=kind, heard=spoken(text), following="", sentence=None, position=place)
        for kind, text, place in heads
        if text
    )
    return (*plain, *_sentences(recipe.body.sentences))


def _words_of(stage: Stage) -> str:
    """What stands in a stage in words alone: what it waits for, and how it is done."""
    if not stage.words:
        return stage.until
    until = f", until {stage.until}" if stage.until else ""
    return f"{stage.title} {stage.words}{until}"


def _sentences(sentences: tuple[Sentence, ...]) -> Iterator[Told]:
    for one, following in zip_longest(sentences, sentences[1:]):
        yield Told(
            kind="sentence",
            heard=spoken(one.text),
            following=following.text if following is not None else "",
            sentence=one,
            position=one.position,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """All that a recipe says in words."""

    told: tuple[Told, ...] = ()
    acts: tuple[Act, ...] = ()
    "In reading order; of one row one act in a sentence."
    facts: frozenset[str] = frozenset()
    "What its sentences tell by a row of told_facts.csv."


NOTHING_SAID = Words()
"Of a book in another language."


def words_of_recipe(recipe: Recipe, acts: Acts, *, scale: str) -> Words:
    """All that is read of a recipe in English; `scale` is that of degrees without one."""
    told = tuple(replace(one, scale=scale) for one in told_in(recipe))
    return Words(
        told=told,
        acts=tuple(act for index, one in enumerate(told) for act in _acts_in(one, index, acts)),
        facts=frozenset(fact for one in told for fact in _facts_in(one, acts)),
    )


def _acts_in(told: Told, index: int, acts: Acts) -> Iterator[Act]:
    looked: dict[int, int] = {}
    for row, start, end in acts.acts.find(told.heard):
        times = looked[id(row)] = looked.get(id(row), 0) + 1
        if times <= MOST_LOOKS and (times == MOST_LOOKS or not told.is_turned_down(start, end)):
            looked[id(row)] = MOST_LOOKS
            yield Act(row=row, told=told, index=index, start=start, end=end)


def _facts_in(told: Told, acts: Acts) -> Iterator[str]:
    for fact, start, end in acts.facts.find(told.heard):
        if not told.is_quoted and not told.is_turned_down(start, end):
            yield fact
