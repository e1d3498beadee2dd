"""Rules for heat: wild game to its minimum, and pieces that are not ready to eat until a dish cooks them."""

from __future__ import annotations

from generator.compute.safety.box import box
from generator.compute.safety.facts import Facts
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables


def wild_game(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Every wild animal: 165 °F inside. A piece that is cooked later says so in its own box instead."""
    if not facts.wild or facts.recipe.eat_after_cooking:
        return []
    because = " and ".join(meat.because for meat in facts.wild)
    return [box("wild-game-165", because, tables)]


def eat_after_cooking(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """`eat: after cooking`: the page says that nobody eats it as it is."""
    if not facts.recipe.eat_after_cooking:
        return []
    return [box("eat-after-cooking", "the recipe ends before the piece is cooked through", tables)]


def component_is_cooked(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """A dish that takes a raw cured piece must bring its middle to the minimum, or be cooked later itself."""
    if not facts.raw_components or facts.recipe.eat_after_cooking:
        return []
    minimum = tables.constant("wild_game_minimum_f")
    inside = facts.inside_f
    if inside is not None and inside >= minimum:
        return []
    names = ", ".join(component.name for component in facts.raw_components)
    reached = f"only to {float(inside):.0f} °F" if inside is not None else "to no stated temperature"
    log.add(
        "uncooked-component",
        facts.recipe.position,
        f"{facts.recipe.name} uses {names}, which is not ready to eat, and heats it {reached}.",
        f"Add the temperature to the stage that cooks it: to {int(minimum)} °F inside.",
    )
    return []
