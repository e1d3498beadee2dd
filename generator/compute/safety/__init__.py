"""Caution rules: facts of a recipe in, boxes, refusals and quiet lines out."""

from generator.compute.safety.check import check_safety
from generator.compute.safety.facts.gather import Facts, gather_facts
from generator.compute.safety.quiet import quiet_facts
from generator.compute.safety.text import judge_text

__all__ = ["Facts", "check_safety", "gather_facts", "judge_text", "quiet_facts"]
