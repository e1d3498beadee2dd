"""Rules for recipes with a curing salt: handling it, keeping the cure cold, and what too little of it loses."""

from __future__ import annotations

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables


def nitrite_handling(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Every recipe with nitrite: the scale, the lock, the label, and when to throw it away."""
    if not facts.nitrite or facts.cure is None:
        return []
    return [box("nitrite-handling", f"the cure uses {facts.cure.kind.title}", tables)]


def cure_cold(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Every cure: brine and meat are cold before they meet, beside the cure stage where there is one."""
    if facts.recipe.cure is None:
        return []
    because = (
        "raw meat lies in the brine" if facts.recipe.cure.method == "brine" else ("raw meat lies in the cure")
    )
    return [box("cure-cold", f"{because} for the whole time", tables, stage=facts.first_stage("cure"))]


def low_nitrite(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Below the policy minimum a box says what is lost; below the preservative level it is colour only.

    A belly in a brine may not have more than 120 ppm, so there the minimum says nothing.
    """
    cure = facts.cure
    if not facts.nitrite or cure is None or cure.limit is None:
        return []
    figure = next((f for f in (cure.pick_up_ppm, cure.whole_system_ppm, cure.dry_ppm) if f is not None), None)
    ppm = cure.ppm_range.low if cure.ppm_range is not None else figure
    if ppm is None:
        return []
    because = f"the ingoing nitrite is {show_decimal(ppm, places=0)} ppm"
    if ppm < tables.constant("preservative_minimum_ppm"):
        return [box("below-40", because, tables)]
    if ppm < tables.constant("policy_minimum_ppm") < cure.limit.limit_ppm:
        return [box("below-120", because, tables)]
    return []
