"""Stages by which a dish is made ready ahead, or begun frozen, in; the refusal of a stuffed bird that waits, a box, out."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.meats import BIRDS, GROUND
from generator.compute.safety.facts.sour import lines_with
from generator.compute.safety.words import minutes_words
from generator.model.recipe import Stage

STUFFED, FROZEN = "stuffed-ahead", "frozen-slow-cooker"

WAITS_MIN = Fraction(60)
"[min] So long between the stuffing and the oven is ahead of it. Source: house choice; trussing takes less."
IS_FROZEN = re.compile(r"\bfrozen\b", re.IGNORECASE)
CASINGS = ("casings", "casing")
SLOW = ("slow cooker", "slow cook", "slow-cook")


def stuffed_ahead(case: Case) -> None:
    """Met, without a box: a bird goes from the stuffing into the heat. Not met: it waits. Sausage is no bird."""
    birds = [
        meat
        for meat in case.facts.meats
        if meat.animal.group in BIRDS and not GROUND.search(meat.words.lower())
    ]
    index = case.facts.first_stage("stuff")
    if index is None or not birds or _is_sausage(case):
        return
    waits = _waits(case, index)
    if waits is None:
        return
    length = minutes_words(int(waits.minutes.high)) if waits.minutes is not None else "a while"
    case.refuse(
        STUFFED,
        waits,
        birds[0],
        message=f"The bird is stuffed, and then waits {length} in '{waits.title}' before it is hot.",
        hint="Keep the stuffing by itself, and write the stage stuff just before the one that heats.",
        because=f"{birds[0].because}; it is stuffed and then waits {length} in '{waits.title}'",
        stage=index,
    )


def _is_sausage(case: Case) -> bool:
    """Ground meat is stuffed into casings, and may well hang there."""
    meats = case.recipe.meats
    ground = bool(meats) and all(meat.form == "ground" for meat in meats)
    return ground or case.facts.first_stage("grind") is not None or bool(lines_with(case.recipe, CASINGS))


def _waits(case: Case, index: int) -> Stage | None:
    """The first long stage between the stuffing and the heat."""
    for stage in case.stages[index + 1 :]:
        if case.tables.stages.get(stage.name, False):
            return None
        if stage.minutes is not None and stage.minutes.high > WAITS_MIN:
            return stage
    return None


def frozen_in_a_slow_cooker(case: Case) -> None:
    """A stage that says so; what sentences tell is heard as an act."""
    for index, stage in enumerate(case.stages):
        is_slow = stage.place in SLOW or stage.title in SLOW
        if is_slow and case.facts.meats and IS_FROZEN.search(stage.words):
            case.box(
                FROZEN, f"{case.facts.meats[0].because}; the stage says “{stage.words}”", stage, stage=index
            )


RULES = (
    Rule(slugs=(STUFFED,), look=stuffed_ahead),
    Rule(slugs=(FROZEN,), look=frozen_in_a_slow_cooker),
)
