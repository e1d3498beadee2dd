"""`ingredients:` and `course:` of a front matter in, their records out; a bad line is a problem, the rest is read."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from generator.model.published import PORK_FAT
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import Ingredient, Meat, Stage
from generator.read.ingredient_line import parse_ingredient
from generator.read.link_words import without_accents
from generator.read.number import AmountError
from generator.read.share_line import take_share, with_share
from generator.read.shares import base_of, weigh_shares
from generator.read.stage import parse_stage
from generator.read.stage_name import read_stage_name
from generator.read.text import Text, note
from generator.read.values import Value
from generator.tables import Tables

TAKEN_BY_CURE = ("meat", "water", "salt", "sugar")
"Ids of what a cure is made of; `meat` is taken wherever `meat:` stands. A line with curing salt is refused later."

_UNSAID = ("raw", "fresh", "whole", "the", "of", "meat", "trimmed", "boneless", "bone-in", "wild")
"Words that make no other meat of it."
_ANIMAL = "ANIMAL"
"Stands for whichever name an animal is called by."
SAME = Fraction(2, 100)
"Two weights as near as that are one, in another unit. Source: house choice, as for an amount in brackets."
_SAME_CUT = {"trimming": "trim"}
"Source: words of the trade."


def read_ingredients(value: Value) -> tuple[Ingredient, ...]:
    """The ingredient lines in order, without those that name the meat again."""
    kept: dict[str, Ingredient] = {}
    plain: dict[str, Ingredient] = {}
    again: list[tuple[Ingredient, Meat]] = []
    meats = value.before.get("meats", ())
    taken = TAKEN_BY_CURE if "cure" in value.before else ("meat",) if meats else ()
    for one in _lines(value):
        line = _line(one, kept, taken)
        if line is None:
            continue
        one.warn_disagreement(line.quantity)
        meat = _listed_again(line, meats, one.grammar.tables)
        if meat is None:
            _tell_accents(line, plain, value)
            kept[line.id] = line
        else:
            again.append((line, meat))
    _tell_again(again, meats, value)
    return tuple(weigh_shares(kept, meats, value.before.get("makes"), value).values())


def _tell_accents(line: Ingredient, plain: dict[str, Ingredient], value: Value) -> None:
    """`creme` beside `crème`: two things to a computer, one to a cook."""
    other = plain.setdefault(without_accents(line.id), line)
    if other is not line:
        message = f"'{line.name}' and '{other.name}' in line {other.position.line} differ by an accent alone."
        hint = "Add the amounts together in one line, or name the two apart."
        value.log.add("accents-apart", line.position, message, hint)


def _lines(value: Value) -> Iterator[Value]:
    """Each line, with or without the title of a group above it, in the order of the file."""
    end = len(value.path)
    for path in value.found.texts:
        if path[:end] == value.path and isinstance(path[-1], int):
            yield replace(value, path=path)


def _line(one: Value, kept: dict[str, Ingredient], taken: tuple[str, ...]) -> Ingredient | None:
    group = str(one.path[1]) if len(one.path) == 3 else ""

    def parse(text: Text) -> Ingredient:
        share = take_share(text, one.grammar, among_shares=bool(base_of(group)))
        line = parse_ingredient(share.rest if share else text, one.grammar, group=group)
        return _check_id(with_share(line, share, text, one.grammar) if share else line, kept, taken)

    return one.read_text(parse)


def _check_id(line: Ingredient, kept: dict[str, Ingredient], taken: tuple[str, ...]) -> Ingredient:
    if line.id in taken:
        raise AmountError(
            "taken-id",
            f"'{line.name}' is already what the cure or the meat is called here.",
            f"Name it apart from the cure's: {line.name} for the pot.",
        )
    first = kept.get(line.id)
    if first:
        raise AmountError(
            "same-id",
            f"'{line.name}' stands in line {first.position.line} already.",
            f"Name them apart ({line.name} for the pan), or add the amounts together.",
        )
    return line


def _listed_again(line: Ingredient, meats: tuple[Meat, ...], tables: Tables) -> Meat | None:
    """The meat that a line names once more."""
    if line.link is not None:
        return None
    return next((meat for meat in meats if is_same_meat(line.name, meat, tables)), None)


def _tell_again(again: list[tuple[Ingredient, Meat]], meats: tuple[Meat, ...], value: Value) -> None:
    """A warning for each line; where they weigh something else than the meat, which of the two holds."""
    for line, meat in again:
        id = meat.id if len(meats) > 1 else "meat"
        written, listed = _grams(meat.weight), [_grams(one.quantity) for one, of in again if of is meat]
        total = sum(filter(None, listed), Fraction(0))
        link = f"the method can point at it with [{meat.cut or 'meat'}](#{id})"
        message, hint = "it counts once.", f"Delete the line; {link}."
        if written and None not in listed and abs(total - written) > SAME * written:
            weighs = meat.weight.written if meat.weight is not None else ""
            message = f"it counts once, as the {weighs} that stand there."
            hint = f"Delete the line, and where {weighs} is wrong, put the right weight there; {link}."
        value.log.add(
            "meat-listed-again",
            line.position,
            f"'{line.name}' is the meat of this recipe already; {message}",
            hint,
        )


def _grams(quantity: Quantity | None) -> Fraction | None:
    total = None if quantity is None else quantity.total(Dimension.WEIGHT)
    return None if total is None else total.high


def is_same_meat(name: str, meat: Meat, tables: Tables) -> bool:
    """True for an ingredient that is the animal, by any of its names, and the cut, in any order, and nothing else."""
    animal = _ANIMAL.lower()
    named = {animal} if " ".join(name.lower().split()) in PORK_FAT and meat.animal == "pork" else set()
    return _words(name, meat, tables) | named == _words(meat.name, meat, tables) | {animal}


def _words(name: str, meat: Meat, tables: Tables) -> set[str]:
    """The words of a name that tell one meat from another, those for its animal as one."""
    text = name
    for found in reversed(tables.lexicon.find(name, whole=True)):
        if found.kind == "animal" and meat.animal in found.means:
            text = f"{text[: found.start]}{_ANIMAL}{text[found.end :]}"
    words = (word for word in re.findall(r"[\w-]+", text.lower()) if word not in _UNSAID)
    return {_SAME_CUT.get(word, word) for word in (word.removesuffix("s") for word in words)}


def read_course(value: Value) -> tuple[Stage, ...]:
    """The stages in order: each a name alone, or a name with a text behind it."""
    stages = (
        _stage(replace(value, path=path), text)
        for path, text in value.found.texts.items()
        if path[0] == value.name and len(path) > 1
    )
    return tuple(stage for stage in stages if stage is not None)


def _colon_astray(key: str, text: Text, value: Value, error: AmountError) -> AmountError:
    """`simmer 3 h: gently`: the colon belongs behind the name."""
    try:
        read_stage_name(key, value.grammar, alone=True)
    except AmountError as found:
        if found.slug == "unreadable-stage":
            name = found.hint.removeprefix("Write ").partition(":")[0]
            message = f"The colon belongs behind '{name}'."
            return AmountError("unreadable-stage", message, f"{found.hint} {text.value}".rstrip())
    return error


def _stage(value: Value, text: Text) -> Stage | None:
    alone = len(value.path) == 2
    key, at = (text.value, text.position) if alone else (value.name, value.position)
    try:
        name = read_stage_name(key, value.grammar, alone=alone)
        if alone:
            return parse_stage(name, "", value.grammar, written=key, position=at)
    except AmountError as error:
        if not alone and error.slug == "unknown-stage":
            error = _colon_astray(key, text, value, error)
        # The name is a key where a text stands behind it, and a key has one place, not one for each letter.
        value.log.add(error.slug, text.at(error.offset) if alone else at, error.message, error.hint)
        return None
    written = f"{key}: {text.value}".strip(": ")
    try:
        return parse_stage(name, text.value, value.grammar, written=written, position=at)
    except AmountError as error:
        note(value.log, text, error)
        return None
