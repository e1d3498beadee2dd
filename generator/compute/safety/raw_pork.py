"""Farm pork that is cured and never cooked in, the box on Trichinella out."""

from __future__ import annotations

from generator.compute.safety.box import box
from generator.compute.safety.facts import Facts
from generator.compute.safety.reached import Heat, looks_finished, reached
from generator.compute.safety.times import days_in, stages_named
from generator.compute.safety.verdict import cannot_tell
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

FROZEN_DAYS = 20
"[d] Source: CDC, Trichinellosis, prevention page: pork thinner than 6 in, 20 days at 5 °F."
FROZEN_AT_F = 5
"[degF] Source: the same."


def raw_pork(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met by freezing, which works in farm pork and in no game; cooked pork has its least temperature instead."""
    pork = [meat for meat in facts.meats if meat.animal.key == "pork" and not meat.is_wild]
    if not pork or facts.recipe.eat_after_cooking or not (_is_cured(facts) or looks_finished(facts.recipe)):
        return []
    if reached(facts.recipe, tables.heat.minimums["whole-cut-145"].minimum_f, tables).heat is not Heat.RAW:
        return []
    because = f"{pork[0].because}, and no stage cooks it"
    if not looks_finished(facts.recipe):
        return cannot_tell("raw-pork", because, ("course", "eat"), tables)
    frozen = stages_named(facts.recipe, ("freeze",))
    days = days_in(facts.recipe, ("freeze",))
    if not frozen:
        return [box("raw-pork", because, tables)]
    cold = all(stage.at is not None and stage.at.high.fahrenheit <= FROZEN_AT_F for stage in frozen)
    if days is None or not cold:
        return cannot_tell(
            "raw-pork", f"{because}; how long and how cold it is frozen is not told", ("course",), tables
        )
    return [] if days.low >= FROZEN_DAYS else [box("raw-pork", because, tables)]


def _is_cured(facts: Facts) -> bool:
    return facts.recipe.cure is not None or bool(stages_named(facts.recipe, ("cure",)))
