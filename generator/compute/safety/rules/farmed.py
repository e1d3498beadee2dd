"""Farmed meat, fish and what was cooked before in; the refusal of a course below its least temperature out."""

from __future__ import annotations

import re

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import MeatFact
from generator.compute.safety.facts.heat import Heat, Reached, is_wet, looks_finished, reached
from generator.compute.safety.facts.meats import is_ground
from generator.compute.safety.facts.minimums import (
    CURED_SMOKED,
    EGG_DISH,
    FARMED_GAME,
    FISH,
    GROUND,
    NOT_INTACT,
    POULTRY,
    STUFFED_MEAT,
    WHOLE_CUT,
    is_held,
    strictest,
)
from generator.compute.safety.facts.pieces import thickness_in
from generator.compute.safety.facts.times import DAY_MIN, stages_named
from generator.compute.safety.told import tells_inside
from generator.compute.safety.words import at_least, both_scales, how_hot
from generator.model.recipe import Ingredient, Meat, Recipe
from generator.tables.heat import Minimum

REHEAT, RAW_PORK = "reheat-165", "raw-pork"
"The first is also the key of its row in minimums.csv."
LEAST = (
    *(POULTRY, STUFFED_MEAT, FISH, GROUND, NOT_INTACT),
    *(FARMED_GAME, CURED_SMOKED, EGG_DISH, WHOLE_CUT),
)
ALWAYS_TOLD = frozenset({POULTRY, STUFFED_MEAT, GROUND, NOT_INTACT})
"Rules that speak up where an ingredient line brings the meat; for other lines a quiet line of the page does."
DONE = re.compile(r"\bflak|\bopaque")
"What fish looks like when it is done, by the chart."
FROZEN_DAYS = 20
"[d] Source: CDC, Trichinellosis, prevention page: pork thinner than 6 in, 20 days at 5 °F."
FROZEN_AT_F = 5
"[degF] Source: the same."
THIN_IN = 6
"[in] Source: the same, less than six inches thick."
UNTOLD = "no stage says how hot the middle gets"


def farmed_meat(case: Case) -> None:
    """The least temperature of farmed meat and fish. Wild game in the same pot asks for more, and is judged alone."""
    found = strictest(case.facts, case.tables)
    if found is None or case.recipe.eat_after_cooking:
        return
    meat, minimum = found
    heat = reached(case.recipe, minimum.minimum_f, case.tables)
    if heat.heat is Heat.NOT_MET and not is_held(case.facts, minimum, heat, case.tables):
        _refuse(case, meat, minimum, heat)
    elif _is_untold(case.recipe, meat, minimum, heat) and tells_inside(case, minimum.minimum_f) is None:
        missing = ("course", "eat") if heat.heat is Heat.RAW else ("course",)
        case.cannot_tell(minimum.rule, f"{meat.because}, and {UNTOLD}", missing, meat, stage=heat.stage)


def _is_untold(recipe: Recipe, meat: MeatFact, minimum: Minimum, heat: Reached) -> bool:
    """Heated by a stage that does not say how hot, or raw where that is a hazard."""
    if heat.heat is Heat.UNKNOWN:
        return _is_told_in_a_box(recipe, meat, minimum)
    return heat.heat is Heat.RAW and _raw_is_a_hazard(recipe, meat, minimum)


def _raw_is_a_hazard(recipe: Recipe, meat: MeatFact, minimum: Minimum) -> bool:
    """Raw cures of whole farmed meat have rules of their own; salt, acid and cold smoke leave parasites in fish alive.

    Source: FDA Food Code 3-402.11, fish eaten raw or lightly cured.
    """
    told = minimum.rule in ALWAYS_TOLD or minimum.rule == FISH
    return told and (looks_finished(recipe) or meat.line is None)


def _is_told_in_a_box(recipe: Recipe, meat: MeatFact, minimum: Minimum) -> bool:
    """A pot of boiling water goes beyond every least temperature, and fish shows when it is done."""
    if is_wet(recipe):
        return False
    if minimum.rule == FISH:
        return meat.line is None and not any(DONE.search(stage.until) for stage in recipe.stages)
    return meat.line is None or minimum.rule in ALWAYS_TOLD


def _refuse(case: Case, meat: MeatFact, minimum: Minimum, heat: Reached) -> None:
    # a course that is not met stays below a temperature that one of its stages tells
    assert heat.stage is not None
    assert heat.inside_f is not None
    heated = how_hot(heat.inside_f, by_air=heat.by_air)
    case.refuse(
        minimum.rule,
        case.stages[heat.stage],
        meat,
        message=f"{meat.words} is {heated}; {minimum.what} is cooked to {at_least(minimum.minimum_f)}.",
        hint=f"Write a stage that ends with: to {minimum.minimum_f} °F inside. "
        "Or `eat: after cooking`, and a dish cooks it.",
        because=f"{meat.because}, cooked to {both_scales(heat.inside_f)}",
        stage=heat.stage,
    )


