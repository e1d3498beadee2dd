"""Game of a book that shoots lead, or does not say, in; one box on lead with its reasons out."""

from __future__ import annotations

import re

from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.meats import is_ground, wild_game_of
from generator.compute.safety.verdict import cannot_tell
from generator.model.results import Caution
from generator.problems import ProblemLog
from generator.tables import Tables

SHOT = "shot"
"Key of book.yaml: asked once for all recipes."
TRAPPED = frozenset({"beaver", "muskrat"})
"Animals that are mostly trapped. Source: common practice, no source."
ACID = re.compile(
    r"\b(?:vinegar|wine|port|sherry|vermouth|tomato(?:es)?|cider|verjuice|lemons?|limes?|oranges?|citrus|"
    r"grapefruits?|sumac|tamarind|buttermilk|sauerkraut)\b"
)
"Sour ingredients. Source: UK FSA 2012 (wine, vinegar, tomato); the others by kind, house choice."
NOT_ACID = re.compile(r"\b(?:peel|zest|leaf|leaves|lime leaves|grass)\b")


def lead_shot(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Lead: always. Not told: only where grinding or acid makes it matter more."""
    game = [meat for meat in wild_game_of(facts) if meat.animal.key not in TRAPPED]
    shot = facts.config.shot
    if not game or shot in ("copper", "none"):
        return []
    reasons = _worse(facts)
    if shot == "lead":
        return [
            box("lead-shot", "; ".join([f"{game[0].because}, and the book shoots lead", *reasons]), tables)
        ]
    if not reasons:
        return []
    because = "; ".join([*reasons, "the book does not say what it shoots"])
    return cannot_tell("lead-shot", because, (SHOT,), tables)


def _worse(facts: Facts) -> list[str]:
    reasons = []
    if any(is_ground(meat, facts.recipe) for meat in wild_game_of(facts)):
        reasons.append(
            "the game is ground: 27 % of ground packs of venison held metal, and 2 % of whole cuts"
        )
    sour = [line.name for line in facts.recipe.ingredients if _is_sour(line.name, line.preparation)]
    if sour:
        names = " and ".join(dict.fromkeys(sour))
        reasons.append(f"{names} is sour, and acid is commonly said to draw lead out of shot")
    return reasons


def _is_sour(name: str, preparation: str) -> bool:
    words = f"{name} {preparation}".lower()
    return ACID.search(name.lower()) is not None and NOT_ACID.search(words) is None
