"""Garlic, herbs, mushrooms or vegetables in oil in; the cold and the days that they may have, or a refusal, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.acid import own_lines, says
from generator.compute.safety.facts.heat import is_hot_jar
from generator.compute.safety.facts.oil import fresh_lines, is_acidified, is_eaten_at_once, weight_of
from generator.compute.safety.facts.places import ROOM
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.words import sentence_start
from generator.model.recipe import Ingredient, Keep, Recipe, Stage
from generator.model.shown import show_decimal
from generator.tables.garden import spaced

IN_OIL_FRESH, ACIDIFIED = "oil-infusion", "oil-acidified"

MOST_DAYS = Fraction(4)
"Source: NCHFP, garlic in oil, reviewed 2015: in the fridge for at most 4 days; the stricter of several."
WARM_H = Fraction(2)
"Source: USDA, perishable food out of the fridge for no more than 2 hours."
HOUR_MIN = Fraction(60)
"Source: minutes in an hour, a definition."
WARM = ROOM | {"cellar", "rack"}
"Places that are not known to be cold. Source: house choice."
IN_OIL = (
    *(
        "in oil",
        "under oil",
        "infused oil",
        "garlic oil",
        "herb oil",
        "basil oil",
        "chili oil",
        "chile oil",
        "ramp oil",
    ),
    *(
        "confit",
        "pesto",
        "chimichurri",
        "salsa macha",
        "chili crisp",
        "chile crisp",
        "bagna cauda",
        "antipasto",
    ),
    *("marinated mushrooms", "marinated cheese", "marinated feta", "giardiniera", "zhug", "pistou"),
)
"Names of what lies in its oil. Source: words of the trade."
UNDER_OIL = (
    "to cover",
    "to submerge",
    "cover",
    "covering",
    "packed in oil",
    "in oil",
    "under oil",
    "for packing",
)
"Words of a line that lay something under it. Source: words of the trade."
NOT_UNDER_OIL = frozenset({"frying", "deep", "sauteing", "brushing", "pan", "grill", "greasing"})
"Words of a line of oil that is not kept. Source: words of the trade."
MUCH_OIL = Fraction(1, 3)
"Of all that is weighed: so much oil lies over what is in it. Source: house choice."
LEAST_OIL_ML = Fraction(100)
"Source: house choice; a few spoons dress a dish."
NOT_KEPT_IN_OIL = frozenset({"fry", "bake", "brown", "grind"})
"A dish that is fried or baked takes oil and is not kept in it. Source: words of the trade."
BINDS = frozenset({"flour", "egg", "eggs", "yolks", "mayonnaise"})
"Dough and mayonnaise, which have hazards of their own. Source: words of the trade."
SOUR_SHARE = Fraction(1, 4)
"Acid to oil of a dressing. Source: house choice, one part in four."


def oil_infusion(case: Case) -> None:
    """Met: the fridge, 4 days, or the freezer. Not met: longer, or warm. Cannot be told: no keeping is written."""
    fresh = _fresh_in_oil(case)
    if fresh is None or _is_told_eaten(case):
        return
    if is_acidified(case.facts, case.tables):
        case.box(ACIDIFIED, f"{fresh.name} is made sour before it lies in oil", fresh)
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
    elif not case.recipe.keep and "thrown away the same day" not in case.facts.words.facts:
        case.cannot_tell(IN_OIL_FRESH, f"{because}, and does not say how that is kept", ("keep",), fresh)
    else:
        case.box(IN_OIL_FRESH, because, fresh)


def _is_told_eaten(case: Case) -> bool:
    """The method has it eaten at once, and neither stage, key nor sentence puts any of it by."""
    told = case.facts.words.facts
    put_by = case.recipe.keep or any(stage.name in ("infuse", "jar", "pack") for stage in case.stages)
    return "told eaten at once" in told and "put by" not in told and not put_by


def _fresh_in_oil(case: Case) -> Ingredient | None:
    """What is fresh and lies in oil: by a stage `infuse`, by name, or by its lines. Meat has rules of its own."""
    own = own_lines(case.recipe)
    oils = [line for line in own if case.tables.garden.says(line.name, "fat")]
    if case.facts.meats or not oils:
        return None
    if not (_is_named(case) or _is_laid_under(case, oils) or _is_mostly_oil(case, oils)):
        return None
    return next(iter(fresh_lines(case.recipe, case.tables)), None)


def _is_named(case: Case) -> bool:
    """By a stage `infuse`; by a name or a tag, unless it is served as a dish that nothing says is kept."""
    if case.facts.first_stage("infuse") is not None:
        return True
    recipe = case.recipe
    words = " ".join((recipe.name, *recipe.tags)).lower()
    return any(phrase in words for phrase in IN_OIL) and not is_eaten_at_once(recipe)


def _is_laid_under(case: Case, oils: list[Ingredient]) -> bool:
    """The line of oil says so: olive oil, to cover."""
    lines = (f"{line.name}, {line.preparation}".lower() for line in oils)
    return not is_eaten_at_once(case.recipe) and any(
        phrase in words for words in lines for phrase in UNDER_OIL
    )


def _is_mostly_oil(case: Case, oils: list[Ingredient]) -> bool:
    """A third of it or more is oil that nothing fries in, binds or sours, and it is put by."""
    recipe, words = case.recipe, set()
    for line in own_lines(recipe):
        words |= set(spaced(line.name).split())
    fried = any(stage.name in NOT_KEPT_IN_OIL for stage in recipe.stages)
    for_frying = any(NOT_UNDER_OIL & set(spaced(f"{line.name} {line.preparation}").split()) for line in oils)
    if fried or for_frying or words & BINDS or is_eaten_at_once(recipe):
        return False
    oil, whole = _grams(case, oils), _grams(case, own_lines(recipe))
    sour = [line for line in own_lines(recipe) if says(line, "acid", case.tables)]
    if oil < LEAST_OIL_ML or _grams(case, sour) >= SOUR_SHARE * oil:
        return False
    return oil >= MUCH_OIL * whole


def _grams(case: Case, lines: list[Ingredient]) -> Fraction:
    """The least weight [g] of the lines; what cannot be weighed counts as nothing."""
    found = (weight_of(case.facts, line, case.tables) for line in lines)
    return sum((one.low for one in found if one is not None), Fraction(0))


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


RULES = (Rule(slugs=(IN_OIL_FRESH, ACIDIFIED), look=oil_infusion),)
