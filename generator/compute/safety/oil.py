"""Garlic, herbs, mushrooms or vegetables in oil in; the cold and the days that they may have, or a refusal, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.heat import is_hot_jar
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import sentence_start
from generator.model.recipe import Ingredient, Stage
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import Position, ProblemLog
from generator.tables import Tables
from generator.tables.garden import spaced

SLUG = "oil-infusion"
MOST_DAYS = Fraction(4)
"Source: NCHFP, garlic in oil, reviewed 2015: in the fridge for at most 4 days; the stricter of several."
WARM_H = Fraction(2)
"Source: USDA, perishable food out of the fridge for no more than 2 hours."
HOUR_MIN = Fraction(60)
"Source: minutes in an hour, a definition."
WARM = frozenset({"pantry", "cellar", "shade", "counter", "rack"})
"Places that are not known to be cold. Source: house choice."
DRY = frozenset({"dried", "dry", "powder", "ground", "flakes", "seed", "seeds", "peppercorns"})
"Words of things too dry for Clostridium botulinum. Source: common practice, no source."
DRIED = frozenset({"dried", "dry", "powder", "powdered", "flakes", "crumbled", "rubbed"})
"Words that a preparation of something dry is made of. Source: common practice, no source."
IN_OIL = ("in oil", "infused oil", "garlic oil", "herb oil", "confit")


def oil_infusion(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: the fridge, 4 days, or the freezer. Not met: longer, or warm. Cannot be told: no keeping is written."""
    fresh = _fresh_in_oil(facts, tables)
    if not fresh:
        return []
    warm = _too_warm(facts)
    if warm is not None:
        return _refuse(fresh, f"{fresh} in oil is kept {warm[0]}.", warm[1], facts, tables, log)
    if not facts.recipe.keep:
        because = f"it uses {fresh} in oil, and does not say how that is kept"
        return cannot_tell(SLUG, because, ("keep",), tables)
    return [box(SLUG, f"it uses {fresh} in oil", tables)]


def _fresh_in_oil(facts: Facts, tables: Tables) -> str:
    """What is fresh and lies in oil: by a stage `infuse`, or by the recipe's name. Meat has rules of its own."""
    names = [line.name for line in facts.recipe.ingredients if line.link is None]
    oil = any(tables.garden.says(name, "fat") for name in names)
    words = " ".join((facts.recipe.name, *facts.recipe.tags)).lower()
    infused = facts.first_stage("infuse") is not None or any(phrase in words for phrase in IN_OIL)
    if not oil or not infused or facts.meats:
        return ""
    for line in facts.recipe.ingredients:
        if line.link is None and tables.garden.says(line.name, "infused") and not _is_dry(line):
            return line.name
    return ""


def _is_dry(line: Ingredient) -> bool:
    """By the name, or by a preparation that says only that: garlic that is rinsed and dried is as wet as ever."""
    named, prepared = set(spaced(line.name).split()), set(spaced(line.preparation).split())
    return bool(named & DRY) or bool(prepared and prepared <= DRIED)


def _too_warm(facts: Facts) -> tuple[str, Position] | None:
    """What keeps it too warm or too long, and where that is written."""
    for stage in facts.recipe.stages:
        if stage.name in ("infuse", "jar", "pack", "rest"):
            if _is_warm(stage):
                return f"where it is not cold ({stage.written})", stage.position
            if _is_long(stage):
                return f"for longer than {MOST_DAYS} days ({stage.written})", stage.position
    for keep in facts.recipe.keep:
        if keep.place == "shelf":
            return f"on the shelf for {keep.written}", keep.position
        if keep.place == "fridge" and keep.days.high > MOST_DAYS:
            return f"for {keep.written}, longer than {show_decimal(MOST_DAYS, places=0)} days", keep.position
    return None


def _is_warm(stage: Stage) -> bool:
    """A sealed jar; or longer than two hours on the counter."""
    if is_hot_jar(stage):
        return True
    minutes = stage.minutes.high if stage.minutes is not None else None
    return stage.place in WARM and (minutes is None or minutes > WARM_H * HOUR_MIN)


def _is_long(stage: Stage) -> bool:
    """Longer than 4 days anywhere but in the freezer."""
    minutes = stage.minutes.high if stage.minutes is not None else None
    return stage.place != "freezer" and minutes is not None and minutes > MOST_DAYS * DAY_MIN


def _refuse(
    fresh: str, message: str, position: Position, facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    return contradict(
        SLUG,
        facts,
        tables,
        log,
        position=position,
        message=sentence_start(message),
        hint=f"Keep it in the fridge for at most {MOST_DAYS} days, or freeze it: keep: fridge: 4 days.",
        because=f"it uses {fresh} in oil",
    )
