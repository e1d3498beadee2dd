"""Meat that ferments, ages or dries and is never cooked in; a refusal for game, a box for other sausage, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import FISH, Facts, MeatFact
from generator.compute.safety.facts.heat import is_hot
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.jerky import is_jerky
from generator.compute.safety.verdict import contradict
from generator.compute.safety.words import sentence_start
from generator.model.recipe import Stage
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

SLOW = ("ferment", "age")
"Stages in which raw meat ripens. Source: words of the trade."
DRY_DAYS = Fraction(3)
"A cured piece that dries for this long or longer is a dry-cured one. Source: house choice."


def uncooked_ferment(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Game is refused. Sausage of farmed meat that ferments raw gets a CAUTION. Cooked, or to be cooked: nothing."""
    recipe = facts.recipe
    stages = [stage for stage in recipe.stages if _is_slow(stage)]
    meats = [meat for meat in facts.meats if meat.animal.group not in FISH]
    if not stages or not meats or recipe.eat_after_cooking or is_jerky(facts, tables):
        return []
    after = recipe.stages[recipe.stages.index(stages[0]) :]
    if any(is_hot(stage, tables) for stage in after):
        return []
    game = [meat for meat in meats if meat.is_wild]
    index = recipe.stages.index(stages[0])
    if not game:
        return _farmed(meats[0], stages, facts, tables, index)
    return contradict(
        "uncooked-ferment",
        facts,
        tables,
        log,
        position=stages[0].position,
        message=f"{sentence_start(game[0].because)} and is never cooked: '{stages[0].name}' kills no parasite.",
        hint="Cook it: hot smoke: 6 h to 165 °F inside. Or end the recipe raw, with `eat: after cooking`, so that "
        "its dishes cook it.",
        because=f"{game[0].because} and is never cooked",
        stage=index,
    )


def _farmed(meat: MeatFact, stages: list[Stage], facts: Facts, tables: Tables, index: int) -> list[Caution]:
    """Whole pieces that age have their own published times; sausage that ferments has none for the home."""
    if not any(stage.name == "ferment" for stage in stages):
        return []
    without = "" if facts.nitrite else ", without a curing salt"
    return [box("fermented-sausage", f"{meat.because} and ferments uncooked{without}", tables, stage=index)]


def _is_slow(stage: Stage) -> bool:
    if stage.name == "dry":
        return stage.minutes is not None and stage.minutes.high >= DRY_DAYS * DAY_MIN
    return stage.name in SLOW
