"""One file for each hazard, each ending in its `RULES`; among equals a box stands where its slug stands here."""

from generator.compute.safety.case import Rule
from generator.compute.safety.rules import deer, farmed, field, foraged, game, named, plants, ready, thaw

HAZARDS = (ready, game, farmed, named, deer, field, plants, foraged, thaw)
"Every file of this folder, in the order in which they look."

RULES: tuple[Rule, ...] = tuple(rule for hazard in HAZARDS for rule in hazard.RULES)
