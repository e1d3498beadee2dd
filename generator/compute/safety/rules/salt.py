"""Salt by the spoon in ingredient lines in; a refusal where its grams decide (a cure, a ferment, a pickle), out."""

from __future__ import annotations

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.sour import is_kept, rises_or_sets
from generator.compute.weight.measures import weigh_measures
from generator.model.recipe import Ingredient
from generator.tables.foods import unknown_crystal


def salt_by_volume(case: Case) -> None:
    """An error for each line of salt by volume whose crystal is not told; elsewhere it scales as a volume."""
    if not _grams_decide(case.facts):
        return
    for line in case.recipe.ingredients:
        if line.quantity is None or line.link:
            continue
        if line.quantity.manner and "salt" in line.name.lower().split():
            message = (
                f"'{line.quantity.written} {line.name}' has no certain weight, and its grams decide here."
            )
            hint = f"Weigh it, and write its grams before '{line.name}'."
            case.log.add("unknown-crystal", line.position, message, hint)
        elif _is_unknown(line, case):
            grams = case.tables.salt_grams(line.quantity, line.name)
            message, hint = unknown_crystal(f"{line.quantity.written} {line.name}", grams)
            case.log.add("unknown-crystal", line.position, message, hint)


def _is_unknown(line: Ingredient, case: Case) -> bool:
    assert line.quantity is not None
    house = case.facts.config.house_weights
    names = (f"{line.name}, {line.preparation}", line.name)
    known = any(weigh_measures(line.quantity, name, case.tables, house) for name in names)
    return not known and case.tables.salt_grams(line.quantity, line.name) is not None


def _grams_decide(facts: Facts) -> bool:
    """What is kept by its salt; an onion that lies in vinegar for an hour and a dough are not."""
    recipe = facts.recipe
    if recipe.cure is not None or (facts.meats and facts.first_stage("cure") is not None):
        return True
    if any(stage.name == "pickle" and is_kept(stage, recipe) for stage in recipe.stages):
        return True
    return facts.first_stage("ferment") is not None and (bool(facts.meats) or not rises_or_sets(recipe))


RULES = (Rule(slugs=(), look=salt_by_volume),)
