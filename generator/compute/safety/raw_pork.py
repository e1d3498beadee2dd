"""Farm pork that is cured and never cooked in, the box on Trichinella out."""

from __future__ import annotations

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.heat import Heat, looks_finished, reached
from generator.compute.safety.facts.meats import is_ground
from generator.compute.safety.facts.pieces import thickness_in
from generator.compute.safety.facts.times import DAY_MIN, stages_named
from generator.compute.safety.verdict import cannot_tell
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

FROZEN_DAYS = 20
"[d] Source: CDC, Trichinellosis, prevention page: pork thinner than 6 in, 20 days at 5 °F."
FROZEN_AT_F = 5
"[degF] Source: the same."
THIN_IN = 6
"[in] Source: the same, less than six inches thick."


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
    return _frozen(facts, because, tables)


def _frozen(facts: Facts, because: str, tables: Tables) -> list[Caution]:
    """Long, cold and thin enough, in one freezing: a thaw between two begins the days anew."""
    frozen = stages_named(facts.recipe, ("freeze",))
    if not frozen:
        return [box("raw-pork", because, tables)]
    cold = all(stage.at is not None and stage.at.high.fahrenheit <= FROZEN_AT_F for stage in frozen)
    lengths = [stage.minutes.low for stage in frozen if stage.minutes is not None]
    if len(lengths) < len(frozen) or not cold:
        return cannot_tell(
            "raw-pork", f"{because}; how long and how cold it is frozen is not told", ("course",), tables
        )
    meat = facts.recipe.meat
    thick = None if meat is None else thickness_in(meat, tables)
    if max(lengths) < FROZEN_DAYS * DAY_MIN or (thick is not None and thick >= THIN_IN):
        return [box("raw-pork", because, tables)]
    if thick is None and _may_be_thick(facts):
        because = f"{because}; the days in the freezer are for pieces thinner than 6 in, and how thick it is is not told"
        return cannot_tell("raw-pork", because, ("meat.thickness",), tables)
    return []


def _may_be_thick(facts: Facts) -> bool:
    """A whole piece of its own; what is ground, sliced or a line of a list is thin."""
    recipe = facts.recipe
    own = next((meat for meat in facts.meats if meat.line is None), None)
    if own is None or recipe.meat is None:
        return False
    return recipe.meat.form != "sliced" and not is_ground(own, recipe)


def _is_cured(facts: Facts) -> bool:
    return facts.recipe.cure is not None or bool(stages_named(facts.recipe, ("cure",)))
