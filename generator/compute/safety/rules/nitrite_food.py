"""Cured meat in a dish in; the box for a pan that is too hot, and for food that is meant for babies, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Met, Rule
from generator.compute.safety.words import both_scales
from generator.model.recipe import Recipe
from generator.tables.garden import spaced

FRIED_BELLY, CURED_FOR_BABIES, GREENS = "fried-cured-belly", "infant-nitrite", "infant-greens"

PAN_MOST_F = Fraction(350)
"Source: reported limit beside FDA/NCTR 1989 (Food Chem Toxicol 27:295), bacon fried at 171 and 206 °C."
FRIED = ("fry", "brown")
BACON = ("bacon", "pancetta")


def fried_belly(case: Case) -> None:
    """Nitrite-cured belly in a pan: below 350 °F. Cannot be told where the pan's temperature is not written."""
    belly = _cured_belly(case)
    # A stage read out of the method is often the pan for the onions; of bacon in a line only the author's own course counts.
    pans = [index for index, stage in enumerate(case.stages) if stage.name in FRIED and not stage.is_read]
    if belly is None or not pans:
        return
    what, met = belly
    told = [(index, at.high.fahrenheit) for index in pans if (at := case.stages[index].at) is not None]
    hot = next(((index, most_f) for index, most_f in told if most_f > PAN_MOST_F), None)
    if hot is not None:
        case.box(FRIED_BELLY, f"{what} fries at {both_scales(hot[1])}", met, stage=hot[0])
    elif told:
        case.box(FRIED_BELLY, f"{what} is fried", met, stage=pans[0])
    else:
        because = f"{what} is fried, and the course does not say how hot"
        case.cannot_tell(FRIED_BELLY, because, ("course",), met, stage=pans[0])


def _cured_belly(case: Case) -> tuple[str, Met] | None:
    """The name of the belly, and where the recipe names it: its own, then a component's, then one that is bought."""
    facts = case.facts
    for recipe in (facts.recipe, *facts.parts):
        meat = next((one for one in recipe.meats if "belly" in one.cut.lower()), None)
        if meat is not None and _has_nitrite(recipe):
            own = recipe is facts.recipe
            return (meat.name, meat) if own else (recipe.name, facts.brought_by[recipe.slug])
    for line in facts.recipe.ingredients:
        if line.link is None and set(BACON) & set(spaced(line.name).split()):
            return line.name, line
    return None


def _has_nitrite(recipe: Recipe) -> bool:
    """A curing salt is written, in the cover brine, the rub or the pump."""
    cure = recipe.cure
    if cure is None:
        return False
    pumped = cure.pump_brine is not None and cure.pump_brine.curing_salt is not None
    return cure.curing_salt is not None or cure.nitrate is not None or pumped


def for_babies(case: Case) -> None:
    """Food that is meant for babies: no cured meat; nitrate-rich greens get a NOTICE. For others: nothing."""
    facts = case.facts
    if not facts.is_for_babies:
        return
    for greens in facts.plants_of("nitrate")[:1]:
        case.box(GREENS, greens.because, greens, facts.recipe)
    cured = next((one for one in (facts.recipe, *facts.parts) if _has_nitrite(one)), None)
    if cured is not None:
        case.refuse(
            CURED_FOR_BABIES,
            facts.recipe,
            facts.brought_by.get(cured.slug) or cured.cure or cured,
            message=f"{facts.recipe.name} is for babies, and {cured.name} is cured with nitrite.",
            hint="Make it without cured meat.",
            because=f"{cured.name} is cured with nitrite",
        )


RULES = (
    Rule(slugs=(FRIED_BELLY,), look=fried_belly),
    Rule(slugs=(CURED_FOR_BABIES, GREENS), look=for_babies),
)