def reheated(case: Case) -> None:
    """Leftovers, and home-cured meat that a dish warms, are heated to 165 °F or eaten cold."""
    what, lines = _cooked_before(case)
    if not what:
        return
    minimum = case.tables.heat.minimums[REHEAT].minimum_f
    found = reached(case.recipe, minimum, case.tables)
    because = f"{what} was cooked before"
    if found.heat is Heat.UNKNOWN and not is_wet(case.recipe):
        case.cannot_tell(REHEAT, f"{because}, and {UNTOLD}", ("course",), *lines, stage=found.stage)
    elif found.heat is Heat.NOT_MET and found.stage is not None and found.inside_f is not None:
        case.refuse(
            REHEAT,
            case.stages[found.stage],
            *lines,
            message=f"{what} is heated again only to {both_scales(found.inside_f)} inside.",
            hint=f"Write to {minimum} °F inside, or serve it cold.",
            because=because,
            stage=found.stage,
        )


def _cooked_before(case: Case) -> tuple[str, tuple[Ingredient, ...]]:
    """What is heated again: the recipe itself, by a stage, or cooked pieces it takes without raw meat; their lines."""
    facts, recipe = case.facts, case.recipe
    if recipe.eat_after_cooking or facts.raw_components:
        return "", ()
    if any(stage.name == "reheat" for stage in recipe.stages):
        return recipe.name, ()
    if facts.meats:
        return "", ()
    cured = [(line, part) for line, part in facts.used if part.meat is not None]
    return ", ".join(part.name for _, part in cured), tuple(line for line, _ in cured)


def raw_pork(case: Case) -> None:
    """Met by freezing, which works in farm pork and in no game; cooked pork has its least temperature instead."""
    recipe = case.recipe
    pork = [meat for meat in case.facts.meats if meat.animal.key == "pork" and not meat.is_wild]
    cured = recipe.cure is not None or bool(stages_named(recipe, ("cure",)))
    if not pork or recipe.eat_after_cooking or not (cured or looks_finished(recipe)):
        return
    least = case.tables.heat.minimums[WHOLE_CUT].minimum_f
    if reached(recipe, least, case.tables).heat is not Heat.RAW:
        return
    because = f"{pork[0].because}, and no stage cooks it"
    if looks_finished(recipe):
        _frozen(case, pork[0], because)
    else:
        case.cannot_tell(RAW_PORK, because, ("course", "eat"), pork[0])


def _frozen(case: Case, pork: MeatFact, because: str) -> None:
    """Long, cold and thin enough, in one freezing: a thaw between two begins the days anew."""
    frozen = stages_named(case.recipe, ("freeze",))
    if not frozen:
        case.box(RAW_PORK, because, pork)
        return
    cold = all(stage.at is not None and stage.at.high.fahrenheit <= FROZEN_AT_F for stage in frozen)
    lengths = [stage.minutes.low for stage in frozen if stage.minutes is not None]
    told = [thickness_in(meat, case.tables) for meat in case.recipe.meats if meat.animal == pork.animal.key]
    known = [thickness for thickness in told if thickness is not None]
    thick = max(known) if known and (len(known) == len(told) or max(known) >= THIN_IN) else None
    if len(lengths) < len(frozen) or not cold:
        because += "; how long and how cold it is frozen is not told"
        case.cannot_tell(RAW_PORK, because, ("course",), pork, *frozen)
    elif max(lengths) < FROZEN_DAYS * DAY_MIN or (thick is not None and thick >= THIN_IN):
        case.box(RAW_PORK, because, pork, *frozen)
    elif thick is None and _may_be_thick(case):
        because += (
            "; the days in the freezer are for pieces thinner than 6 in, and how thick it is is not told"
        )
        case.cannot_tell(RAW_PORK, because, ("meat.thickness",), pork, *frozen)


def _may_be_thick(case: Case) -> bool:
    """A whole piece of its own; what is ground, sliced or a line of a list is thin."""
    recipe = case.recipe
    own = [meat for meat in case.facts.meats if isinstance(meat.written, Meat)]
    return any(
        isinstance(meat.written, Meat) and meat.written.form != "sliced" and not is_ground(meat, recipe)
        for meat in own
    )


RULES = (
    Rule(slugs=LEAST, look=farmed_meat),
    Rule(slugs=(REHEAT,), look=reheated),
    Rule(slugs=(RAW_PORK,), look=raw_pork),
)
