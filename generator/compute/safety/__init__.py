"""Caution rules: facts of a recipe in, boxes and refusals out. `RULES` is the order in which boxes stand."""

from generator.compute.safety.check import RULES, check_safety, quiet_facts
from generator.compute.safety.facts.gather import Facts, gather_facts

__all__ = ["RULES", "Facts", "check_safety", "gather_facts", "quiet_facts"]
