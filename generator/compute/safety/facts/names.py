"""A recipe's words in; the animals, plants and fungi that they name out, each with its place and how it is said there.

An ingredient line names what is eaten. A sentence may, and a title, a tag or a quoted passage only names.
"""

from __future__ import annotations

import functools
import itertools
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest

from generator.english import clause_of, is_turned_down
from generator.english.size import without_size
from generator.model.recipe import Ingredient, Recipe, Sentence
from generator.model.results import Cause
from generator.problems import Position
from generator.tables import Tables
from generator.tables.names import Found, Lexicon, runs_of

HEADS = ("name", "summary", "tag", "group")
"Where a name stands without grammar."
ARTICLES = frozenset({"a", "an", "the", "our", "their", "his", "her", "my", "your"})
"Behind one of these a word of use is a thing: a slice of goose."
BESIDE = re.compile(
    r"\b(?:against|out of reach of|near|beside|besides|by|next to|among|amongst|between|under|beneath|behind|past|around|"
    r"away from|except|without|"
    r"no|not|watch for|watch out for|beware of|poisonous|deadly|toxic)\s+(?:the |a |an |any |some |those |these )?$",
    re.IGNORECASE,
)
"Words before a name that say where something else stands, or that warn."


PLACE = re.compile(
    r"(?:'s|’s)? (?:Ridge|Creek|Hollow|Street|Lane|Road|Hill|Lake|River|Valley|Mountain|Farm|Camp|County|Island|Point|Bay|"
    r"Gap|Run|Branch|Cove|Falls|Springs?|Avenue|Lodge|Inn|Parish|Church)\b"
)
"Behind the name of an animal or a plant these make a place of it: Rattlesnake Ridge tomatoes. Source: common practice."
SWEET = frozenset(
    {"sugar", "syrup", "molasses", "treacle", "chocolate", "marshmallow", "icing", "frosting", "honey", "jam"}
)
CARRIES = frozenset(
    {"flour", "butter", "meringue", "oat", "cracker", "biscuit", "peanut", "cream", "custard", "gelatin"}
)
"Words of the trade; the stems of the lexicon. A glaze of sugar and butter on a carrot is no harm: its plant is a line."


@dataclass(frozen=True, slots=True, kw_only=True)
class Mention:
    """A name, where it stands, and how it is meant there."""

    found: Found
    named: str
    "The name as it is written."
    where: str
    "line, sentence, name, summary, tag, group"
    words: str
    "The line, sentence or title whole."
    position: Position
    line: Ingredient | None = None
    is_quoted: bool = False
    is_used: bool = True
    "An ingredient, or in a sentence that does something with it."
    is_food: bool = True
    "The sentence speaks of food, a tea, a part of a plant."

    @property
    def is_said(self) -> bool:
        """As food, in the recipe's own words. A title, a tag and a quoted passage cannot tell."""
        return self.is_used and not self.is_quoted and self.where not in HEADS

    @property
    def cause(self) -> Cause:
        """What was met."""
        return Cause(kind=self.where, words=self.words, position=self.position)

    @property
    def because(self) -> str:
        """What says so, as the beginning of a reason."""
        if self.line is not None:
            return f"{self.line.name} is an ingredient"
        if self.where == "sentence":
            return (
                f"{'a quoted passage' if self.is_quoted else 'the method'} says “{self.words.rstrip('.!')}”"
            )
        return {
            "name": f"it is called “{self.words}”",
            "summary": f"its summary says “{self.words.rstrip('.!')}”",
            "tag": f"its tag says “{self.words}”",
            "group": f"a group of ingredients is called “{self.words}”",
        }[self.where]


def mentions_in(recipe: Recipe, tables: Tables, *, is_english: bool) -> tuple[Mention, ...]:
    """Every name that is not turned down, the lines first. Sentences are read in English alone."""
    lexicon = tables.lexicon
    lines = [one for line in recipe.ingredients if line.link is None for one in _of_line(line, lexicon)]
    sweet = _is_sweet(recipe, lines)
    # Bears of biscuit dough and toadstools of meringue are called so and cut so; what such a dish names as food is a line.
    named = [] if sweet else _heads(recipe)
    heads = (one for where, text, at in named for one in _of_head(where, text, at, lexicon))
    if not is_english:
        return (*lines, *heads)
    sentences = zip_longest(recipe.body.sentences, recipe.body.sentences[1:])
    said = (one for sentence, following in sentences for one in _of_sentence(sentence, following, lexicon))
    return (*lines, *heads, *(one for one in said if not (sweet and one.found.kind == "animal")))


