"""One file for each hazard, each ending in its `RULES`; among equals a box stands where its slug stands here."""

from generator.compute.safety.case import Rule
from generator.compute.safety.rules import thaw

HAZARDS = (thaw,)
"Every file of this folder, in the order in which they look."

RULES: tuple[Rule, ...] = tuple(rule for hazard in HAZARDS for rule in hazard.RULES)
