"""The smoke of a course in; how hot its air is, what it does to the meat, and what it may not be used for, out."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import FISH, Facts
from generator.compute.safety.facts.heat import WET_STAGES, Heat, reached
from generator.compute.safety.facts.meats import SMOKES
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import at_least, both_scales
from generator.model.recipe import Stage
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

WATER_PAN = re.compile(r"\b(?:water pan|pan of (?:hot )?water|steam|humid|moist|wet)")
HELD = re.compile(
    r"\b(?:half an hour|30 ?min|1/2 h(?:our)?|½ h(?:our)?|thirty minutes|an hour|1 h(?:our)?)\b"
)
FROZEN = re.compile(r"\b(?:frozen|from the freezer)\b")
THAWED = re.compile(r"\bthawed\b")


def _land(facts: Facts) -> list[str]:
    """Why there is meat that is neither fish nor shellfish."""
    return [meat.because for meat in facts.meats if meat.animal.group not in FISH]


def _fish(facts: Facts) -> list[str]:
    return [meat.because for meat in facts.meats if meat.animal.group == "fish"]


def smoker_air(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Raw, uncured meat: air of at least 225 °F. Hotter air is never a fault here; cured meat and fish are not judged."""
    index, raw = facts.first_stage("hot smoke"), _land(facts)
    if index is None or not raw or facts.nitrite or _is_cooked_before(index, facts, tables):
        return []
    stage, least = facts.recipe.stages[index], tables.constant("smoker_air_minimum_f")
    because = f"{raw[0]}, raw and without a curing salt"
    if stage.at is None:
        return cannot_tell(
            "smoker-air", f"{because}, and the air is not told", ("course",), tables, stage=index
        )
    coldest = stage.at.low.fahrenheit
    if coldest >= least:
        return [box("smoker-air", because, tables, stage=index)]
    return contradict(
        "smoker-air",
        facts,
        tables,
        log,
        position=stage.position,
        message=f"Raw meat without a curing salt is smoked in air of {both_scales(coldest)}, below {at_least(least)}.",
        hint="Smoke it in hotter air: hot smoke: 4 h at 225–250 °F to 165 °F inside. Or cure it with a curing salt.",
        because=f"{because}, in air of {both_scales(coldest)}",
        stage=index,
    )


def _is_cooked_before(index: int, facts: Facts, tables: Tables) -> bool:
    enough = tables.constant("cured_smoked_minimum_f")
    before = facts.recipe.stages[:index]
    return any(
        tables.stages.get(stage.name, False)
        and stage.inside is not None
        and stage.inside.fahrenheit >= enough
        for stage in before
    )


