"""Salt by the spoon in ingredient lines in; a refusal where its grams decide (a cure, a ferment, a pickle), out."""

from __future__ import annotations

from generator.compute.convert import weigh_measures
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.sour import is_kept, rises_or_sets
from generator.model.recipe import Ingredient
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.foods import unknown_crystal


def refuse_salt_by_volume(facts: Facts, tables: Tables, log: ProblemLog) -> None:
    """An error for each line of salt by volume whose crystal is not told; elsewhere it scales as a volume."""
    if not _grams_decide(facts):
        return
    for line in facts.recipe.ingredients:
        if line.quantity is not None and not line.link and _is_unknown(line, facts, tables):
            grams = tables.salt_grams(line.quantity, line.name)
            message, hint = unknown_crystal(f"{line.quantity.written} {line.name}", grams)
            log.add("unknown-crystal", line.position, message, hint)


def _is_unknown(line: Ingredient, facts: Facts, tables: Tables) -> bool:
    assert line.quantity is not None
    house = facts.config.house_weights
    names = (f"{line.name}, {line.preparation}", line.name)
    known = any(weigh_measures(line.quantity, name, tables, house) for name in names)
    return not known and tables.salt_grams(line.quantity, line.name) is not None


def _grams_decide(facts: Facts) -> bool:
    """What is kept by its salt; an onion that lies in vinegar for an hour and a dough are not."""
    recipe = facts.recipe
    if recipe.cure is not None or (facts.meats and facts.first_stage("cure") is not None):
        return True
    pickled = [stage for stage in recipe.stages if stage.name == "pickle"]
    if any(is_kept(stage, recipe) for stage in pickled):
        return True
    return facts.first_stage("ferment") is not None and (bool(facts.meats) or not rises_or_sets(recipe))
