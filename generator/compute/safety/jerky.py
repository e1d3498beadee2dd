"""Thin meat that is dried in; the heat and the dryer that it needs, or a refusal, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts, MeatFact
from generator.compute.safety.facts.heat import Heat, reached
from generator.compute.safety.facts.keeping import is_called_jerky
from generator.compute.safety.facts.meats import BIRDS
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import both_scales
from generator.model.recipe import Stage
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

SLUG = "jerky"
WARM_DRYER_F = Fraction(80)
"A drying hotter than this [degF] is a dryer's and not a rest in the cold. Source: house choice."
DRYER_LEAST_F = Fraction(130)
"Source: USDA FSIS, Jerky and Food Safety: the dryer holds 130 to 140 °F all the time."
MEAT_F = Fraction(160)
BIRD_F = Fraction(165)
"Source: USDA FSIS, Jerky and Food Safety: meat to 160 °F, poultry to 165 °F."
DRYERS = frozenset({"oven", "smoker"})
"Places whose drying is warm, though no temperature is told. Source: house choice."


def jerky(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: heated to 160 or 165 °F before or after a dryer of at least 130 °F. Else refused, or not to be told."""
    meats = [meat for meat in facts.meats if not tables.garden.says(meat.words, "jerky")]
    if not meats or not is_jerky(facts, tables):
        return []
    low = _too_cold(facts)
    if low is not None:
        return _refuse_dryer(low, facts, tables, log)
    minimum = BIRD_F if any(meat.animal.group in BIRDS for meat in meats) else MEAT_F
    return _heat(minimum, meats, facts, tables, log)


def is_jerky(facts: Facts, tables: Tables) -> bool:
    """By name or tag; or by a warm dryer for meat that nothing heats, or that is thin."""
    recipe = facts.recipe
    if is_called_jerky(facts, tables):
        return True
    warm = any(_is_warm(stage) for stage in recipe.stages)
    is_thin = recipe.meat is not None and recipe.meat.form in ("sliced", "ground")
    return warm and (is_thin or not facts.heating)


def _is_warm(stage: Stage) -> bool:
    if stage.name != "dry":
        return False
    return stage.at.high.fahrenheit >= WARM_DRYER_F if stage.at is not None else stage.place in DRYERS


def _too_cold(facts: Facts) -> Stage | None:
    """The dryer that is warm and yet below 130 °F."""
    for stage in facts.recipe.stages:
        if _is_warm(stage) and stage.at is not None and stage.at.low.fahrenheit < DRYER_LEAST_F:
            return stage
    return None


def _refuse_dryer(stage: Stage, facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    assert stage.at is not None
    at = both_scales(stage.at.low.fahrenheit)
    return contradict(
        SLUG,
        facts,
        tables,
        log,
        position=stage.position,
        message=f"The meat dries at {at}. Below {both_scales(DRYER_LEAST_F)} germs grow while it dries.",
        hint="Heat it first (roast: 20 min to 160 °F inside), then dry it: dry: 6 h at 140 °F.",
        because=f"the meat dries at {at}",
        stage=facts.recipe.stages.index(stage),
    )


def _heat(
    minimum: Fraction, meats: list[MeatFact], facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    """A piece that a dish cooks later is boxed only."""
    because, found = meats[0].because, reached(facts.recipe, minimum, tables)
    untold = any(stage.name == "dry" and stage.at is None for stage in facts.recipe.stages)
    if facts.recipe.eat_after_cooking:
        return [box(SLUG, f"{because}, and is not yet cooked", tables)]
    if found.heat is Heat.MET and not untold:
        return [box(SLUG, because, tables)]
    if found.heat is Heat.MET:
        return cannot_tell(SLUG, f"{because}, and the dryer's temperature is not told", ("course",), tables)
    if found.heat is Heat.UNKNOWN:
        because += f", and no stage says to what temperature inside; {both_scales(minimum)} is needed"
        return cannot_tell(SLUG, because, ("course",), tables)
    inside = found.inside_f
    how = f"heated only to {both_scales(inside)}" if inside is not None else "dried raw"
    return contradict(
        SLUG,
        facts,
        tables,
        log,
        position=facts.recipe.position,
        message=f"{facts.recipe.name}: the meat is {how}. Raw strips dry before they are hot enough to be safe.",
        hint=f"Heat it to {both_scales(minimum)} first, in the marinade or in the oven: roast: 20 min to "
        f"{int(minimum)} °F inside. Then dry it at 130 to 140 °F. Freezing first does not replace the heat.",
        because=f"{because}, {how}",
    )
