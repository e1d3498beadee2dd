"""A piece of meat as written in, what its words say of it out: ground, opened, stuffed, of which kind of game."""

from __future__ import annotations

import re

from generator.compute.safety.facts.gather import FISH, Facts, MeatFact, is_wild
from generator.model.published import Animal
from generator.model.recipe import Meat, Recipe
from generator.tables import Tables
from generator.tables.heat import GameHazard

GROUND = re.compile(r"\b(?:ground|minced?|burgers?|hamburgers?|sausages?|sausage meat)\b")
OPENED = re.compile(
    r"\b(?:injected|pumped|needled|tumbled|tenderi[sz]ed|jaccarded|cubed steaks?|boned and rolled|rolled)\b"
)
STUFFED = re.compile(r"\bstuffed\b")
WHOLE = re.compile(r"\bwhole\b")
BONES = re.compile(r"\b(?:bones?|carcass(?:es)?|frames?)\b")
GROUND_STAGES = frozenset({"grind", "stuff"})
"Stages that only ground meat goes through; a bird is filled. Source: words of the trade."

DEER = "deer family"
BIRDS = frozenset({"waterfowl", "upland bird", "poultry"})
"Groups of animals."
SMOKES = frozenset({"cold smoke", "hot smoke"})
"Source: words of the trade."


def is_ground(meat: MeatFact, recipe: Recipe) -> bool:
    """By its own words, by `form:`, or by a stage that grinds all of it."""
    own_form = meat.written.form if isinstance(meat.written, Meat) else None
    return (
        own_form == "ground"
        or GROUND.search(meat.words.lower()) is not None
        or any(stage.name in GROUND_STAGES for stage in recipe.stages if not _is_filled(meat, recipe))
    )


def _is_filled(meat: MeatFact, recipe: Recipe) -> bool:
    """A bird with a stage `stuff` and none that grinds takes a stuffing."""
    return meat.animal.group in BIRDS and all(stage.name != "grind" for stage in recipe.stages)


def is_smoked(recipe: Recipe) -> bool:
    """Cold or hot."""
    return any(stage.name in SMOKES for stage in recipe.stages)


def is_pumped(recipe: Recipe) -> bool:
    """A needle carried brine into the meat."""
    cure = recipe.cure
    return cure is not None and (cure.pump_percent is not None or cure.pump_brine is not None)


def is_opened(meat: MeatFact, recipe: Recipe) -> bool:
    """Injected, tenderised by needle or blade, tumbled or rolled: the outside has got inside."""
    own = meat.line is None and is_pumped(recipe)
    return own or OPENED.search(meat.words.lower()) is not None


def game_group(animal: Animal) -> str:
    """The group whose hazards a wild animal has: a pig gone wild is a wild pig."""
    if animal.group == "poultry":
        return "upland bird"
    if animal.group == "domestic":
        return "wild pig" if animal.key == "pork" else "other game"
    return animal.group


def wild_game_of(facts: Facts) -> tuple[MeatFact, ...]:
    """Raw meat of wild animals in the recipe itself, without fish and shellfish."""
    return tuple(meat for meat in facts.meats if meat.is_wild and meat.animal.group not in FISH)


def game_hazards(facts: Facts, tables: Tables) -> tuple[GameHazard, ...]:
    """What the recipe's own game can carry, then that of the raw components it cooks; each reason once."""
    animals = [meat.animal for meat in wild_game_of(facts)]
    for meat in (meat for part in facts.raw_components for meat in part.meats):
        animal = tables.animal(meat.animal)
        if animal is not None and is_wild(animal, meat.source):
            animals.append(animal)
    rows = tables.heat.game
    found = [rows[group] for group in map(game_group, animals) if group in rows]
    return tuple({hazard.reason: hazard for hazard in found}.values())


def farmed_of(facts: Facts) -> tuple[MeatFact, ...]:
    """Farmed meat, and fish of any kind."""
    return tuple(meat for meat in facts.meats if not meat.is_wild or meat.animal.group == "fish")