def smoke_humidity(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Meat that dry smoke alone cooks, to less than 165 °F: moisture helps. Quiet where a pot or a hotter end follows.

    Source: FSIS Revised Appendix A, 2021: no humidity is asked for where the heat is that of a liquid.
    """
    index, meat = facts.first_stage("hot smoke"), _land(facts)
    recipe = facts.recipe
    if index is None or not meat or recipe.eat_after_cooking:
        return []
    moist = any(
        stage.name in WET_STAGES or WATER_PAN.search(stage.until.lower()) for stage in recipe.stages[index:]
    )
    inside = facts.inside_f
    if moist or (inside is not None and inside >= tables.constant("wild_game_minimum_f")):
        return []
    because = "dry smoke cooks the meat, and no moisture is told"
    if inside is None:
        return cannot_tell("smoke-humidity", because, ("course",), tables, stage=index)
    return [box("smoke-humidity", f"{because}; it ends at {both_scales(inside)}", tables, stage=index)]


def cold_smoke(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Cold-smoked meat and fish are raw: cooked later in this course, or said to be eaten after cooking."""
    index, recipe = facts.first_stage("cold smoke"), facts.recipe
    meats = [meat.because for meat in facts.meats] + [f"it uses {part.name}" for part in facts.raw_components]
    if index is None or not meats:
        return []
    found = reached(recipe, tables.constant("cured_smoked_minimum_f"), tables)
    late = found.stage is not None and found.stage > index
    if recipe.eat_after_cooking or (found.heat is Heat.MET and late):
        return [box("cold-smoke-raw", meats[0], tables, stage=index)]
    if found.heat is Heat.UNKNOWN and late:
        because = f"{meats[0]}, and no later stage says how hot its middle gets"
        return cannot_tell("cold-smoke-raw", because, ("course",), tables, stage=index)
    return contradict(
        "cold-smoke-raw",
        facts,
        tables,
        log,
        position=recipe.stages[index].position,
        message="The meat is cold-smoked, which does not cook it, and no later stage does.",
        hint="Add a stage that cooks it, to 165 °F inside, or write eat: after cooking.",
        because=f"{meats[0]}, cold-smoked and not cooked",
        stage=index,
    )


def smoked_fish(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Hot-smoked fish: 160 °F inside, held for 30 minutes; the oven may finish it."""
    index, fish = facts.first_stage("hot smoke"), _fish(facts)
    if index is None or not fish:
        return []
    if facts.recipe.eat_after_cooking:
        return [box("hot-smoked-fish", fish[0], tables, stage=index)]
    least = tables.constant("smoked_fish_minimum_f")
    found = reached(facts.recipe, least, tables)
    if found.heat is Heat.NOT_MET and found.inside_f is not None:
        return contradict(
            "hot-smoked-fish",
            facts,
            tables,
            log,
            position=facts.recipe.stages[found.stage or index].position,
            message=f"The fish is smoked to {both_scales(found.inside_f)}, below {at_least(least)}.",
            hint="Write it: hot smoke: 3 h at 200–225 °F to 160 °F inside until it has held there for half an hour.",
            because=f"{fish[0]}, smoked to {both_scales(found.inside_f)}",
            stage=index,
        )
    if found.heat is not Heat.MET:
        because = f"{fish[0]}, and no stage says how hot it gets inside"
        return cannot_tell("hot-smoked-fish", because, ("course",), tables, stage=index)
    if not any(_is_held(stage, least, tables) for stage in facts.recipe.stages[index:]):
        because = f"{fish[0]}, and nothing says that it is held at {at_least(least)} for 30 minutes"
        return cannot_tell("hot-smoked-fish", because, ("course",), tables, stage=index)
    return [box("hot-smoked-fish", fish[0], tables, stage=index)]


def _is_held(stage: Stage, least: Fraction, tables: Tables) -> bool:
    """The words of the stage say so, or the stage is a holding in air that is hot enough."""
    if HELD.search(stage.until.lower()):
        return True
    hold = tables.constant("smoked_fish_hold_min")
    warm = stage.at is not None and stage.at.low.fahrenheit >= least
    return stage.name == "rest" and warm and stage.minutes is not None and stage.minutes.low >= hold


def smoke_thawed(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Frozen meat is thawed before it is smoked. Met, without a box: a thaw stands before, or nothing says frozen."""
    stages = facts.recipe.stages
    index = next((number for number, stage in enumerate(stages) if stage.name in SMOKES), None)
    if index is None:
        return []
    last = [stage.name for stage in stages[:index] if stage.name in ("freeze", "thaw")][-1:]
    words = [meat for meat in facts.meats if FROZEN.search(meat.words.lower())]
    if last == ["freeze"] or (words and last != ["thaw"]):
        said = words[0].words if words and last != ["freeze"] else "the meat"
        return contradict(
            "smoke-frozen",
            facts,
            tables,
            log,
            position=stages[index].position,
            message=f"'{stages[index].name}' comes while {said} is frozen.",
            hint="Put a stage before the smoke: thaw: in the fridge.",
            because=f"{said} is frozen when it is smoked",
            stage=index,
        )
    frozen = [
        part.name
        for line, part in facts.used
        if part.meat is not None and _ends_frozen(part.stages) and not THAWED.search(line.preparation.lower())
    ]
    if frozen and last != ["thaw"]:
        because = f"{frozen[0]} is kept frozen, and nothing says that it was thawed"
        return cannot_tell("smoke-frozen", because, ("course",), tables, stage=index)
    return []


def _ends_frozen(stages: tuple[Stage, ...]) -> bool:
    return bool(stages) and stages[-1].name == "freeze"
