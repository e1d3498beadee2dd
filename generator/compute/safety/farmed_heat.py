"""Farmed meat and fish in, the refusal of a course that stays below their least temperature out."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.safety.facts.gather import Facts, MeatFact
from generator.compute.safety.facts.heat import Heat, Reached, is_wet, looks_finished, reached
from generator.compute.safety.facts.meats import (
    BIRDS,
    BONES,
    STUFFED,
    farmed_of,
    is_ground,
    is_opened,
    is_smoked,
    wild_game_of,
)
from generator.compute.safety.game_heat import how_hot
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import at_least, both_scales
from generator.model.recipe import Recipe
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.heat import Minimum

ALWAYS_TOLD = frozenset({"poultry-165", "stuffed-165", "ground-160", "not-intact-160"})
"Rules that speak up where an ingredient line brings the meat; for other lines a quiet line of the page does."
EGGS = re.compile(r"\beggs?\b")
DONE = re.compile(r"\bflak|\bopaque")
"What fish looks like when it is done, by the chart."


def farmed_meat(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """The least temperature of farmed meat and fish. Wild game in the same pot asks for more, and is judged alone."""
    found = strictest(facts, tables)
    if found is None or facts.recipe.eat_after_cooking:
        return []
    meat, minimum = found
    heat = reached(facts.recipe, minimum.minimum_f, tables)
    if heat.heat is Heat.MET or (heat.heat is Heat.RAW and not _raw_is_a_hazard(minimum)):
        return []
    if heat.heat is Heat.NOT_MET:
        return (
            [] if is_held(facts, minimum, heat, tables) else _refuse(facts, meat, minimum, heat, tables, log)
        )
    if not _is_told_in_a_box(facts, meat, minimum, heat):
        return []
    because = f"{meat.because}, and no stage says how hot the middle gets"
    missing = ("course", "eat") if heat.heat is Heat.RAW else ("course",)
    return cannot_tell(minimum.rule, because, missing, tables, stage=heat.stage)


def strictest(facts: Facts, tables: Tables) -> tuple[MeatFact, Minimum] | None:
    """The farmed meat of a recipe that asks for most; None where there is none, and where game asks for more."""
    if facts.wild or wild_game_of(facts):
        return None
    found = [
        (meat, tables.heat.minimums[rule])
        for meat in farmed_of(facts)
        if (rule := rule_for(meat, facts.recipe)) is not None
    ]
    return max(found, key=lambda pair: pair[1].minimum_f) if found else None


def rule_for(meat: MeatFact, recipe: Recipe) -> str | None:
    """The rule of one piece, the strictest first; None for what has none here (shellfish, bones for the pot)."""
    group = meat.animal.group
    if group == "shellfish" or BONES.search(meat.words.lower()):
        return None
    if group in BIRDS:
        return "poultry-165"
    if STUFFED.search(meat.words.lower()):
        return "stuffed-165"
    if group == "fish":
        return "fish-145"
    return _rule_for_red_meat(meat, recipe)


def _rule_for_red_meat(meat: MeatFact, recipe: Recipe) -> str:
    if is_ground(meat, recipe):
        return "ground-160"
    if is_opened(meat, recipe):
        return "not-intact-160"
    if meat.animal.group != "domestic":
        return "farmed-game-160"
    if recipe.cure is not None and is_smoked(recipe):
        return "cured-smoked-160"
    if any(EGGS.search(line.name.lower()) for line in recipe.ingredients):
        return "egg-dish-160"
    return "whole-cut-145"


def _raw_is_a_hazard(minimum: Minimum) -> bool:
    """Raw cures of whole farmed meat have rules of their own; salt, acid and cold smoke leave parasites in fish alive.

    Source: FDA Food Code 3-402.11, fish eaten raw or lightly cured.
    """
    return minimum.rule in ALWAYS_TOLD or minimum.rule == "fish-145"


def _is_told_in_a_box(facts: Facts, meat: MeatFact, minimum: Minimum, heat: Reached) -> bool:
    """A pot of boiling water goes beyond every least temperature, and fish shows when it is done."""
    if heat.heat is Heat.RAW:
        return looks_finished(facts.recipe) or meat.line is None
    if is_wet(facts.recipe):
        return False
    if minimum.rule == "fish-145":
        return meat.line is None and not any(DONE.search(stage.until) for stage in facts.recipe.stages)
    return meat.line is None or minimum.rule in ALWAYS_TOLD


def _refuse(
    facts: Facts, meat: MeatFact, minimum: Minimum, heat: Reached, tables: Tables, log: ProblemLog
) -> list[Caution]:
    least = at_least(minimum.minimum_f)
    assert heat.stage is not None
    return contradict(
        minimum.rule,
        facts,
        tables,
        log,
        position=facts.recipe.stages[heat.stage].position,
        message=f"{meat.words} is {how_hot(heat)}; {minimum.what} is cooked to {least}.",
        hint=f"Write a stage that ends with: to {minimum.minimum_f} °F inside. "
        "Or `eat: after cooking`, and a dish cooks it.",
        because=f"{meat.because}, cooked to {both_scales(heat.inside_f or Fraction(0))}",
        stage=heat.stage,
    )


def is_held(facts: Facts, minimum: Minimum, heat: Reached, tables: Tables) -> bool:
    """A whole roast below 145 °F that a later stage keeps at its temperature for as long as the table asks."""
    if minimum.rule != "whole-cut-145" or heat.inside_f is None or heat.by_air or heat.stage is None:
        return False
    seconds = hold_seconds(heat.inside_f, facts, tables)
    if seconds is None:
        return False
    return any(
        stage.minutes is not None
        and stage.at is not None
        and stage.at.low.fahrenheit >= heat.inside_f
        and stage.minutes.low * SECONDS >= seconds
        for stage in facts.recipe.stages[heat.stage + 1 :]
    )


SECONDS = Fraction(60)
"Source: seconds in a minute, a definition."
LOWEST_HELD_F = Fraction(135)
"[degF] Source: McMinn et al. 2018 did not find the kill at 130 °F; house choice of the first row well above it."
DRY_OR_SMOKED = frozenset({"dry", "cold smoke", "hot smoke"})
"Stages after or with which the table does not hold. Source: FSIS Revised Appendix A, 2021: dried products; gap 3."


def hold_seconds(inside_f: Fraction, facts: Facts, tables: Tables) -> Fraction | None:
    """Seconds [s] at a temperature by the longer of the two columns; None where the table does not hold."""
    if inside_f < LOWEST_HELD_F or any(stage.name in DRY_OR_SMOKED for stage in facts.recipe.stages):
        return None
    if facts.recipe.cure is not None and facts.recipe.cure.method == "dry":
        return None
    row = tables.heat.hold(inside_f)
    return None if row is None else max(row.seven_log_s, row.six_and_a_half_log_s)
