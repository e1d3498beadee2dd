"""Garlic, herbs, mushrooms or vegetables in oil in; the cold and the days that they may have, or a refusal, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.heat import is_hot_jar
from generator.compute.safety.facts.places import ROOM
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.words import sentence_start
from generator.model.recipe import Ingredient, Keep, Recipe, Stage
from generator.model.shown import show_decimal
from generator.tables.garden import spaced

IN_OIL_FRESH = "oil-infusion"

MOST_DAYS = Fraction(4)
"Source: NCHFP, garlic in oil, reviewed 2015: in the fridge for at most 4 days; the stricter of several."
WARM_H = Fraction(2)
"Source: USDA, perishable food out of the fridge for no more than 2 hours."
HOUR_MIN = Fraction(60)
"Source: minutes in an hour, a definition."
WARM = ROOM | {"cellar", "rack"}
"Places that are not known to be cold. Source: house choice."
DRY = frozenset({"dried", "dry", "powder", "ground", "flakes", "seed", "seeds", "peppercorns"})
"Words of things too dry for Clostridium botulinum. Source: common practice, no source."
DRIED = frozenset({"dried", "dry", "powder", "powdered", "flakes", "crumbled", "rubbed"})
"Words that a preparation of something dry is made of. Source: common practice, no source."
IN_OIL = ("in oil", "infused oil", "garlic oil", "herb oil", "confit")


def oil_infusion(case: Case) -> None:
    """Met: the fridge, 4 days, or the freezer. Not met: longer, or warm. Cannot be told: no keeping is written."""
    fresh = _fresh_in_oil(case)
    if fresh is None:
        return
    because, warm = f"it uses {fresh.name} in oil", _too_warm(case.recipe)
    if warm is not None:
        how, where = warm
        case.refuse(
            IN_OIL_FRESH,
            where,
            fresh,
            message=sentence_start(f"{fresh.name} in oil is kept {how}."),
            hint=f"Keep it in the fridge for at most {MOST_DAYS} days, or freeze it: keep: fridge: 4 days.",
            because=because,
        )
    elif not case.recipe.keep:
        case.cannot_tell(IN_OIL_FRESH, f"{because}, and does not say how that is kept", ("keep",), fresh)
    else:
        case.box(IN_OIL_FRESH, because, fresh)


def _fresh_in_oil(case: Case) -> Ingredient | None:
    """What is fresh and lies in oil: by a stage `infuse`, or by the recipe's name. Meat has rules of its own."""
    recipe, says = case.recipe, case.tables.garden.says
    own = [line for line in recipe.ingredients if line.link is None]
    words = " ".join((recipe.name, *recipe.tags)).lower()
    infused = case.facts.first_stage("infuse") is not None or any(phrase in words for phrase in IN_OIL)
    if not infused or case.facts.meats or not any(says(line.name, "fat") for line in own):
        return None
    return next((line for line in own if says(line.name, "infused") and not _is_dry(line)), None)


def _is_dry(line: Ingredient) -> bool:
    """By the name, or by a preparation that says only that: garlic that is rinsed and dried is as wet as ever."""
    named, prepared = set(spaced(line.name).split()), set(spaced(line.preparation).split())
    return bool(named & DRY) or bool(prepared and prepared <= DRIED)


def _too_warm(recipe: Recipe) -> tuple[str, Stage | Keep] | None:
    """What keeps it too warm or too long, and where that is written."""
    for stage in recipe.stages:
        if stage.name in ("infuse", "jar", "pack", "rest"):
            if _is_warm(stage, recipe):
                return f"where it is not cold ({stage.written})", stage
            if _is_long(stage):
                return f"for longer than {MOST_DAYS} days ({stage.written})", stage
    for keep in recipe.keep:
        if keep.place == "shelf":
            return f"on the shelf for {keep.written}", keep
        if keep.place == "fridge" and keep.days.high > MOST_DAYS:
            return f"for {keep.written}, longer than {show_decimal(MOST_DAYS, places=0)} days", keep
    return None


def _is_warm(stage: Stage, recipe: Recipe) -> bool:
    """A sealed jar; or longer than two hours on the counter."""
    if is_hot_jar(stage, recipe):
        return True
    minutes = stage.minutes.high if stage.minutes is not None else None
    return stage.place in WARM and (minutes is None or minutes > WARM_H * HOUR_MIN)


def _is_long(stage: Stage) -> bool:
    """Longer than 4 days anywhere but in the freezer."""
    minutes = stage.minutes.high if stage.minutes is not None else None
    return stage.place != "freezer" and minutes is not None and minutes > MOST_DAYS * DAY_MIN


RULES = (Rule(slugs=(IN_OIL_FRESH,), look=oil_infusion),)
