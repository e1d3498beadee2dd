"""Mushrooms and what is gathered wild in; boxes and refusals for raw, unknown and sealed ones out."""

from __future__ import annotations

from collections.abc import Sequence

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.plants import PlantFact, together
from generator.compute.safety.rules.named import named
from generator.model.recipe import Stage

MOREL, WILD, SEALED = "morel", "wild-mushrooms", "mushroom-sealed"
LOOK_ALIKE, FORAGED = "ramps-lookalike", "foraged"


def morels(case: Case) -> None:
    """Met: cooked. Not met: raw. Cannot be told: the course does not say how long they cook."""
    _judge(case, MOREL, case.facts.plants_of(MOREL))


def wild_mushrooms(case: Case) -> None:
    """Every other foraged mushroom: an expert's eye first, and never raw. Bought ones are not spoken of."""
    _judge(
        case, WILD, [fact for fact in case.facts.plants_of(WILD) if fact.is_foraged and not fact.has(MOREL)]
    )


def _judge(case: Case, slug: str, found: Sequence[PlantFact]) -> None:
    if not found:
        return
    because, cooks = together(found), _cooking(case)
    raw = [fact for fact in found if fact.is_raw]
    if case.recipe.eat_after_cooking:
        case.box(slug, f"{because}, not yet cooked", *found)
    elif not raw and not cooks and "cooked told" in case.facts.words.facts:
        because += ", and how long it cooks is not told"
        case.cannot_tell(slug, because, ("course",), *found)
    elif raw or not cooks:
        fact = (raw or found)[0]
        case.refuse(
            slug,
            fact,
            *found,
            message=f"'{fact.line.name}': eaten raw.",
            hint="Cook it through, and write it in the course: fry: 15 min in the pan.",
            because=f"{because}, and nothing in the course cooks that",
        )
    elif all(stage.minutes is None and stage.inside is None for stage in cooks):
        because += ", and the course does not say how long it cooks"
        case.cannot_tell(slug, because, ("course",), *found, *cooks)
    else:
        case.box(slug, because, *found, *cooks)


def _cooking(case: Case) -> list[Stage]:
    """Stages that cook what lies in a pan or pot; smoke dries more than it cooks."""
    heats = case.tables.stages
    return [
        stage
        for stage in case.stages
        if (heats.get(stage.name, False) and stage.name != "hot smoke") or stage.name == "brown"
    ]


def sealed_mushrooms(case: Case) -> None:
    """Mushrooms that are neither cooked, dried nor frozen may not lie in a vacuum. Cannot be told: where they lie."""
    fungi = [fact for fact in case.facts.plants if fact.plant.kind == "fungus"]
    packed = next((index for index, stage in enumerate(case.stages) if _may_seal(stage)), None)
    if not fungi or packed is None or _cooking(case) or _is_dried_or_frozen(case, packed):
        return
    because = f"{fungi[0].because}, sealed raw"
    if not case.recipe.keep or not case.stages[packed].place:
        missing = ("course",) if case.recipe.keep else ("keep",)
        case.cannot_tell(SEALED, because, missing, *fungi, stage=packed)
        return
    case.refuse(
        SEALED,
        case.stages[packed],
        *fungi,
        message=f"'{fungi[0].line.name}': sealed from the air raw, and not frozen.",
        hint="Keep mushrooms in paper in the fridge; or cook, dry or freeze them before they are sealed.",
        because=because,
        stage=packed,
    )


def _may_seal(stage: Stage) -> bool:
    """A pack that does not say in what may be without air."""
    return stage.name == "pack" and stage.place in ("vacuum", "")


def _is_dried_or_frozen(case: Case, packed: int) -> bool:
    """Before the pack for the one, from it on for the other."""
    before, behind = case.stages[:packed], case.stages[packed:]
    return (
        any(stage.name in ("dry", "blanch") for stage in before)
        or any(stage.name == "freeze" for stage in behind)
        or {keep.place for keep in case.recipe.keep} == {"freezer"}
    )


def foraged(case: Case) -> None:
    """Once for all that is gathered and has a poisonous likeness, with the book's own line for help."""
    found = [fact for fact in case.facts.plants if fact.is_foraged and fact.plant.is_mistaken]
    if found:
        help_line = case.facts.config.poison_help
        case.box(FORAGED, "; ".join(filter(None, (together(found), help_line))), *found)


RULES = (
    Rule(slugs=(MOREL,), look=morels),
    Rule(slugs=(WILD,), look=wild_mushrooms),
    Rule(slugs=(SEALED,), look=sealed_mushrooms),
    Rule(slugs=(LOOK_ALIKE,), look=named),
    Rule(slugs=(FORAGED,), look=foraged),
)
