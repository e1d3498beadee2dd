"""Organs, mergansers, wild waterfowl and fish in; the advisories that go with them out."""

from __future__ import annotations

import re

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts, position_of
from generator.compute.safety.facts.meats import game_group, wild_game_of
from generator.compute.safety.verdict import contradict
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

ORGANS = re.compile(r"\b(?:livers?|kidneys?)\b")
MOOSE, MERGANSER = "moose", "merganser"


def merganser(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """No way of cooking makes one fit to eat."""
    return [
        found
        for meat in facts.meats
        if meat.animal.key == MERGANSER
        for found in contradict(
            MERGANSER,
            facts,
            tables,
            log,
            position=position_of(meat, facts),
            message=f"The recipe is of {meat.words}, and health authorities advise that nobody eats mergansers.",
            hint="Take another duck: wood duck and goose are commonly said to hold least.",
            because=meat.because,
        )
    ]


def organs(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Liver and kidney of the deer family; a moose's are advised against altogether."""
    boxes: list[Caution] = []
    for meat in wild_game_of(facts):
        organ = ORGANS.search(meat.words.lower())
        if organ is None or game_group(meat.animal) != "deer family":
            continue
        if meat.animal.key == MOOSE:
            boxes += contradict(
                "moose-organs",
                facts,
                tables,
                log,
                position=position_of(meat, facts),
                message=f"The recipe uses {meat.words}; advisories say no {organ.group()} of moose, or very little.",
                hint="Use the meat, or read the advisory of your own area.",
                because=meat.because,
            )
        else:
            boxes.append(box("deer-organs", meat.because, tables))
    return boxes


def waterfowl(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """On the page where the birds come in, not on the dishes made of them."""
    birds = [
        meat
        for meat in facts.meats
        if meat.is_wild and meat.animal.group == "waterfowl" and meat.animal.key != MERGANSER
    ]
    return [box("waterfowl-advice", birds[0].because, tables)] if birds else []


def fish(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Fish of the recipe's own `meat:`; a line of ingredients is as likely bought."""
    caught = [
        meat for meat in facts.meats if meat.is_wild and meat.animal.group == "fish" and meat.line is None
    ]
    return [box("fish-advice", caught[0].because, tables)] if caught else []
