"""Facts in, boxes and problems out, by the rules in the order of `RULES`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.compute.safety import rules as hazards
from generator.compute.safety.case import Case
from generator.compute.safety.cool import cooling
from generator.compute.safety.fact_lines import garden_facts
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.heat_facts import heat_facts
from generator.compute.safety.keep import keep_freezer, keep_fridge, shelf_meat, stuffed_bird, vacuum_fish
from generator.compute.safety.merge import merge
from generator.compute.safety.quiet_times import time_lines
from generator.compute.safety.simmer import simmer
from generator.compute.safety.smoke import cold_smoke, smoke_humidity, smoke_thawed, smoked_fish, smoker_air
from generator.compute.safety.warm_hours import come_up, danger_hours
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyRule:
    """One rule: looks at facts, gives its boxes, and reports a recipe that contradicts it."""

    slug: str
    look: Callable[[Facts, Tables, ProblemLog], list[Caution]]


RULES: tuple[SafetyRule, ...] = (
    SafetyRule(slug="smoker-air", look=smoker_air),
    SafetyRule(slug="come-up-time", look=come_up),
    SafetyRule(slug="smoke-humidity", look=smoke_humidity),
    SafetyRule(slug="cold-smoke-raw", look=cold_smoke),
    SafetyRule(slug="hot-smoked-fish", look=smoked_fish),
    SafetyRule(slug="smoke-frozen", look=smoke_thawed),
    SafetyRule(slug="danger-hours", look=danger_hours),
    SafetyRule(slug="cool-two-steps", look=cooling),
    SafetyRule(slug="simmer-too-short", look=simmer),
    SafetyRule(slug="vacuum-fish", look=vacuum_fish),
    SafetyRule(slug="shelf-meat", look=shelf_meat),
    SafetyRule(slug="keep-fridge", look=keep_fridge),
    SafetyRule(slug="keep-freezer", look=keep_freezer),
    SafetyRule(slug="frozen-stuffed-bird", look=stuffed_bird),
)


ORDER = (
    *("eat-after-cooking", "uncooked-component"),
    *("wild-game-165", "trichinella", "high-risk-game-165"),
    *(
        "poultry-165",
        "stuffed-165",
        "fish-145",
        "ground-160",
        "not-intact-160",
        "farmed-game-160",
        "cured-smoked-160",
        "egg-dish-160",
        "whole-cut-145",
        "reheat-165",
        "raw-pork",
    ),
    *(
        "merganser",
        "deer-disease",
        "deer-bones",
        "deer-disease-parts",
        "moose-organs",
        "deer-organs",
        "waterfowl-advice",
        "fish-advice",
    ),
    *("gut-soiled", "age-cold", "carcass", "lead-shot"),
    *("nitrite-handling", "nitrite-unclear", "vegetable-nitrite", "cure-cold", "below-40", "below-120"),
    *("cure-time", "cure-time-unknown", "grey-middle"),
    *("fried-cured-belly", "infant-nitrite", "infant-greens"),
    *("pokeweed", "elder-leaf", "rhubarb-leaf", "elderberry", "fiddlehead", "nettle", "watercress-fluke"),
    *("morel", "wild-mushrooms", "mushroom-sealed"),
    *("ramps-lookalike", "foraged"),
    *("jerky", "uncooked-ferment", "fermented-sausage"),
    *("canning-cured", "canning", "canning-untested"),
    *("blanch-time",),
    *("pickle-acid", "ferment-salt", "ferment-place"),
    *("oil-infusion",),
    *("thaw-counter", "thaw-warm-steak", "thaw-cold-water", "thaw-vacuum-fish"),
    *(
        "smoker-air",
        "come-up-time",
        "smoke-humidity",
        "cold-smoke-raw",
        "hot-smoked-fish",
        "smoke-frozen",
        "danger-hours",
        "cool-two-steps",
        "thick-cooling",
        "simmer-too-short",
    ),
    *("vacuum-fish", "shelf-meat", "keep-fridge", "keep-freezer", "frozen-stuffed-bird"),
)
"The order of boxes among equal signals, until every hazard has its file."


def check_safety(facts: Facts, tables: Tables, log: ProblemLog) -> tuple[Caution, ...]:
    """Every box of a recipe, one for each slug, the gravest first; contradictions go to the log."""
    boxes: list[Caution] = []
    for hazard in hazards.RULES:
        hazard.look(Case(facts=facts, tables=tables, log=log, slugs=hazard.slugs, boxes=boxes))
    boxes += [caution for rule in RULES for caution in rule.look(facts, tables, log)]
    rank = {slug: place for place, slug in enumerate(ORDER)}
    return merge(sorted(boxes, key=lambda box: rank[box.slug]))


QUIET: tuple[Callable[[Facts, Tables], tuple[str, ...]], ...] = (heat_facts, garden_facts, time_lines)
"What is told in a quiet line, never in a box; in the order of the page."


def quiet_facts(facts: Facts, tables: Tables) -> tuple[str, ...]:
    """Every quiet line of a recipe, each once."""
    return tuple(dict.fromkeys(line for tell in QUIET for line in tell(facts, tables)))
