"""The smoke of a course in; what it does to the meat, and what it may not be used for, out."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import FISH, MeatFact
from generator.compute.safety.facts.heat import WET_STAGES, Heat, Reached, reached
from generator.compute.safety.facts.meats import SMOKES
from generator.compute.safety.facts.pieces import Inside
from generator.compute.safety.words import at_least, both_scales
from generator.english.figures import lengths_in
from generator.model.recipe import Ingredient, Recipe, Stage

DRY_SMOKE, COLD_SMOKE, SMOKED_FISH, FROZEN = (
    "smoke-humidity",
    "cold-smoke-raw",
    "hot-smoked-fish",
    "smoke-frozen",
)

WATER_PAN = re.compile(r"\b(?:water pan|pan of (?:hot )?water|steam|humid|moist|wet)")
HOLDS = re.compile(r"\b(?:held|holds?|holding|kept|keep|stays?)\b")
SAYS_FROZEN = re.compile(r"\b(?:frozen|from the freezer)\b")
SAYS_THAWED = re.compile(r"\bthawed\b")


def humidity(case: Case) -> None:
    """Meat that dry smoke alone cooks, to less than 165 °F: moisture helps. Quiet where a pot or a hotter end follows.

    Source: FSIS Revised Appendix A, 2021: no humidity is asked for where the heat is that of a liquid.
    """
    index, inside = case.facts.first_stage("hot smoke"), case.facts.inside_f
    meats = [meat for meat in case.facts.meats if meat.animal.group not in FISH]
    if index is None or not meats or case.recipe.eat_after_cooking or _is_moist(case.stages[index:]):
        return
    because = "dry smoke cooks the meat, and no moisture is told"
    if inside is None:
        case.cannot_tell(DRY_SMOKE, because, ("course",), meats[0], stage=index)
    elif inside < case.constant("wild_game_minimum_f"):
        case.box(DRY_SMOKE, f"{because}; it ends at {both_scales(inside)}", meats[0], stage=index)


def _is_moist(stages: tuple[Stage, ...]) -> bool:
    return any(stage.name in WET_STAGES or WATER_PAN.search(stage.until.lower()) for stage in stages)


def cold_smoke(case: Case) -> None:
    """Cold-smoked meat and fish are raw: cooked later in this course, or said to be eaten after cooking."""
    index, meat = case.facts.first_stage("cold smoke"), _raw(case)
    if index is None or meat is None:
        return
    found = reached(case.recipe, case.constant("cured_smoked_minimum_f"), case.tables)
    cooks_later = found.stage is not None and found.stage > index
    if case.recipe.eat_after_cooking or (found.heat is Heat.MET and cooks_later):
        case.box(COLD_SMOKE, meat.because, meat.written, stage=index)
    elif found.heat is Heat.UNKNOWN and cooks_later:
        because = f"{meat.because}, and no later stage says how hot its middle gets"
        case.cannot_tell(COLD_SMOKE, because, ("course",), meat.written, stage=index)
    else:
        case.refuse(
            COLD_SMOKE,
            case.stages[index],
            meat.written,
            message="The meat is cold-smoked, which does not cook it, and no later stage does.",
            hint="Add a stage that cooks it, to 165 °F inside, or write eat: after cooking.",
            because=f"{meat.because}, cold-smoked and not cooked",
            stage=index,
        )


def _raw(case: Case) -> Inside | None:
    """The first meat of the recipe, else the first component that is not ready to eat."""
    own = [Inside(because=meat.because, written=meat) for meat in case.facts.meats]
    used = (
        Inside(because=f"it uses {part.name}", written=line)
        for line, part in case.facts.used
        if part.eat_after_cooking
    )
    return next(iter((*own, *used)), None)


def smoked_fish(case: Case) -> None:
    """Hot-smoked fish: 160 °F inside, held for 30 minutes; the oven may finish it."""
    index = case.facts.first_stage("hot smoke")
    fish = next((meat for meat in case.facts.meats if meat.animal.group == "fish"), None)
    if index is None or fish is None:
        return
    least = case.constant("smoked_fish_minimum_f")
    found = reached(case.recipe, least, case.tables)
    untold = _untold_of_fish(case, index, found, least)
    if case.recipe.eat_after_cooking:
        case.box(SMOKED_FISH, fish.because, fish, stage=index)
    elif found.heat is Heat.NOT_MET and found.inside_f is not None:
        smoked = f"smoked to {both_scales(found.inside_f)}"
        case.refuse(
            SMOKED_FISH,
            case.stages[found.stage or index],
            fish,
            message=f"The fish is {smoked}, below {at_least(least)}.",
            hint="Write it: hot smoke: 3 h at 200–225 °F to 160 °F inside, held 30 min.",
            because=f"{fish.because}, {smoked}",
            stage=index,
        )
    elif untold:
        case.cannot_tell(SMOKED_FISH, f"{fish.because}, and {untold}", ("course",), fish, stage=index)
    else:
        case.box(SMOKED_FISH, fish.because, fish, stage=index)


def _untold_of_fish(case: Case, index: int, found: Reached, least: Fraction) -> str:
    """What the course does not say; empty where it says that the fish is hot enough for long enough."""
    if found.heat is not Heat.MET:
        return "no stage says how hot it gets inside"
    if not any(_is_held(stage, least, case) for stage in case.stages[index:]):
        held = f"nothing says that it is held at {at_least(least)} for 30 minutes"
        return f"{held}; write it in the stage: to 160 °F inside, held 30 min"
    return ""


def _is_held(stage: Stage, least: Fraction, case: Case) -> bool:
    """The words of the stage say so, or the stage is a holding, in air or at a middle that is hot enough."""
    least_min = case.constant("smoked_fish_hold_min")
    if any(held >= least_min for held in _holds(stage)):
        return True
    air = stage.at is not None and stage.at.low.fahrenheit >= least
    middle = stage.inside is not None and stage.inside.fahrenheit >= least
    length = stage.minutes.low if stage.minutes is not None else Fraction(0)
    return stage.name == "rest" and (air or middle) and length >= least_min


def _holds(stage: Stage) -> Iterator[Fraction]:
    """Minutes of holding, behind `until` or in words of their own; never those of `turning every 30 min`."""
    of_holding = (part for part in stage.words.lower().split(",") if HOLDS.search(part))
    for words in (stage.until.lower(), *of_holding):
        yield from (one.minutes.low for one in lengths_in(words))


def thawed(case: Case) -> None:
    """Frozen meat is thawed before it is smoked. Met, without a box: a thaw stands before, or nothing says frozen."""
    index = next((number for number, stage in enumerate(case.stages) if stage.name in SMOKES), None)
    if index is None:
        return
    # only the last of these before the smoke counts: thawed and frozen again is frozen
    last = next((stage for stage in case.stages[:index][::-1] if stage.name in ("freeze", "thaw")), None)
    if last is not None:
        if last.name == "freeze":
            _refuse_frozen(case, index, "the meat", last)
        return
    frozen = next((meat for meat in case.facts.meats if SAYS_FROZEN.search(meat.words.lower())), None)
    used = next((use for use in case.facts.used if _is_kept_frozen(*use)), None)
    if frozen is not None:
        _refuse_frozen(case, index, frozen.words, frozen)
    elif used is not None:
        line, part = used
        because = f"{part.name} is kept frozen, and nothing says that it was thawed"
        case.cannot_tell(FROZEN, because, ("course",), line, stage=index)


def _refuse_frozen(case: Case, index: int, said: str, met: Stage | MeatFact) -> None:
    stage = case.stages[index]
    case.refuse(
        FROZEN,
        stage,
        met,
        message=f"'{stage.title}' comes while {said} is frozen.",
        hint="Put a stage before the smoke: thaw: in the fridge.",
        because=f"{said} is frozen when it is smoked",
        stage=index,
    )


def _is_kept_frozen(line: Ingredient, part: Recipe) -> bool:
    ends_frozen = bool(part.stages) and part.stages[-1].name == "freeze"
    return part.meat is not None and ends_frozen and not SAYS_THAWED.search(line.preparation.lower())


RULES = (
    Rule(slugs=(DRY_SMOKE,), look=humidity),
    Rule(slugs=(COLD_SMOKE,), look=cold_smoke),
    Rule(slugs=(SMOKED_FISH,), look=smoked_fish),
    Rule(slugs=(FROZEN,), look=thawed),
)
