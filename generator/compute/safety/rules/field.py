"""Game on its way from the field in: gut-soiled, aged, a whole carcass, shot with lead; the boxes of each out."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.gather import MeatFact
from generator.compute.safety.facts.heat import Heat, reached
from generator.compute.safety.facts.meats import BIRDS, DEER, game_group, is_ground, wild_game_of
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.words import at_most, both_scales
from generator.model.recipe import Ingredient, Stage
from generator.model.shown import show_decimal

SOILED, AGED, CARCASS, LEAD = "gut-soiled", "age-cold", "carcass", "lead-shot"
GUT = re.compile(r"\b(?:gut|paunch)[- ](?:shot|soiled|tainted)\b")
RISKY = frozenset({"dry", "grind", "stuff", "ferment", "cold smoke"})
"Stages of jerky and sausage. Source: Michigan State University Extension on game jerky."
AGE_DAYS = Fraction(5)
"[d] Source: University of Wisconsin Extension, venison, 2013: at or below 40 °F for up to 5 days."
COLD_PLACES = frozenset({"fridge", "freezer"})
UNDRESSED = re.compile(
    r"\b(?:carcass(?:es)?|undressed|field[- ]dressed|ungutted|unskinned|unplucked|"
    r"(?:in|with) (?:the )?(?:fur|feathers?|hide)|(?:hide|fur|feathers?) on)\b"
)
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


def gut_soiled(case: Case) -> None:
    """Never for jerky, sausage or a rare dish."""
    found = [meat for meat in case.facts.meats if GUT.search(meat.words.lower())]
    if not found:
        return
    heat = reached(case.recipe, case.constant("wild_game_minimum_f"), case.tables).heat
    risky = next((stage for stage in case.stages if stage.name in RISKY), None)
    because = f"{found[0].words} was soiled by the gut"
    if risky is not None or heat in (Heat.NOT_MET, Heat.RAW):
        way = "is not cooked through" if risky is None else f"goes into '{risky.name}'"
        case.refuse(
            SOILED,
            case.recipe if risky is None else risky,
            *found,
            message=f"Gut-soiled meat {way}.",
            hint="Trim it away widely and throw it out; cook what is left through.",
            because=because,
        )
    elif heat is Heat.UNKNOWN:
        case.cannot_tell(SOILED, because, ("course",), *found)
    else:
        case.box(SOILED, because, *found)


def ageing(case: Case) -> None:
    """Fresh game that hangs. What lies in a cure ages by rules of its own."""
    game = wild_game_of(case.facts)
    if case.recipe.cure is None and game:
        for index, stage in enumerate(case.stages):
            if stage.name == "age":
                _judge_age(case, index, stage, game)


def _judge_age(case: Case, index: int, stage: Stage, game: Sequence[MeatFact]) -> None:
    because = f"{game[0].because}, and it is aged"
    wrong = _wrong_with(case, stage, game)
    if wrong:
        coldest = at_most(case.constant("cold_holding_maximum_f"))
        case.refuse(
            AGED,
            stage,
            *game,
            message=f"Game is aged {wrong}.",
            hint=f"Write age: 4 days at 38 °F; at or below {coldest}, {AGE_DAYS} days at the longest, "
            "and not what is ground afterwards.",
            because=because,
            stage=index,
        )
    elif stage.minutes is None or (stage.at is None and stage.place not in COLD_PLACES):
        because += "; how cold or how long is not told"
        case.cannot_tell(AGED, because, ("course",), *game, stage=index)
    else:
        case.box(AGED, because, *game, stage=index)


def _wrong_with(case: Case, stage: Stage, game: Sequence[MeatFact]) -> str:
    maximum = case.constant("cold_holding_maximum_f")
    if stage.at is not None and stage.at.high.fahrenheit > maximum:
        return f"at up to {both_scales(stage.at.high.fahrenheit)}, above {at_most(maximum)}"
    if stage.place == "counter":
        return "on the counter"
    if stage.minutes is not None and stage.minutes.high > AGE_DAYS * DAY_MIN:
        return f"for {show_decimal(stage.minutes.high / DAY_MIN, places=1)} days, longer than {AGE_DAYS}"
    if any(is_ground(meat, case.recipe) for meat in game):
        return "and then ground"
    return ""


def carcass(case: Case) -> None:
    """Only where a recipe starts from the animal itself."""
    found = [meat for meat in wild_game_of(case.facts) if UNDRESSED.search(meat.words.lower())]
    if found:
        reasons = [found[0].because, *(_of_animal(case, meat) for meat in found)]
        case.box(CARCASS, "; ".join(dict.fromkeys(filter(None, reasons))), *found)


def _of_animal(case: Case, meat: MeatFact) -> str:
    """What its kind asks of who dresses it; empty for most."""
    group = game_group(meat.animal)
    if group == "wild pig":
        return (
            "wild pig can carry Brucella: cover the eyes, touch nothing with bare hands, keep children back, wash for "
            "20 seconds, and wipe tools with 1 cup of bleach to 9 of water"
        )
    if group == "small game":
        return (
            "it can carry tularaemia: leave animals that were slow, and throw out any whose liver or spleen is said to "
            "show many pale spots"
        )
    if group in BIRDS:
        return "birds can carry influenza: leave sick and dead ones, dress them outdoors, keep tools from poultry"
    if group == DEER and case.facts.config.deer_disease_area is not False:
        return "deer disease: touch brain and spine little, and keep kitchen knives out of it"
    return ""


def lead_shot(case: Case) -> None:
    """Lead: always. Not told: only where grinding or acid makes it matter more."""
    game = [meat for meat in wild_game_of(case.facts) if meat.animal.key not in TRAPPED]
    shot = case.facts.config.shot
    if not game or shot in ("copper", "none"):
        return
    ground = [meat for meat in wild_game_of(case.facts) if is_ground(meat, case.recipe)]
    sour = [line for line in case.recipe.ingredients if _is_sour(line)]
    reasons = _worse(ground, sour)
    if shot == "lead":
        because = "; ".join([f"{game[0].because}, and the book shoots lead", *reasons])
        case.box(LEAD, because, *game, *ground, *sour)
    elif reasons:
        because = "; ".join([*reasons, "the book does not say what it shoots"])
        case.cannot_tell(LEAD, because, (SHOT,), *game, *ground, *sour)


def _worse(ground: Sequence[MeatFact], sour: Sequence[Ingredient]) -> list[str]:
    reasons = []
    if ground:
        reasons.append(
            "the game is ground: 27 % of ground packs of venison held metal, and 2 % of whole cuts"
        )
    if sour:
        names = " and ".join(dict.fromkeys(line.name for line in sour))
        reasons.append(f"{names} is sour, and acid is commonly said to draw lead out of shot")
    return reasons


def _is_sour(line: Ingredient) -> bool:
    words = f"{line.name} {line.preparation}".lower()
    return ACID.search(line.name.lower()) is not None and NOT_ACID.search(words) is None


RULES = (
    Rule(slugs=(SOILED,), look=gut_soiled),
    Rule(slugs=(AGED,), look=ageing),
    Rule(slugs=(CARCASS,), look=carcass),
    Rule(slugs=(LEAD,), look=lead_shot),
)
