"""Recipes that start from a carcass, age game or use gut-soiled meat in; their boxes out."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts, MeatFact
from generator.compute.safety.facts.heat import Heat, reached
from generator.compute.safety.facts.meats import BIRDS, game_group, is_ground, wild_game_of
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import at_most, both_scales
from generator.model.recipe import Stage
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables

CARCASS = re.compile(
    r"\b(?:carcass(?:es)?|undressed|field[- ]dressed|ungutted|unskinned|unplucked|"
    r"(?:in|with) (?:the )?(?:fur|feathers?|hide)|(?:hide|fur|feathers?) on)\b"
)
GUT = re.compile(r"\b(?:gut|paunch)[- ](?:shot|soiled|tainted)\b")
RISKY = frozenset({"dry", "grind", "stuff", "ferment", "cold smoke"})
"Stages of jerky and sausage. Source: Michigan State University Extension on game jerky."
AGE_DAYS = Fraction(5)
"[d] Source: University of Wisconsin Extension, venison, 2013: at or below 40 °F for up to 5 days."
COLD_PLACES = frozenset({"fridge", "freezer"})


def carcass(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Only where a recipe starts from the animal itself."""
    found = [meat for meat in wild_game_of(facts) if CARCASS.search(meat.words.lower())]
    if not found:
        return []
    reasons = [found[0].because, *(reason for meat in found for reason in _by_animal(meat, facts))]
    return [box("carcass", "; ".join(dict.fromkeys(reasons)), tables)]


def _by_animal(meat: MeatFact, facts: Facts) -> list[str]:
    group = game_group(meat.animal)
    if group == "wild pig":
        return [
            "wild pig can carry Brucella: cover the eyes, touch nothing with bare hands, keep children back, wash for "
            "20 seconds, and wipe tools with 1 cup of bleach to 9 of water"
        ]
    if group == "small game":
        return [
            "it can carry tularaemia: leave animals that were slow, and throw out any whose liver or spleen is said to "
            "show many pale spots"
        ]
    if group in BIRDS:
        return [
            "birds can carry influenza: leave sick and dead ones, dress them outdoors, keep tools from poultry"
        ]
    if group == "deer family" and facts.config.deer_disease_area is not False:
        return ["deer disease: touch brain and spine little, and keep kitchen knives out of it"]
    return []


def gut_soiled(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Never for jerky, sausage or a rare dish."""
    found = [meat for meat in facts.meats if GUT.search(meat.words.lower())]
    if not found:
        return []
    heat = reached(facts.recipe, tables.constant("wild_game_minimum_f"), tables)
    risky = [stage for stage in facts.recipe.stages if stage.name in RISKY]
    because = f"{found[0].words} was soiled by the gut"
    if risky or heat.heat in (Heat.NOT_MET, Heat.RAW):
        position = risky[0].position if risky else facts.recipe.position
        way = f"goes into '{risky[0].name}'" if risky else "is not cooked through"
        return contradict(
            "gut-soiled",
            facts,
            tables,
            log,
            position=position,
            message=f"Gut-soiled meat {way}.",
            hint="Trim it away widely and throw it out; cook what is left through.",
            because=because,
        )
    if heat.heat is Heat.UNKNOWN:
        return cannot_tell("gut-soiled", because, ("course",), tables)
    return [box("gut-soiled", because, tables)]


def ageing(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Fresh game that hangs. What lies in a cure ages by rules of its own."""
    if facts.recipe.cure is not None or not wild_game_of(facts):
        return []
    return [
        found
        for index, stage in enumerate(facts.recipe.stages)
        if stage.name == "age"
        for found in _aged(index, stage, facts, tables, log)
    ]


def _aged(index: int, stage: Stage, facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    because = f"{wild_game_of(facts)[0].because}, and it is aged"
    wrong = _wrong_with(stage, facts, tables)
    if wrong:
        return contradict(
            "age-cold",
            facts,
            tables,
            log,
            position=stage.position,
            message=f"Game is aged {wrong}.",
            hint=f"Write age: 4 days at 38 °F; at or below {at_most(tables.constant('cold_holding_maximum_f'))}, "
            f"{AGE_DAYS} days at the longest, and not what is ground afterwards.",
            because=because,
            stage=index,
        )
    if stage.minutes is None or (stage.at is None and stage.place not in COLD_PLACES):
        return cannot_tell(
            "age-cold", f"{because}; how cold or how long is not told", ("course",), tables, stage=index
        )
    return [box("age-cold", because, tables, stage=index)]


def _wrong_with(stage: Stage, facts: Facts, tables: Tables) -> str:
    maximum = tables.constant("cold_holding_maximum_f")
    if stage.at is not None and stage.at.high.fahrenheit > maximum:
        return f"at up to {both_scales(stage.at.high.fahrenheit)}, above {at_most(maximum)}"
    if stage.place == "counter":
        return "on the counter"
    if stage.minutes is not None and stage.minutes.high > AGE_DAYS * DAY_MIN:
        return f"for {show_decimal(stage.minutes.high / DAY_MIN, places=1)} days, longer than {AGE_DAYS}"
    if any(is_ground(meat, facts.recipe) for meat in wild_game_of(facts)):
        return "and then ground"
    return ""