def _is_sweet(recipe: Recipe, lines: Sequence[Mention]) -> bool:
    """Baking and sweets, by their lines: something sweet and something that carries it, and no animal."""
    if recipe.meat is not None or any(one.found.kind == "animal" for one in lines):
        return False
    words = {word for line in recipe.ingredients for word in stems_in(line.name)}
    return not SWEET.isdisjoint(words) and not CARRIES.isdisjoint(words)


def find_names(lexicon: Lexicon, text: str, company: str = "", *, whole: bool = True) -> tuple[Found, ...]:
    """Names of a line or title; a text is looked at once however often it is asked for."""
    return _find(lexicon, text, company, whole)


@functools.lru_cache(maxsize=8192)
def _find(lexicon: Lexicon, text: str, company: str, whole: bool) -> tuple[Found, ...]:
    return lexicon.find(text, whole=whole, company=company)


def _of_line(line: Ingredient, lexicon: Lexicon) -> Iterator[Mention]:
    preparation = without_size(line.preparation)
    named = find_names(lexicon, line.name, f"{preparation} {line.group}")
    besides = find_names(lexicon, preparation, line.name, whole=False) if preparation else ()
    for text, names in ((line.name, named), (preparation, besides)):
        for found in names:
            if found.kind != "food" and not is_turned_down(text, found.start, found.end, is_name=True):
                yield Mention(
                    found=found,
                    named=text[found.start : found.end],
                    where="line",
                    words=line.written,
                    position=line.position,
                    line=line,
                )


def _heads(recipe: Recipe) -> Iterator[tuple[str, str, Position]]:
    yield "name", recipe.name, recipe.position
    yield "summary", recipe.summary, recipe.position
    for tag in recipe.tags:
        yield "tag", tag, recipe.position
    for group in dict.fromkeys(line.group for line in recipe.ingredients):
        yield "group", group, recipe.position


def _of_head(where: str, text: str, position: Position, lexicon: Lexicon) -> Iterator[Mention]:
    for found in find_names(lexicon, text) if text else ():
        if PLACE.match(text, found.end):
            continue
        if found.kind != "food" and not is_turned_down(text, found.start, found.end, is_name=True):
            named = text[found.start : found.end]
            yield Mention(found=found, named=named, where=where, words=text, position=position)


def _of_sentence(sentence: Sentence, following: Sentence | None, lexicon: Lexicon) -> Iterator[Mention]:
    text, behind = sentence.text, following.text if following is not None else ""
    names = [found for found in find_names(lexicon, text, whole=False) if found.kind != "food"]
    if not names:
        return
    stems = frozenset(stems_in(text))
    for found in names:
        before = text[: found.start]
        if BESIDE.search(before) or is_turned_down(
            text, found.start, found.end, following=behind, is_name=True
        ):
            continue
        yield Mention(
            found=found,
            named=text[found.start : found.end],
            where="sentence",
            words=text,
            position=sentence.at(found.start),
            is_quoted=sentence.is_quoted,
            is_used=_is_used(text, found, lexicon),
            is_food=not stems.isdisjoint(lexicon.sets["food word"] | lexicon.sets["use word"]),
        )


def _is_used(text: str, found: Found, lexicon: Lexicon) -> bool:
    """A cook does something with it: a word of use before it, in its own clause; behind an article it is a thing."""
    begin, _ = clause_of(text, found.start)
    words = ("", *stems_in(text[begin : found.start]))
    return any(
        word in lexicon.sets["use word"] and before not in ARTICLES
        for before, word in itertools.pairwise(words)
    )


@functools.lru_cache(maxsize=8192)
def stems_in(text: str) -> tuple[str, ...]:
    """The words of a text as they are compared."""
    return tuple(word.stem for run in runs_of(text) for word in run)
