"""Pieces that are not ready to eat in, and the dishes that take them; boxes, and the error of an uncooked one, out."""

from __future__ import annotations

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.heat import Heat, is_wet, reached
from generator.compute.safety.facts.meats import is_pumped, wild_game_of
from generator.compute.safety.game_heat import hazards
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import both_scales
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables

REHEAT = "reheat-165"
"Slug of the rule and of its row in minimums.csv."


def eat_after_cooking(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """`eat: after cooking`: the page says that nobody eats it as it is, and what the animal can carry."""
    if not facts.recipe.eat_after_cooking:
        return []
    reasons = ["the recipe ends before the piece is cooked through"]
    reasons += [hazard.reason for hazard in hazards(facts, wild_game_of(facts), tables)]
    if is_pumped(facts.recipe):
        reasons.append("the needle has brought what was outside into the middle")
    return [box("eat-after-cooking", "; ".join(reasons), tables)]


def component_is_cooked(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """A dish that takes a raw cured piece must bring its middle to the minimum, or be cooked later itself."""
    if not facts.raw_components or facts.recipe.eat_after_cooking:
        return []
    minimum = tables.constant("wild_game_minimum_f")
    found = reached(facts.recipe, minimum, tables)
    if found.heat is Heat.MET:
        return []
    names = ", ".join(component.name for component in facts.raw_components)
    told = found.heat is Heat.NOT_MET and found.inside_f is not None
    how = (
        f"only to {show_decimal(found.inside_f, places=0)} °F"
        if told and found.inside_f
        else "to no stated temperature"
    )
    log.add(
        "uncooked-component",
        facts.recipe.position,
        f"{facts.recipe.name} uses {names}, which is not ready to eat, and heats it {how}.",
        f"Add the temperature to the stage that cooks it: to {int(minimum)} °F inside.",
    )
    return []


def reheated(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Leftovers, and home-cured meat that a dish warms, are heated to 165 °F or eaten cold."""
    what = _cooked_before(facts)
    if not what:
        return []
    minimum = tables.heat.minimums[REHEAT].minimum_f
    found = reached(facts.recipe, minimum, tables)
    because = f"{what} was cooked before"
    if found.heat is Heat.UNKNOWN and not is_wet(facts.recipe):
        why = f"{because}, and no stage says how hot the middle gets"
        return cannot_tell(REHEAT, why, ("course",), tables, stage=found.stage)
    if found.heat is not Heat.NOT_MET or found.stage is None or found.inside_f is None:
        return []
    return contradict(
        REHEAT,
        facts,
        tables,
        log,
        position=facts.recipe.stages[found.stage].position,
        message=f"{what} is heated again only to {both_scales(found.inside_f)} inside.",
        hint=f"Write to {minimum} °F inside, or serve it cold.",
        because=because,
        stage=found.stage,
    )


def _cooked_before(facts: Facts) -> str:
    """What is heated for the second time: the recipe itself, by a stage, or cooked pieces that it takes without raw meat."""
    recipe = facts.recipe
    if recipe.eat_after_cooking or facts.raw_components:
        return ""
    if any(stage.name == "reheat" for stage in recipe.stages):
        return recipe.name
    pieces = [part.name for part in facts.components if part.meat is not None]
    return "" if facts.meats else ", ".join(pieces)
