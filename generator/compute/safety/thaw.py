"""The thaw stages of a course in; how each way of thawing may be used, and the refusal of the others, out."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.safety.box import at_most, both_scales, box
from generator.compute.safety.cure_time import thickness_in
from generator.compute.safety.facts import FISH, Facts
from generator.compute.safety.keeping_kind import is_vacuum
from generator.compute.safety.pieces import has_meat
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.model.recipe import Recipe, Stage
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

WARM = frozenset({"counter", "pantry", "shade", "smoker", "oven", "grill", "warm water"})
"Places in which meat may not thaw unless they are told to be cold. Source: Big Thaw; of the smoker, Smoking Meat."
COLD = frozenset({"fridge", "freezer"})
"Places that are cold by themselves. Source: house choice."
WATER = frozenset({"cold water", "ice bath"})
"Source: words of the trade."
BETWEEN = frozenset({"trim", "rinse", "dry", "turn", "soak", "grind", "stuff", "brown", "rest"})
"Stages of minutes between thawing and the cure or the heat. Source: common practice, no source."
STEAK = re.compile(r"\bsteaks?\b")
BAGGED = re.compile(r"\b(?:bag|bags|bagged|sealed|vacuum|packed)\b")
GROWS_ANYWAY = (
    "Thaw it in the fridge (thaw: in the fridge), or in a bag under cold water (thaw: 2 h in cold water)."
)


def thaw_place(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met, without a box: fridge, cold water, microwave. Not met: counter, warm water. Cannot be told: no place."""
    if not has_meat(facts):
        return []
    found: list[Caution] = []
    for index, stage in enumerate(facts.recipe.stages):
        if stage.name == "thaw":
            found += _judge(index, stage, facts, tables, log)
    return found


