"""Facts of a recipe in, the quiet lines of its page out: allergens, plants, blanching, the height above the sea."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.facts.altitude import HIGHEST_M, boiling_point_c, feet, height_shown
from generator.compute.safety.facts.animals import meant
from generator.compute.safety.facts.blanching import asked_of, blanched, minutes_told
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.names import find_names
from generator.model.quantity import Temperature
from generator.model.recipe import Recipe
from generator.model.shown import show_decimal
from generator.tables import Tables

SHELLFISH = {
    **dict.fromkeys(("crayfish", "crab", "lobster", "shrimp"), "crustaceans"),
    **dict.fromkeys(("clam", "mussel", "oyster", "scallop", "whelk", "squid", "snail"), "molluscs"),
}
"Animals of the group shellfish. Source: zoology."
TOLD_FROM_FT = Fraction(1000)
"Source: the first break of the pressure table of USDA AIB 539."
BY_WATER = frozenset({"boil", "simmer", "braise", "blanch"})
"Stages whose heat is that of boiling water. Source: words of the trade."


def garden_facts(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """In the order in which a page shows them."""
    return (
        *_allergen_line(facts, tables),
        *_plant_lines(facts),
        *_blanching_line(facts, tables),
        *_altitude_line(facts),
    )


def _allergen_line(facts: Facts, tables: Tables) -> list[str]:
    """`Contains milk, wheat.` By the names of United States and European law; components count."""
    found = {
        allergen for recipe in (facts.recipe, *facts.parts) for allergen in _allergens_of(recipe, tables)
    }
    return [f"Contains {', '.join(sorted(found))}, as far as the ingredients' names tell."] if found else []


def _allergens_of(recipe: Recipe, tables: Tables) -> list[str]:
    """Of one recipe's own meat and lines."""
    found = [allergen for meat in recipe.meats for allergen in _of_animal(meat.animal, tables)]
    for line in recipe.ingredients:
        if line.link is None:
            found += tables.garden.allergens_in(line.name)
            found += _of_line(line.name, tables)
    return found


def _of_line(name: str, tables: Tables) -> list[str]:
    """Fish by the name of its kind: 1 lb walleye."""
    found = (one for one in find_names(tables.lexicon, name) if one.kind == "animal")
    return [
        allergen
        for one in found
        for animal in meant(one, tables)
        for allergen in _of_animal(animal.key, tables)
    ]


def _of_animal(name: str, tables: Tables) -> list[str]:
    animal = tables.animal(name) if name else None
    if animal is None:
        return []
    if animal.group == "fish":
        return ["fish"]
    return [SHELLFISH[animal.key]] if animal.key in SHELLFISH else []


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


def _altitude_line(facts: Facts) -> list[str]:
    """From 1,000 ft on, where something boils: how hot that is. Temperatures inside stay what they are."""
    altitude = facts.config.altitude_m
    if altitude is None or feet(altitude) < TOLD_FROM_FT or altitude > HIGHEST_M:
        return []
    if not any(stage.name in BY_WATER for stage in facts.recipe.stages):
        return []
    celsius = boiling_point_c(altitude_m=altitude)
    shown = f"{round(Temperature(celsius, 'C').fahrenheit)} °F ({show_decimal(Fraction(round(celsius)), places=0)} °C)"
    return [
        f"At {height_shown(altitude)} water boils near {shown}: allow more time at a boil or a simmer. "
        "Temperatures inside stay what they are."
    ]
