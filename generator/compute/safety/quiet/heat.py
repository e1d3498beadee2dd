"""How a recipe is heated in, quiet lines for its page out: least temperature, hold time, the thermometer's error."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.facts.gather import Facts, MeatFact
from generator.compute.safety.facts.heat import Heat, reached
from generator.compute.safety.facts.keeping import is_called_jerky
from generator.compute.safety.facts.meats import BIRDS, WHOLE, is_ground, wild_game_of
from generator.compute.safety.facts.minimums import FISH, SECONDS, WHOLE_CUT, hold_seconds, strictest
from generator.compute.safety.facts.pieces import piece_lb
from generator.compute.safety.words import at_least, both_scales
from generator.tables import Tables
from generator.tables.heat import Minimum

WHOLE_BIRD_CANADA_F = Fraction(180)
"[degF] Source: Health Canada, Safe internal cooking temperatures, 2012: whole game birds."
ERROR_F = Fraction(1)
"[degF] Source: FSIS Revised Appendix A, 2021, selection of critical limit: an instrument of 1 °F is set 1 °F higher."
DRIED_F = Fraction(160)
"[degF] Source: USDA FSIS, Jerky and Food Safety: meat to 160 °F."
MOIST_BELOW_F = Fraction(145)
"[degF] Source: FSIS Revised Appendix A, 2021, table 1: below it the air must be moist all through."
HEAVY_LB = Fraction(10)
"[lb] Source: FDA Food Code 3-401.11(B)(1): from here on a dry oven may be as low as 250 °F."
OVEN_HEAVY_F, OVEN_LIGHT_F = Fraction(250), Fraction(350)
"[degF] Source: FDA Food Code 3-401.11(B)(1): still, dry ovens."
OVEN_STAGES = frozenset({"roast", "bake"})


def heat_facts(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """Lines about heat; none for a recipe without meat, and none that a box says already."""
    if facts.recipe.eat_after_cooking:
        return ()
    lines = [*_farmed(facts, tables), *_birds(facts), *_components(facts, tables)]
    least = _least(facts, tables)
    if least is not None and any(stage.inside is not None for stage in facts.recipe.stages):
        lines.append(
            "Add your thermometer's own error: one that may be 1 °F (0.6 °C) off shows "
            f"{at_least(least + ERROR_F)} where {at_least(least)} is certain."
        )
    return tuple(lines)


def _least(facts: Facts, tables: Tables) -> Fraction | None:
    if facts.wild or facts.raw_components:
        return tables.constant("wild_game_minimum_f")
    found = strictest(facts, tables)
    if found is None:
        return None
    return max(found[1].minimum_f, DRIED_F) if is_called_jerky(facts, tables) else found[1].minimum_f


def _farmed(facts: Facts, tables: Tables) -> list[str]:
    found = strictest(facts, tables)
    # what is dried thin has a box with more degrees than a roast
    if found is None or not facts.heating or is_called_jerky(facts, tables):
        return []
    meat, minimum = found
    rest = f", then let it rest {minimum.rest_min} minutes" if minimum.rest_min else ""
    flakes = ", or until it is opaque and flakes" if minimum.rule == FISH else ""
    line = f"Cook {meat.animal.title.lower()} to at least {at_least(minimum.minimum_f)} inside{flakes}{rest}."
    return [line, *_hold(facts, meat, minimum, tables)]


def _hold(facts: Facts, meat: MeatFact, minimum: Minimum, tables: Tables) -> list[str]:
    """Hold time of a whole farmed roast at the recipe's own inside temperature. Never for game, birds or fish."""
    found = reached(facts.recipe, Fraction(0), tables)
    if minimum.rule != WHOLE_CUT or found.heat is not Heat.MET or found.inside_f is None:
        return []
    if (
        meat.line is not None
        or found.stage is None
        or facts.recipe.stages[found.stage].name not in OVEN_STAGES
    ):
        return []
    seconds = hold_seconds(found.inside_f, facts, tables)
    if not seconds:
        return []
    length = f"{seconds / SECONDS} minutes" if seconds % SECONDS == 0 else f"{seconds} seconds"
    line = (
        f"At {both_scales(found.inside_f)} inside, a whole farmed roast stays that hot for {length} or longer"
    )
    oven = _oven(facts, found.stage, tables)
    moist = " in moist air, a bag or liquid" if found.inside_f < MOIST_BELOW_F else ""
    return [f"{line}{moist}{oven} (inspectors' table of 1999, the longer column)."]


def _oven(facts: Facts, stage: int, tables: Tables) -> str:
    """What a still, dry oven is set to, where the recipe's own is colder or not told."""
    at, weight_lb = facts.recipe.stages[stage].at, _piece_lb(facts, tables)
    heavy = weight_lb is not None and weight_lb >= HEAVY_LB
    needed = OVEN_HEAVY_F if heavy else OVEN_LIGHT_F
    if at is not None and at.low.fahrenheit >= needed:
        return ""
    return f"; a still, dry oven is set to {at_least(needed)} or hotter for it"


def _piece_lb(facts: Facts, tables: Tables) -> Fraction | None:
    told = (piece_lb(meat, tables) for meat in facts.recipe.meats)
    return max((pounds for pounds in told if pounds is not None), default=None)


def _birds(facts: Facts) -> list[str]:
    whole = any(
        meat.animal.group in BIRDS
        and WHOLE.search(meat.words.lower()) is not None
        and not is_ground(meat, facts.recipe)
        for meat in wild_game_of(facts)
    )
    return [f"Canada asks for {both_scales(WHOLE_BIRD_CANADA_F)} in a whole game bird."] if whole else []


def _components(facts: Facts, tables: Tables) -> list[str]:
    cooked = [part.name for part in facts.components if part.meat is not None and not part.eat_after_cooking]
    if not cooked or not facts.heating or facts.raw_components:
        return []
    least = tables.heat.minimums["reheat-165"].minimum_f
    return [f"Heat {', '.join(cooked)} through to {at_least(least)}, or eat it cold."]
