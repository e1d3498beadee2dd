"""Pieces that are not ready to eat in, and the dishes that take them; boxes, and the error of an uncooked one, out."""

from __future__ import annotations

from generator.compute.safety.case import Case, Met, Rule
from generator.compute.safety.facts.heat import Heat, reached
from generator.compute.safety.facts.keeping import cooked_by
from generator.compute.safety.facts.meats import game_hazards, is_pumped
from generator.compute.safety.facts.simmered import simmered_through
from generator.compute.safety.words import at_least
from generator.model.recipe import Stage
from generator.model.results import Cause
from generator.model.shown import show_decimal

LATER, UNCOOKED = "eat-after-cooking", "uncooked-component"
"The second is an error of its own, without a box."


def eat_after_cooking(case: Case) -> None:
    """`eat: after cooking`: the page says that nobody eats it as it is, and what the animal can carry.

    Where the course has cooked it by then, the reason is the key alone.
    """
    recipe = case.recipe
    if not recipe.eat_after_cooking:
        return
    cooked = cooked_by(recipe, case.tables)
    reasons = [_why_later(case, cooked)]
    if cooked is None:
        reasons += [hazard.reason for hazard in game_hazards(case.facts, case.tables)]
    met: list[Met] = [Cause(kind="key", words="eat: after cooking", position=recipe.position)]
    met += case.facts.wild
    if cooked is None and recipe.cure is not None and is_pumped(recipe):
        reasons.append("the needle has brought what was outside into the middle")
        met.append(recipe.cure)
    case.box(LATER, "; ".join(reasons), *met)


def _why_later(case: Case, cooked: Stage | None) -> str:
    minimum = case.constant("wild_game_minimum_f")
    if cooked is not None:
        return f"the recipe says so, although the {cooked.name} brings the middle to {at_least(minimum)}"
    if reached(case.recipe, minimum, case.tables).heat is Heat.MET:
        return "it is raw until it is cooked to be eaten"
    return "the recipe ends before the piece is cooked through"


def component_is_cooked(case: Case) -> None:
    """A dish that takes a raw cured piece must bring its middle to the minimum, or be cooked later itself."""
    recipe, raw = case.recipe, case.facts.raw_components
    if not raw or recipe.eat_after_cooking:
        return
    minimum = case.constant("wild_game_minimum_f")
    found = reached(recipe, minimum, case.tables)
    if found.heat is Heat.MET or (
        found.heat is Heat.UNKNOWN and simmered_through(case.facts, (), case.tables)
    ):
        return
    told = found.inside_f if found.heat is Heat.NOT_MET else None
    how = f"only to {show_decimal(told, places=0)} °F" if told else "to no stated temperature"
    names = ", ".join(component.name for component in raw)
    case.log.add(
        UNCOOKED,
        recipe.position,
        f"{recipe.name} uses {names}, which is not ready to eat, and heats it {how}.",
        f"Add the temperature to the stage that cooks it: to {int(minimum)} °F inside.",
    )


RULES = (
    Rule(slugs=(LATER,), look=eat_after_cooking),
    Rule(slugs=(), look=component_is_cooked),
)
