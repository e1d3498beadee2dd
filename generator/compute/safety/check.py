"""Facts in, boxes and problems out, by the rules in the order of `RULES`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from generator.compute.safety.cure_time import cure_time
from generator.compute.safety.curing import cure_cold, low_nitrite, nitrite_handling
from generator.compute.safety.facts import Facts
from generator.compute.safety.heat import component_is_cooked, eat_after_cooking, wild_game
from generator.compute.safety.refusals import cold_smoke_sealed, nitrate_quick_cure, warm_cure
from generator.compute.safety.thick import grey_middle
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables


@dataclass(frozen=True, slots=True, kw_only=True)
class SafetyRule:
    """One rule: looks at facts, gives its boxes, and reports a recipe that contradicts it."""

    slug: str
    look: Callable[[Facts, Tables, ProblemLog], list[Caution]]


RULES: tuple[SafetyRule, ...] = (
    SafetyRule(slug="eat-after-cooking", look=eat_after_cooking),
    SafetyRule(slug="uncooked-component", look=component_is_cooked),
    SafetyRule(slug="wild-game-165", look=wild_game),
    SafetyRule(slug="nitrite-handling", look=nitrite_handling),
    SafetyRule(slug="cure-cold", look=cure_cold),
    SafetyRule(slug="low-nitrite", look=low_nitrite),
    SafetyRule(slug="cure-time", look=cure_time),
    SafetyRule(slug="grey-middle", look=grey_middle),
    SafetyRule(slug="warm-cure", look=warm_cure),
    SafetyRule(slug="cold-smoke-sealed", look=cold_smoke_sealed),
    SafetyRule(slug="nitrate-quick-cure", look=nitrate_quick_cure),
)


def check_safety(facts: Facts, tables: Tables, log: ProblemLog) -> tuple[Caution, ...]:
    """Every box of a recipe; contradictions go to the log."""
    return tuple(caution for rule in RULES for caution in rule.look(facts, tables, log))
