"""Cured meat in a dish in; the box for a pan that is too hot, and for food that is meant for babies, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import both_scales
from generator.model.recipe import Recipe
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.garden import spaced

PAN_MOST_F = Fraction(350)
"Source: reported limit beside FDA/NCTR 1989 (Food Chem Toxicol 27:295), bacon fried at 171 and 206 °C."
FRIED = ("fry", "brown")
BACON = ("bacon", "pancetta")
FOR_BABIES = (
    "baby food",
    "for babies",
    "for a baby",
    "for the baby",
    "for infants",
    "infant",
    "infants",
    "weaning",
)
"Words of a name, summary or tag; a baby carrot is not meant. Source: house choice."


def fried_belly(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Nitrite-cured belly in a pan: below 350 °F. Cannot be told where the pan's temperature is not written."""
    what = _cured_belly(facts)
    frying = [stage for stage in facts.recipe.stages if stage.name in FRIED]
    if not what or not frying:
        return []
    index = facts.recipe.stages.index(frying[0])
    for stage in frying:
        if stage.at is not None and stage.at.high.fahrenheit > PAN_MOST_F:
            because = f"{what} fries at {both_scales(stage.at.high.fahrenheit)}"
            return [box("fried-cured-belly", because, tables, stage=facts.recipe.stages.index(stage))]
    if all(stage.at is None for stage in frying):
        because = f"{what} is fried, and the course does not say how hot"
        return cannot_tell("fried-cured-belly", because, ("course",), tables, stage=index)
    return [box("fried-cured-belly", f"{what} is fried", tables, stage=index)]


def _cured_belly(facts: Facts) -> str:
    for recipe in (facts.recipe, *facts.parts):
        if recipe.meat is not None and "belly" in recipe.meat.cut.lower() and has_nitrite(recipe):
            return recipe.name if recipe is not facts.recipe else recipe.meat.name
    for line in facts.recipe.ingredients:
        if line.link is None and set(BACON) & set(spaced(line.name).split()):
            return line.name
    return ""


def has_nitrite(recipe: Recipe) -> bool:
    """A curing salt is written, in the cover brine, the rub or the pump."""
    cure = recipe.cure
    if cure is None:
        return False
    pumped = cure.pump_brine is not None and cure.pump_brine.curing_salt is not None
    return cure.curing_salt is not None or cure.nitrate is not None or pumped


def infant_nitrite(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Food that is meant for babies: no cured meat; nitrate-rich greens get a NOTICE. For others: nothing."""
    if not is_for_babies(facts.recipe):
        return []
    cured = next((one for one in (facts.recipe, *facts.parts) if has_nitrite(one)), None)
    greens = [fact for fact in facts.plants if fact.has("nitrate")]
    found = [box("infant-greens", greens[0].because, tables)] if greens else []
    if cured is None:
        return found
    return found + contradict(
        "infant-nitrite",
        facts,
        tables,
        log,
        position=facts.recipe.position,
        message=f"{facts.recipe.name} is for babies, and {cured.name} is cured with nitrite.",
        hint="Make it without cured meat.",
        because=f"{cured.name} is cured with nitrite",
    )


def is_for_babies(recipe: Recipe) -> bool:
    """By its name, summary or tags."""
    words = "".join(map(spaced, (recipe.name, recipe.summary, *recipe.tags)))
    return any(f" {phrase} " in words for phrase in FOR_BABIES) or "baby" in recipe.tags
