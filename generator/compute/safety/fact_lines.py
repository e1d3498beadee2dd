"""Facts of a recipe in, the quiet lines of its page out: allergens, plants, blanching, altitude. Never a box."""

from __future__ import annotations

from generator.compute.safety.allergens import allergen_line
from generator.compute.safety.altitude import altitude_line
from generator.compute.safety.facts.blanching import asked_of, blanched, minutes_told
from generator.compute.safety.facts.gather import Facts
from generator.tables import Tables


def garden_facts(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """In the order in which a page shows them."""
    return (
        *allergen_line(facts, tables),
        *_plant_lines(facts),
        *_blanching_line(facts, tables),
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
    if nitrate and not facts.is_for_babies:
        lines.append(
            f"Rich in nitrate ({nitrate}): commonly advised against for babies in their first months, and not to be "
            "kept warm for them."
        )
    if _names(facts, "rhubarb-stalk"):
        lines.append("Of rhubarb only the stalk is eaten; its leaves are poisonous.")
    return lines


def _blanching_line(facts: Facts, tables: Tables) -> list[str]:
    """The published minutes of what is blanched and frozen."""
    told = "; ".join(dict.fromkeys(minutes_told(one) for one in asked_of(facts, tables)))
    if not told or blanched(facts) is None:
        return []
    return [f"Blanching: {told}; counted from when the boil comes back. Cool as long."]


def _names(facts: Facts, rule: str) -> str:
    return ", ".join(dict.fromkeys(fact.plant.key for fact in facts.plants if fact.has(rule)))
