"""Mushrooms that an ingredient line names in; boxes and refusals for raw, unknown and sealed ones out."""

from __future__ import annotations

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.plants import PlantFact
from generator.compute.safety.plants import cooked_through, is_raw, plants_of, together
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

MOREL, WILD, SEALED = "morel", "wild-mushrooms", "mushroom-sealed"


def morels(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: cooked. Not met: raw. Cannot be told: the course does not say how long they cook."""
    return _cooked(MOREL, plants_of(facts, MOREL), facts, tables, log)


def wild_mushrooms(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Every other foraged mushroom: an expert's eye first, and never raw. Bought ones are not spoken of."""
    found = [fact for fact in plants_of(facts, WILD) if fact.is_foraged and not fact.has(MOREL)]
    return _cooked(WILD, found, facts, tables, log)


def _cooked(
    slug: str, found: list[PlantFact], facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    if not found:
        return []
    because = together(found)
    stages = cooked_through(facts.recipe, tables)
    raw = [fact for fact in found if is_raw(fact)]
    if facts.recipe.eat_after_cooking:
        return [box(slug, f"{because}, not yet cooked", tables)]
    if raw or not stages:
        fact = (raw or found)[0]
        return contradict(
            slug,
            facts,
            tables,
            log,
            position=fact.line.position,
            message=f"'{fact.line.name}': eaten raw.",
            hint="Cook it through, and write it in the course: fry: 15 min in the pan.",
            because=f"{because}, and nothing in the course cooks that",
        )
    if all(stage.minutes is None and stage.inside is None for stage in stages):
        return cannot_tell(
            slug, f"{because}, and the course does not say how long it cooks", ("course",), tables
        )
    return [box(slug, because, tables)]


def sealed_mushrooms(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Mushrooms that are neither cooked, dried nor frozen may not lie in a vacuum. Cannot be told: where they lie."""
    fungi = [fact for fact in facts.plants if fact.plant.kind == "fungus"]
    stages = facts.recipe.stages
    packed = next((index for index, stage in enumerate(stages) if _may_seal(stage.name, stage.place)), None)
    if not fungi or packed is None or cooked_through(facts.recipe, tables):
        return []
    if any(stage.name in ("dry", "blanch") for stage in stages[:packed]):
        return []
    if any(stage.name == "freeze" for stage in stages[packed:]):
        return []
    kept = {keep.place for keep in facts.recipe.keep}
    if kept == {"freezer"}:
        return []
    because = f"{fungi[0].because}, sealed raw"
    if not kept or not stages[packed].place:
        missing = ("course",) if kept else ("keep",)
        return cannot_tell(SEALED, because, missing, tables, stage=packed)
    return contradict(
        SEALED,
        facts,
        tables,
        log,
        position=stages[packed].position,
        message=f"'{fungi[0].line.name}': sealed from the air raw, and not frozen.",
        hint="Keep mushrooms in paper in the fridge; or cook, dry or freeze them before they are sealed.",
        because=because,
        stage=packed,
    )


def _may_seal(stage: str, place: str) -> bool:
    """A pack that does not say in what may be without air."""
    return stage == "pack" and place in ("vacuum", "")
