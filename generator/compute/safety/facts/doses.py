"""The method of a recipe in, what it says of nitrite and nitrate salts out: how much of one, or only its name."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import zip_longest

from generator.english import is_turned_down
from generator.model.quantity import Measure, Quantity, Span
from generator.model.recipe import Ingredient, Recipe, Sentence
from generator.tables import Tables
from generator.tables.nitrite_names import NitriteName

_NUMBER = r"\d{1,4}(?:[.,]\d{1,3})?(?:\s?/\s?\d{1,2})?(?:\s\d{1,2}/\d{1,2})?\s?[½¼¾⅓⅔⅛]?|[½¼¾⅓⅔⅛]"
_SMALL = {
    "a": "1",
    "an": "1",
    "one": "1",
    "two": "2",
    "three": "3",
    "four": "4",
    "half a": "1/2",
    "half": "1/2",
}
_UNITS = (
    "kilograms?|kg|grams?|gm?|mg|ounces?|oz|pounds?|lbs?|teaspoons?|teaspoonfuls?|tsp|tablespoons?|"
    "tablespoonfuls?|tbsp|cups?|cupfuls?|pints?|quarts?|ml|pinch(?:es)?|spoons?|spoonfuls?|dash(?:es)?|"
    "handfuls?|scoops?|packets?"
)
_DOSE = re.compile(
    rf"(?:\b(?P<word>half an?|half|an?|one|two|three|four)|(?<![\d.,/])(?P<number>{_NUMBER}))[\s-]*(?:level |heaped |"
    rf"heaping |scant |good |big |small )?(?P<unit>{_UNITS})\b\.?(?P<each>\s(?:per|to (?:the|each|every))\s\w+(?:\s\w+)?)?",
    re.IGNORECASE,
)
_NEAR = 48
"Characters between an amount and the name that it is of: 2 teaspoons (level) of the pink curing salt. Source: house."
MOST_WORDS = 60
"Of a longer sentence the end is looked at. Source: house; keeps the work in proportion."
_STOP = re.compile(r"[.;:!?]|,\s+(?:and|then)\b|\band\b|\bwith\b|\bin(?:to)?\b|\bto\b", re.IGNORECASE)
"A name behind one of these is of another amount."
_FRACTIONS = {"½": "1/2", "¼": "1/4", "¾": "3/4", "⅓": "1/3", "⅔": "2/3", "⅛": "1/8"}
_SPOONFUL = re.compile(r"(?:ful|fuls)$")


@dataclass(frozen=True, slots=True, kw_only=True)
class Dose:
    """A salt that a sentence names, with how much of it where that is said."""

    line: Ingredient
    "As a line would have it; its amount is None where only the name is told."
    named: NitriteName
    sentence: Sentence

    @property
    def is_dose(self) -> bool:
        """An amount is told."""
        return self.line.quantity is not None


def doses_in(recipe: Recipe, tables: Tables) -> tuple[Dose, ...]:
    """Everything of the kind that an English method does not turn down, in reading order."""
    sentences = zip_longest(recipe.body.sentences, recipe.body.sentences[1:])
    return tuple(dose for one, following in sentences for dose in _of(one, following, tables))


def _of(sentence: Sentence, following: Sentence | None, tables: Tables) -> Iterator[Dose]:
    text, names = sentence.text, tables.nitrite_names
    named = names.all_in(text)
    if not named or is_turned_down(
        text, *_place(text, tables), following=following.text if following else ""
    ):
        return
    dosed = False
    for found in _DOSE.finditer(text):
        name = _named_beside(text, found, tables)
        if name is not None:
            dosed = True
            yield _dose(sentence, found, name, tables)
    for name in named if not dosed else ():
        line = _line(sentence, 0, name.title, None)
        yield Dose(line=line, named=name, sentence=sentence)


def _place(text: str, tables: Tables) -> tuple[int, int]:
    """Where the last name stands: from the last word at which a rest of the text still has one, to its own end."""
    starts = [word.start() for word in re.finditer(r"\S+", text)][-MOST_WORDS:]
    names = tables.nitrite_names
    last = next((at for at in reversed(starts) if names.all_in(text[at : at + _NEAR])), 0)
    ends = (last + word.end() for word in re.finditer(r"\w+", text[last : last + _NEAR]))
    return last, next((end for end in ends if names.all_in(text[last:end])), min(len(text), last + _NEAR))


def _named_beside(text: str, found: re.Match[str], tables: Tables) -> NitriteName | None:
    """The salt of an amount: right behind it, or before it with a comma or a bracket between."""
    behind = text[found.end() : found.end() + _NEAR]
    stop = _STOP.search(behind)
    names = tables.nitrite_names.all_in(behind[: stop.start()] if stop else behind)
    if not names:
        names = tables.nitrite_names.all_in(_before(text[max(0, found.start() - _NEAR) : found.start()]))
    return next((name for name in names if name.kind not in ("plain", "ask alone")), None)


def _before(words: str) -> str:
    """What stands before an amount and a comma, a colon or a bracket: `pink salt, 2 tsp`, `curing salt (1 tsp)`."""
    words = words.rstrip().removesuffix(" about").removesuffix(" at")
    if not words.endswith((",", "(", ":")):
        return ""
    return re.split(r"[.;:!?,()]", words[:-1])[-1]


def _dose(sentence: Sentence, found: re.Match[str], name: NitriteName, tables: Tables) -> Dose:
    quantity = Quantity(measures=_measures(found, tables), vague="", written=found.group().strip())
    if not quantity.measures:
        quantity = Quantity(vague=found.group("unit"), written=found.group().strip())
    return Dose(line=_line(sentence, found.start(), name.title, quantity), named=name, sentence=sentence)


def _line(sentence: Sentence, at: int, name: str, quantity: Quantity | None) -> Ingredient:
    return Ingredient(id="", name=name, quantity=quantity, written=sentence.text, position=sentence.at(at))


def _measures(found: re.Match[str], tables: Tables) -> tuple[Measure, ...]:
    """Exact; nothing where the unit has no size, or the amount is so much for each piece."""
    number = (
        _SMALL.get((found.group("word") or "").lower().removesuffix(" an").strip(), "")
        or found.group("number")
        or ""
    )
    unit = tables.find_unit(_SPOONFUL.sub("", found.group("unit").lower()), "us")
    value = _number(number)
    if unit is None or value is None or found.group("each"):
        return ()
    return (Measure(Span.of(value), unit),)


def _number(written: str) -> Fraction | None:
    for sign, plain in _FRACTIONS.items():
        written = written.replace(sign, f" {plain}")
    try:
        return (
            sum(
                (Fraction(part.replace(",", ".")) for part in re.sub(r"\s?/\s?", "/", written).split()),
                Fraction(0),
            )
            or None
        )
    except (ValueError, ZeroDivisionError):
        return None
