"""Farmed meat and fish in, the row of minimums.csv that decides out, and how long a roast below it is held."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.safety.facts.gather import Facts, MeatFact
from generator.compute.safety.facts.heat import Reached
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
from generator.model.recipe import Recipe
from generator.tables import Tables
from generator.tables.heat import Minimum

POULTRY, STUFFED_MEAT, FISH = "poultry-165", "stuffed-165", "fish-145"
GROUND, NOT_INTACT, FARMED_GAME = "ground-160", "not-intact-160", "farmed-game-160"
CURED_SMOKED, EGG_DISH, WHOLE_CUT = "cured-smoked-160", "egg-dish-160", "whole-cut-145"
EGGS = re.compile(r"\beggs?\b")
SECONDS = Fraction(60)
"Source: seconds in a minute, a definition."
LOWEST_HELD_F = Fraction(135)
"[degF] Source: McMinn et al. 2018 did not find the kill at 130 °F; house choice of the first row well above it."
DRY_OR_SMOKED = frozenset({"dry", "cold smoke", "hot smoke"})
"Stages after or with which the table does not hold. Source: FSIS Revised Appendix A, 2021: dried products; gap 3."


def strictest(facts: Facts, tables: Tables) -> tuple[MeatFact, Minimum] | None:
    """The farmed meat of a recipe that asks for most; None where there is none, and where game asks for more."""
    if facts.wild or wild_game_of(facts):
        return None
    found = [
        (meat, tables.heat.minimums[key])
        for meat in farmed_of(facts)
        if (key := _minimum_of(meat, facts.recipe)) is not None
    ]
    return max(found, key=lambda pair: pair[1].minimum_f) if found else None


def _minimum_of(meat: MeatFact, recipe: Recipe) -> str | None:
    """The row of one piece, the strictest first; None for what has none here (shellfish, bones for the pot)."""
    group = meat.animal.group
    if group == "shellfish" or BONES.search(meat.words.lower()):
        return None
    if group in BIRDS:
        return POULTRY
    if STUFFED.search(meat.words.lower()):
        return STUFFED_MEAT
    if group == "fish":
        return FISH
    return _minimum_of_red_meat(meat, recipe)


def _minimum_of_red_meat(meat: MeatFact, recipe: Recipe) -> str:
    if is_ground(meat, recipe):
        return GROUND
    if is_opened(meat, recipe):
        return NOT_INTACT
    if meat.animal.group != "domestic":
        return FARMED_GAME
    if recipe.cure is not None and is_smoked(recipe):
        return CURED_SMOKED
    if any(EGGS.search(line.name.lower()) for line in recipe.ingredients):
        return EGG_DISH
    return WHOLE_CUT


def is_held(facts: Facts, minimum: Minimum, heat: Reached, tables: Tables) -> bool:
    """A whole roast below 145 °F that a later stage keeps at its temperature for as long as the table asks."""
    # the air of an oven says nothing of how long the middle was that hot
    if minimum.rule != WHOLE_CUT or heat.inside_f is None or heat.by_air or heat.stage is None:
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


def hold_seconds(inside_f: Fraction, facts: Facts, tables: Tables) -> Fraction | None:
    """Seconds [s] at a temperature by the longer of the two columns; None where the table does not hold."""
    if inside_f < LOWEST_HELD_F or any(stage.name in DRY_OR_SMOKED for stage in facts.recipe.stages):
        return None
    if facts.recipe.cure is not None and facts.recipe.cure.method == "dry":
        return None
    row = tables.heat.hold(inside_f)
    return None if row is None else max(row.seven_log_s, row.six_and_a_half_log_s)
