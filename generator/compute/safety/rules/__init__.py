"""One file for each hazard, each ending in its `RULES`; among equals a box stands where its slug stands here."""

from generator.compute.safety.case import Rule
from generator.compute.safety.rules import (
    acid_jar,
    ahead,
    airless,
    blanching,
    canning,
    cool,
    cure_time,
    curing,
    deer,
    dried,
    farmed,
    ferment,
    field,
    foraged,
    game,
    keep,
    named,
    nitrite,
    nitrite_food,
    oil,
    pickle,
    plants,
    poisons,
    raw,
    ready,
    salt,
    simmer,
    slow_heat,
    smoke,
    thaw,
    told,
    unread,
    warm,
    wash,
)

HAZARDS = (
    *(unread, ready, game, farmed, raw, named, deer, field),
    *(nitrite, curing, cure_time, nitrite_food),
    *(plants, poisons, foraged),
    *(dried, canning, acid_jar, blanching, pickle, ferment, oil, airless),
    *(thaw, slow_heat, smoke, warm, cool, simmer, keep, wash),
    *(salt, ahead, told),
)
"Every file of this folder, in the order in which they look."

RULES: tuple[Rule, ...] = tuple(rule for hazard in HAZARDS for rule in hazard.RULES)