def _judge(index: int, stage: Stage, facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    warm = _why_warm(stage, tables)
    if warm is None:
        because = "the meat thaws, and nothing says in what"
        return cannot_tell("thaw-counter", because, ("course",), tables, stage=index)
    if not warm:
        return []
    lacking = _study_lacks(index, stage, facts, tables)
    if not lacking and _is_warm_water(stage):
        because = f"the steaks thaw in water at {both_scales(_at_f(stage))} and are cooked at once"
        return [box("thaw-warm-steak", because, tables, stage=index)]
    why = f" Thin steaks may, but {lacking}." if lacking and stage.place == "warm water" else ""
    return contradict(
        "thaw-counter",
        facts,
        tables,
        log,
        position=stage.position,
        message=f"The meat thaws {warm}, where its outside is warm while the middle is frozen.{why}",
        hint=GROWS_ANYWAY,
        because=f"the meat thaws {warm}",
        stage=index,
    )


def _why_warm(stage: Stage, tables: Tables) -> str | None:
    """Words for what is warm; empty where it is cold; None where nobody says."""
    cold = tables.constant("cold_holding_maximum_f")
    limit = tables.constant("thaw_water_maximum_f") if stage.place in WATER else cold
    if stage.at is not None:
        hottest = stage.at.high.fahrenheit
        place = f"{stage.place_written} " if stage.place_written else ""
        return f"{place}at {both_scales(hottest)}, above {at_most(limit)}," if hottest > limit else ""
    if stage.place in WARM:
        return stage.place_written
    return "" if stage.place in COLD | WATER | {"microwave"} else None


def _is_warm_water(stage: Stage) -> bool:
    return stage.place in WATER | {"warm water"}


def _at_f(stage: Stage) -> Fraction:
    return stage.at.high.fahrenheit if stage.at is not None else Fraction(0)


def _study_lacks(index: int, stage: Stage, facts: Facts, tables: Tables) -> str:
    """What keeps a warm-water thaw from being the one that was studied; empty where nothing does."""
    meat = facts.recipe.meat
    thick = thickness_in(meat, tables) if meat is not None else None
    if meat is None or not STEAK.search(meat.cut.lower()):
        return "the meat is not told to be steaks"
    if thick is None or thick > tables.constant("thaw_steak_thickness_in"):
        return "they are thicker than 1 in (2.5 cm), or their thickness is not told"
    if not BAGGED.search(stage.written.lower()):
        return "the stage does not say that they are in a sealed bag"
    if stage.at is None or _at_f(stage) > tables.constant("thaw_steak_warm_f"):
        return "the water is hotter than 102 °F (39 °C), or its temperature is not told"
    cool = _at_f(stage) <= tables.constant("thaw_steak_cool_f")
    most = tables.constant("thaw_steak_cool_min" if cool else "thaw_steak_warm_min")
    if stage.minutes is None or stage.minutes.high > most:
        return f"they lie in it for more than {most} minutes, or for how long is not told"
    follows = next_of(index, facts.recipe)
    if follows is None or not tables.stages.get(follows.name, False):
        return "they are not cooked at once"
    return ""


def next_of(index: int, recipe: Recipe) -> Stage | None:
    """The stage that decides what becomes of thawed meat."""
    return next((stage for stage in recipe.stages[index + 1 :] if stage.name not in BETWEEN), None)


def thaw_in_water(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """After cold water the meat is cooked or goes into its cure; out of a microwave it is cooked."""
    found: list[Caution] = []
    if not has_meat(facts):
        return found
    for index, stage in enumerate(facts.recipe.stages):
        if stage.name == "thaw" and stage.place in WATER | {"microwave"} and not _why_warm(stage, tables):
            found += _after_water(index, stage, facts, tables, log)
    return found


def _after_water(index: int, stage: Stage, facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    follows, slug = next_of(index, facts.recipe), "thaw-cold-water"
    because = f"the meat thaws {stage.place_written}"
    if follows is None:
        return cannot_tell(slug, f"{because}, and no stage follows", ("course",), tables, stage=index)
    into = {"cure"} if stage.place in WATER else set()
    if follows.name in into | {"blanch"} or tables.stages.get(follows.name, False):
        return [box(slug, because, tables, stage=index)]
    return contradict(
        slug,
        facts,
        tables,
        log,
        position=follows.position,
        message=f"The meat thaws {stage.place_written}, and then comes '{follows.name}', which does not cook it.",
        hint="Thaw it in the fridge, or cook it as soon as it has thawed; from cold water it may go into a cure.",
        because=f"{because}, and '{follows.name}' follows",
        stage=index,
    )


def thaw_vacuum_fish(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Fish out of a vacuum pack: the pack is opened first. Cannot be told: nobody says how the fish was packed."""
    index = facts.first_stage("thaw")
    own = [meat for meat in facts.meats if meat.animal.group in FISH]
    packed = [part.name for _, part in facts.used if _is_vacuum_fish(part, tables)]
    if index is None or not (own or packed):
        return []
    stage = facts.recipe.stages[index]
    if stage.place == "vacuum":
        return contradict(
            "thaw-vacuum-fish",
            facts,
            tables,
            log,
            position=stage.position,
            message=f"The fish thaws {stage.place_written}, without air.",
            hint="Open the pack first: thaw: in the fridge until soft, in the opened pack.",
            because="the fish thaws in its vacuum pack",
            stage=index,
        )
    if packed:
        return [box("thaw-vacuum-fish", f"{', '.join(packed)} comes vacuum-packed", tables, stage=index)]
    if re.search(r"\bopen", stage.until.lower()):
        return [box("thaw-vacuum-fish", "the fish thaws in its opened pack", tables, stage=index)]
    because = f"{own[0].because}, and nothing says whether it was vacuum-packed"
    return cannot_tell("thaw-vacuum-fish", because, ("course",), tables, stage=index)


def _is_vacuum_fish(part: Recipe, tables: Tables) -> bool:
    animal = tables.animal(part.meat.animal) if part.meat is not None else None
    return animal is not None and animal.group in FISH and is_vacuum(part)
