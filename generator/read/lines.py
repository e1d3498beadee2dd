"""`ingredients:` and `course:` of a front matter in, their records out; a bad line is a problem, the rest is read."""

from __future__ import annotations

import re
from collections.abc import Iterator

from generator.model.recipe import Ingredient, Meat, Stage
from generator.problems import Position
from generator.read.ingredient_line import parse_ingredient
from generator.read.number import AmountError
from generator.read.stage import check_stage_name, parse_stage
from generator.read.text import Path, Text, note
from generator.read.values import Values

TAKEN_BY_CURE = ("meat", "water", "salt", "sugar")
"Ids of what a cure is made of; `meat` is taken wherever `meat:` stands. A line with curing salt is refused later."

_UNSAID = ("raw", "fresh", "whole", "the", "of", "meat", "trimmed", "boneless", "bone-in", "wild")
"Words that make no other meat of it."


def read_ingredients(values: Values, meat: Meat | None, *, has_cure: bool) -> tuple[Ingredient, ...]:
    """The ingredient lines in order, without those that name the meat again."""
    kept: dict[str, Ingredient] = {}
    taken = TAKEN_BY_CURE if has_cure else ("meat",) if meat else ()
    for text, group in _lines(values):
        try:
            line = parse_ingredient(text, values.grammar, group=group)
            _check_id(line, kept, taken)
        except AmountError as error:
            note(values.log, text, error)
            continue
        values.warn_disagreement(line.quantity, text)
        if meat and line.link is None and is_same_meat(line.name, meat):
            values.log.add(
                "meat-listed-again",
                text.position,
                f"'{line.name}' is the meat of this recipe already; it counts once.",
                "Delete the line; the method can point at it with [meat](#meat).",
            )
            continue
        kept[line.id] = line
    return tuple(kept.values())


def _lines(values: Values) -> Iterator[tuple[Text, str]]:
    """Each line with its group, in the order of the file."""
    for path, text in values.found.texts.items():
        if path[0] == "ingredients" and isinstance(path[-1], int):
            yield text, str(path[1]) if len(path) == 3 else ""


def _check_id(line: Ingredient, kept: dict[str, Ingredient], taken: tuple[str, ...]) -> None:
    if line.id in taken:
        raise AmountError(
            "taken-id",
            f"'{line.name}' is already what the cure or the meat is called here.",
            "Name it apart from the cure's: salt for the pot, sugar for the glaze.",
        )
    first = kept.get(line.id)
    if first:
        raise AmountError(
            "same-id",
            f"'{line.name}' stands in line {first.position.line} already.",
            "Name them apart (butter for the pan), or add the amounts together.",
        )


def is_same_meat(name: str, meat: Meat) -> bool:
    """True for an ingredient that is the animal and the cut, in any order, and nothing else."""
    wanted = {word for word in _stems(meat.name) if word not in _UNSAID}
    return bool(wanted) and {word for word in _stems(name) if word not in _UNSAID} == wanted


def _stems(text: str) -> list[str]:
    return [word.removesuffix("s") for word in re.findall(r"[\w-]+", text.lower())]


def read_course(values: Values) -> tuple[Stage, ...]:
    """The stages in order."""
    stages: list[Stage] = []
    for path, text in values.found.texts.items():
        if path[0] != "course" or len(path) < 2:
            continue
        stage = _stage_alone(values, text) if len(path) == 2 else _stage_with_text(values, path, text)
        if stage is not None:
            stages.append(stage)
    return tuple(stages)


def _stage_alone(values: Values, text: Text) -> Stage | None:
    try:
        name = check_stage_name(text.value, values.grammar, alone=True)
    except AmountError as error:
        note(values.log, text, error)
        return None
    return Stage(name=name, written=text.value, position=text.position)


def _stage_with_text(values: Values, path: Path, text: Text) -> Stage | None:
    key = str(path[-1])
    at: Position = values.found.key(*path)
    try:
        name = check_stage_name(key, values.grammar, alone=False)
    except AmountError as error:
        values.log.add(error.slug, at, error.message, error.hint)
        return None
    try:
        return parse_stage(
            name, text.value, values.grammar, written=f"{key}: {text.value}".strip(": "), position=at
        )
    except AmountError as error:
        note(values.log, text, error)
        return None
