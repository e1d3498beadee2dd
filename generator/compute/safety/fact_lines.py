"""Facts of a recipe in, the quiet lines of its page out: allergens, plants, blanching, altitude. Never a box."""

from __future__ import annotations

from generator.compute.safety.allergens import allergen_line
from generator.compute.safety.altitude import altitude_line
from generator.compute.safety.blanching import blanching_lines
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.nitrite_food import is_for_babies
from generator.tables import Tables


def garden_facts(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """In the order in which a page shows them."""
    return (
        *allergen_line(facts, tables),
        *_plant_lines(facts),
        *blanching_lines(facts, tables),
        *altitude_line(facts),
    )


def _plant_lines(facts: Facts) -> list[str]:
    """Advice that only some readers need; second-hand or from memory, so in softer words."""
    lines = []
    oxalate, nitrate = _names(facts, "oxalate"), _names(facts, "nitrate")
    if oxalate:
        lines.append(
            f"Rich in oxalate ({oxalate}): people with kidney stones or kidney disease are commonly advised to eat "
            "little of it."
        )
    if nitrate and not is_for_babies(facts.recipe):
        lines.append(
            f"Rich in nitrate ({nitrate}): commonly advised against for babies in their first months, and not to be "
            "kept warm for them."
        )
    if _names(facts, "rhubarb-stalk"):
        lines.append("Of rhubarb only the stalk is eaten; its leaves are poisonous.")
    return lines


def _names(facts: Facts, rule: str) -> str:
    return ", ".join(dict.fromkeys(fact.plant.key for fact in facts.plants if fact.has(rule)))
