"""`meat:` of a front matter in, each kind of raw piece out: written as keys, as a line, or as a list of either."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from typing import Any

from generator.model.published import CARRIERS, PORK_FAT, Animal
from generator.model.quantity import Dimension, Quantity
from generator.model.recipe import Ingredient, Meat
from generator.problems import nearest
from generator.read.ingredient_line import parse_ingredient
from generator.read.keys import Block, Key
from generator.read.number import AmountError
from generator.read.text import Text
from generator.read.values import Value, count, of_text, one_of, thickness, weight, words, wrong
from generator.tables import Tables
from generator.tables.names import FARMED, Found

SAYS = (
    ("bone", "in", re.compile(r"\bbone[- ]in\b", re.IGNORECASE)),
    ("bone", "out", re.compile(r"\b(?:boneless|bone[- ]out|boned(?: out)?)\b", re.IGNORECASE)),
    ("skin", "on", re.compile(r"\b(?:skin|rind)[- ]on\b", re.IGNORECASE)),
    ("skin", "off", re.compile(r"\b(?:skinless|rindless|(?:skin|rind)[- ](?:off|removed))\b", re.IGNORECASE)),
    ("form", "ground", re.compile(r"\b(?:ground|minced?)\b", re.IGNORECASE)),
    ("form", "sliced", re.compile(r"\bsliced\b", re.IGNORECASE)),
)
"Words of a line that say what a key says. Source: words of the trade."


@of_text
def _animal(text: str, value: Value) -> str:
    tables = value.grammar.tables
    animal = tables.animal(text)
    if animal is not None:
        return animal.key
    keys = [animal.key for animal in tables.animals]
    alike = [name for name in tables.lexicon.names_of_animals if name[:1] == text[:1].lower()]
    hint = nearest(text, keys) or nearest(text, alike) or f"Known are {', '.join(keys)}."
    raise AmountError("unknown-animal", f"'{text}' is not an animal that is known.", hint)


MEAT = Block(
    Meat,
    Key(
        "animal",
        _animal,
        "elk, venison, duck, trout ...",
        "elk",
        also={"animal_written": words},
        required=True,
    ),
    Key("cut", words, "its name", "fore shank"),
    Key("weight", weight, "the green weight that the amounts are written for", "5 lb"),
    Key("pieces", count, "how many", "4"),
    Key("thickness", thickness, "of the thickest piece", "3 in"),
    Key("thinnest", thickness, "thickness of the thinnest piece", "2 in"),
    Key("shape", one_of("round", "slab", "lump"), "", "round"),
    Key("bone", one_of("in", "out"), "", "in"),
    Key("skin", one_of("on", "off"), "", "off"),
    Key("silverskin", one_of("on", "off"), "", "off"),
    Key("form", one_of("whole", "ground", "sliced"), "", "whole"),
    Key("source", one_of("wild", "farmed"), "", "wild"),
)


def read_meats(value: Value) -> tuple[Meat, ...]:
    """The raw meat a recipe is written for; without what is not told or cannot be read, which is a problem."""
    found: dict[str, Meat] = {}
    for one in _pieces(value):
        meat = _of_line(one) if one.text is not None else MEAT.read(one, position=one.position)
        first = None if meat is None else found.get(meat.id)
        if meat is not None and first is not None:
            one.log.add(
                "same-id",
                meat.position,
                f"'{meat.name}' stands in line {first.position.line} already.",
                "Add the two weights together in one line, or name them apart.",
            )
        elif meat is not None:
            found[meat.id] = meat
    return tuple(found.values())


def _pieces(value: Value) -> list[Value]:
    """What stands under `meat:` by itself, or each item of its list; nothing where the key is not there."""
    paths = (*value.found.keys, *value.found.texts)
    items = dict.fromkeys(path[1] for path in paths if len(path) > 1 and path[0] == value.name)
    numbers = [item for item in items if isinstance(item, int)]
    if numbers:
        return [value.under(number) for number in sorted(numbers)]
    return [value] if items or value.text is not None or value.path in value.found.keys else []


def _of_line(value: Value) -> Meat | None:
    def parse(text: Text) -> Meat:
        if not text.value:
            raise wrong("'meat' is empty.", "Write what it is, or delete the line.")
        return _meat(parse_ingredient(text, value.grammar.certain), text, value.grammar.tables)

    return value.read_text(parse)


def _meat(line: Ingredient, text: Text, tables: Tables) -> Meat:
    """A line as the piece that it names."""
    _check_raw(line)
    animal, written, cut = _animal_of(line, text, tables)
    said = f"{line.name}, {line.preparation}"
    states: dict[str, Any] = {key: state for key, state, sign in reversed(SAYS) if sign.search(said)}
    weighed, pieces = _amounts(line)
    for _, _, sign in SAYS:
        cut = sign.sub("", cut)
    return Meat(
        animal=animal.key,
        animal_written=written,
        called=line.name,
        preparation=line.preparation,
        cut=" ".join(cut.replace(",", " ").split()),
        weight=weighed,
        pieces=pieces,
        source=_source(animal, said, tables),
        position=line.position,
        **states,
    )


def _check_raw(line: Ingredient) -> None:
    if line.link is not None:
        raise wrong(
            f"'{line.name}' is another recipe, and `meat:` is the raw meat.",
            f"Write the line under 'ingredients': - {line.written}",
        )
    if line.second:
        raise wrong(
            "The line has a second amount, and of how much meat it is for is not told.",
            "Write a line for each meat, with its weight.",
        )
    if line.fixed:
        raise wrong("The meat is what everything else is scaled by.", "Leave '(fixed)' out.")


def _animal_of(line: Ingredient, text: Text, tables: Tables) -> tuple[Animal, str, str]:
    """The animal, the words that name it, and the rest of the name, which is the cut."""
    name = line.name
    found = [one for one in tables.lexicon.find(name, whole=True) if _animals(one, tables)]
    if not found and " ".join(name.lower().split()) in PORK_FAT:
        return tables.animals_by_key["pork"], "pork", name
    if not found:
        amount = line.quantity.written if line.quantity is not None else ""
        hint = (
            f"Write the animal before it: {f'{amount} deer {name}'.strip()}, or pork, or whatever it is of."
        )
        raise AmountError("unknown-animal", f"'{name}' names no animal that is known.", hint)
    kinds = {animal for one in found for animal in _animals(one, tables)[:1]}
    if len(kinds) > 1:
        written = " and ".join(name[one.start : one.end] for one in found)
        raise wrong(
            f"The line names {written}, and how much of each is not told.",
            "Write a line for each, with its weight.",
        )
    one = found[0]
    cut = f"{name[: one.start]} {name[one.end :]}".split()
    return (
        _animals(one, tables)[0],
        name[one.start : one.end],
        " ".join(w for w in cut if w.lower() != "meat"),
    )


def _animals(found: Found, tables: Tables) -> tuple[Animal, ...]:
    """The animals of the table that a name means."""
    if found.kind != "animal":
        return ()
    return tuple(tables.animals_by_key[key] for key in found.means if key in tables.animals_by_key)


def _source(animal: Animal, said: str, tables: Tables) -> str | None:
    """wild or farmed, where the line says so; what a carrier of Trichinella was fed takes nothing from it."""
    source = tables.lexicon.wildness(said) or None
    return None if source == FARMED and animal.group in CARRIERS else source


def _amounts(line: Ingredient) -> tuple[Quantity | None, int | None]:
    """The green weight and the number of pieces, each where it is told."""
    quantity = line.quantity
    if quantity is None:
        return None, None
    total, number = quantity.total(Dimension.WEIGHT), quantity.total(Dimension.COUNT)
    if total is None and number is None:
        raise AmountError(
            "wrong-dimension",
            f"'{quantity.written}' is no weight, and meat is weighed.",
            f"Weigh it and write: 2 lb {line.name}, or whatever it weighs.",
        )
    if total is not None and total.is_range:
        raise wrong(
            f"'{quantity.written}' is a range.",
            f"Write the one weight that the amounts are for: {_middle(line)}.",
        )
    return (None if total is None else _weighed(quantity)), _whole(number.high if number else None)


def _middle(line: Ingredient) -> str:
    """The line with the heavier end of its weight, to copy."""
    assert line.quantity is not None
    measure = line.quantity.measures[-1]
    rest = line.written[len(line.quantity.written) :].strip()
    return f"{measure.span.high} {measure.unit.singular} {rest}"


def _weighed(quantity: Quantity) -> Quantity:
    """The writings of an amount that are weights: `4 shanks (5 lb)` weighs 5 lb."""
    writings = [
        measures
        for measures in (quantity.measures, quantity.alternative)
        if measures and all(one.unit.dimension is Dimension.WEIGHT for one in measures)
    ]
    second = writings[1] if len(writings) > 1 else ()
    return replace(quantity, measures=writings[0], alternative=second)


def _whole(number: Fraction | None) -> int | None:
    return int(number) if number is not None and number.denominator == 1 and number > 0 else None
