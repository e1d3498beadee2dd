"""The thaw stages of a course in; how each way of thawing may be used, and the refusal of the others, out."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import FISH
from generator.compute.safety.facts.keeping import is_vacuum
from generator.compute.safety.facts.pieces import has_meat, thickness_in
from generator.compute.safety.facts.places import COLD, IN_WATER, ROOM, UNTOLD
from generator.compute.safety.words import at_most, both_scales
from generator.model.recipe import Recipe, Stage
from generator.tables import Tables

COUNTER, STEAK, WATER, VACUUM = "thaw-counter", "thaw-warm-steak", "thaw-cold-water", "thaw-vacuum-fish"

WARM_PLACES = ROOM | {"smoker", "oven", "grill", "warm water"}
"Places in which meat may not thaw unless they are told to be cold. Source: Big Thaw; of the smoker, Smoking Meat."
BETWEEN = frozenset(
    {
        *("trim", "rinse", "dry", "turn", "soak", "grind", "stuff", "brown", "rest"),
        *("inject", "marinate", "mix", "press", "strain"),
    }
)
"Stages of minutes between thawing and the cure or the heat. Source: common practice, no source."
STEAKS = re.compile(r"\bsteaks?\b")
BAGGED = re.compile(r"\b(?:bag|bags|bagged|sealed|vacuum|packed)\b")
OTHER_WAYS = (
    "Thaw it in the fridge (thaw: in the fridge), or in a bag under cold water (thaw: 2 h in cold water)."
)


def place(case: Case) -> None:
    """Met, without a box: fridge, cold water, microwave. Not met: counter, warm water. Cannot be told: no place."""
    if has_meat(case.facts):
        for index, stage in enumerate(case.stages):
            if stage.name == "thaw":
                _judge(case, index, stage)


def _judge(case: Case, index: int, stage: Stage) -> None:
    warm = _why_warm(stage, case.tables)
    if warm is None:
        where = (
            f" {stage.place_written}, and nothing says how cold it is"
            if stage.place in UNTOLD
            else ", and nothing says in what"
        )
        case.cannot_tell(COUNTER, f"the meat thaws{where}", ("course",), stage=index)
    elif warm:
        _judge_warm(case, index, stage, warm)


def _judge_warm(case: Case, index: int, stage: Stage, warm: str) -> None:
    lacking = _study_lacks(case, index, stage)
    if not lacking and _is_warm_water(stage):
        because = f"the steaks thaw in water at {both_scales(_at_f(stage))} and are cooked at once"
        case.box(STEAK, because, stage=index)
        return
    why = f" Thin steaks may, but {lacking}." if lacking and stage.place == "warm water" else ""
    case.refuse(
        COUNTER,
        message=f"The meat thaws {warm}, where its outside is warm while the middle is frozen.{why}",
        hint=OTHER_WAYS,
        because=f"the meat thaws {warm}",
        stage=index,
    )


def _why_warm(stage: Stage, tables: Tables) -> str | None:
    """Words for what is warm; empty where it is cold; None where nobody says."""
    cold = tables.constant("cold_holding_maximum_f")
    limit = tables.constant("thaw_water_maximum_f") if stage.place in IN_WATER else cold
    if stage.at is not None:
        hottest = stage.at.high.fahrenheit
        place = f"{stage.place_written} " if stage.place_written else ""
        return f"{place}at {both_scales(hottest)}, above {at_most(limit)}," if hottest > limit else ""
    if stage.place in WARM_PLACES:
        return stage.place_written
    return "" if stage.place in COLD | IN_WATER | {"microwave"} else None


def _is_warm_water(stage: Stage) -> bool:
    return stage.place in IN_WATER | {"warm water"}


def _at_f(stage: Stage) -> Fraction:
    return stage.at.high.fahrenheit if stage.at is not None else Fraction(0)


def _study_lacks(case: Case, index: int, stage: Stage) -> str:
    """What keeps a warm-water thaw from being the one that was studied; empty where nothing does."""
    meats, most = case.recipe.meats, case.constant("thaw_steak_thickness_in")
    if not meats or not all(STEAKS.search(meat.cut.lower()) for meat in meats):
        return "the meat is not told to be steaks"
    told = (thickness_in(meat, case.tables) for meat in meats)
    if any(thick is None or thick > most for thick in told):
        return "they are thicker than 1 in (2.5 cm), or their thickness is not told"
    if not BAGGED.search(stage.written.lower()):
        return "the stage does not say that they are in a sealed bag"
    if stage.at is None or _at_f(stage) > case.constant("thaw_steak_warm_f"):
        return "the water is hotter than 102 °F (39 °C), or its temperature is not told"
    cool = _at_f(stage) <= case.constant("thaw_steak_cool_f")
    minutes = case.constant("thaw_steak_cool_min" if cool else "thaw_steak_warm_min")
    if stage.minutes is None or stage.minutes.high > minutes:
        return f"they lie in it for more than {minutes} minutes, or for how long is not told"
    follows = _decides(index, case.recipe)
    if follows is None or not case.tables.stages.get(follows.name, False):
        return "they are not cooked at once"
    return ""


def _decides(index: int, recipe: Recipe) -> Stage | None:
    """The stage that decides what becomes of thawed meat."""
    return next((stage for stage in recipe.stages[index + 1 :] if stage.name not in BETWEEN), None)


def in_water(case: Case) -> None:
    """After cold water the meat is cooked or goes into its cure; out of a microwave it is cooked."""
    if has_meat(case.facts):
        for index, stage in enumerate(case.stages):
            wet = stage.name == "thaw" and stage.place in IN_WATER | {"microwave"}
            if wet and not _why_warm(stage, case.tables):
                _after_water(case, index, stage)


def _after_water(case: Case, index: int, stage: Stage) -> None:
    follows = _decides(index, case.recipe)
    because = f"the meat thaws {stage.place_written}"
    into = {"cure"} if stage.place in IN_WATER else set()
    if follows is None:
        case.cannot_tell(WATER, f"{because}, and no stage follows", ("course",), stage=index)
    elif follows.name in into | {"blanch"} or case.tables.stages.get(follows.name, False):
        case.box(WATER, because, stage=index)
    else:
        case.refuse(
            WATER,
            follows,
            message=f"The meat thaws {stage.place_written}, and then comes '{follows.title}', which does not cook it.",
            hint="Thaw it in the fridge, or cook it as soon as it has thawed; from cold water it may go into a cure.",
            because=f"{because}, and '{follows.title}' follows",
            stage=index,
        )


def vacuum_fish(case: Case) -> None:
    """Fish out of a vacuum pack: the pack is opened first. Cannot be told: nobody says how the fish was packed."""
    facts = case.facts
    index = facts.first_stage("thaw")
    own = [meat for meat in facts.meats if meat.animal.group in FISH]
    packed = [(line, part) for line, part in facts.used if _is_vacuum_fish(part, case.tables)]
    if index is None or not (own or packed):
        return
    stage = case.stages[index]
    if stage.place == "vacuum":
        case.refuse(
            VACUUM,
            message=f"The fish thaws {stage.place_written}, without air.",
            hint="Open the pack first: thaw: in the fridge until soft, in the opened pack.",
            because="the fish thaws in its vacuum pack",
            stage=index,
        )
    elif packed:
        names = ", ".join(part.name for _, part in packed)
        case.box(VACUUM, f"{names} comes vacuum-packed", *(line for line, _ in packed), stage=index)
    elif re.search(r"\bopen", stage.until.lower()):
        case.box(VACUUM, "the fish thaws in its opened pack", stage=index)
    else:
        because = f"{own[0].because}, and nothing says whether it was vacuum-packed"
        case.cannot_tell(VACUUM, because, ("course",), own[0], stage=index)


def _is_vacuum_fish(part: Recipe, tables: Tables) -> bool:
    animals = (tables.animal(meat.animal) for meat in part.meats)
    return is_vacuum(part) and any(animal is not None and animal.group in FISH for animal in animals)


RULES = (
    Rule(slugs=(COUNTER, STEAK), look=place),
    Rule(slugs=(WATER,), look=in_water),
    Rule(slugs=(VACUUM,), look=vacuum_fish),
)
