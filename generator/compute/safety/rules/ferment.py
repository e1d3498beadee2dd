"""Vegetables that sour in their own brine in; the salt, the warmth and the weeks that keep them, or a refusal, out."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from generator.compute.safety.case import Case, Met, Rule
from generator.compute.safety.facts.sour import lines_with, rises_or_sets
from generator.compute.safety.words import both_scales
from generator.compute.weight.measures import weigh_measures
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Ingredient, Stage
from generator.model.shown import show_decimal

SALT, PLACE = "ferment-salt", "ferment-place"

SALT_PERCENT = Fraction("2.25")
"Source: USDA Guide 6 by weight: 3 tbsp of canning salt in 5 lb of cabbage is 2.25 to 2.5 %."
SALT_LEAST_PERCENT = Fraction(2)
"Source: worked out from the guide's own spoons, which give 1.8 to 2.5 %; below about 2 % nothing was tested."
SALT_MOST_PERCENT = Fraction("2.5")
"Source: as above."
SOLID_SALT_G_ML = Fraction("2.165")
"[g/ml] Source: density of crystalline sodium chloride, CRC Handbook, from memory. No spoon of salt holds more."
WARM_F, COLD_F = Fraction(75), Fraction(60)
"Source: USDA Guide 6, sauerkraut: above 75 °F it turns soft, below 60 °F it may not ferment."
BRISK_F = Fraction(70)
WEEKS_WARM, WEEKS_COOL = Fraction(3), Fraction(5)
"Source: USDA Guide 6, sauerkraut: 3 to 4 weeks at 70 to 75 °F, 5 to 6 weeks at 60 to 65 °F."
WEEKS = "3 to 4 weeks at 70 to 75 °F (21 to 24 °C), 5 to 6 weeks at 60 to 65 °F (16 to 18 °C) are published"
"Source: as above."
WEEK_MIN = Fraction(10080)
"Source: minutes in a week, a definition."


def ferment_salt(case: Case) -> None:
    """2 % of salt by weight, of the brine too where there is one. Cannot be told where a weight, or the salt, is not.

    Of a method that tells no stage only too little, and what cannot be told, is said.
    """
    index, vegetables = _fermented(case)
    if not vegetables:
        return
    recipe, says = case.recipe, case.tables.garden.says
    substitute = next((line for line in recipe.ingredients if says(line.name, "salt substitute")), None)
    water = lines_with(recipe, ("water",))
    if substitute is not None:
        message = f"'{substitute.name}' takes the place of salt."
        _refuse_salt(case, index, substitute, message=message, because=substitute.name)
    else:
        _judge_salt(case, index, vegetables, water)


def _judge_salt(
    case: Case, index: int | None, vegetables: Sequence[Ingredient], water: Sequence[Ingredient]
) -> None:
    """Of a range the high end must reach the least that was tested, and the low end too for it to be met.

    Salt of a brine goes into the vegetables. Whether a published share is of both together or of the water is seldom
    said: met by both, refused where neither has enough.
    """
    salts = lines_with(case.recipe, ("salt",))
    share, lines = _share(case, salts, (*vegetables, *water)), (*vegetables, *water, *salts)
    of_water = _share(case, salts, water) if water else None
    if share is not None and of_water is not None:
        share = Span(share.low, max(share.high, of_water.high))
    if share is None or (share.low == 0 and share.high >= SALT_LEAST_PERCENT):
        because = f"{vegetables[0].name} ferments, and the weight of salt or vegetables is not known"
        case.cannot_tell(SALT, because, ("ingredients",), *lines, stage=index)
        return
    brine = " and its brine" if water else ""
    because = f"{_percent(share)} salt in {vegetables[0].name}{brine}; {_limits()} is published for cabbage"
    if share.high < SALT_LEAST_PERCENT:
        of = "brine, and less of all together" if water else "vegetables"
        message = f"The salt is {_percent(share)} of the {of}."
        _refuse_salt(case, index, *lines, message=message, because=because)
    elif share.low < SALT_LEAST_PERCENT:
        case.cannot_tell(SALT, because, ("ingredients",), *lines, stage=index)
    elif index is not None:
        case.box(SALT, because, *lines, stage=index)


def _share(case: Case, salts: Sequence[Ingredient], vegetables: Sequence[Ingredient]) -> Span | None:
    salt, rest = _weight(case, salts) or _at_most(salts), _weight(case, vegetables)
    if salt is None or rest is None or not salts or rest.low <= 0:
        return None
    return Span(100 * salt.low / rest.high, 100 * salt.high / rest.low)


def _at_most(salts: Sequence[Ingredient]) -> Span | None:
    """Nothing to the most [g] that spoons of a salt can weigh whose grain is not told."""
    volumes = [
        line.quantity.total(Dimension.VOLUME)
        for line in salts
        if line.quantity is not None and not line.quantity.is_vague
    ]
    known = [volume for volume in volumes if volume is not None]
    if not salts or len(known) != len(salts):
        return None
    return Span(Fraction(0), SOLID_SALT_G_ML * sum((volume.high for volume in known), Fraction(0)))


def _weight(case: Case, lines: Sequence[Ingredient]) -> Span | None:
    """All lines together [g]; None where one of them cannot be weighed."""
    total, house = Span.of(0), case.facts.config.house_weights
    for line in lines:
        if line.quantity is None or line.quantity.is_vague:
            return None
        found = weigh_measures(line.quantity, line.name, case.tables, house)
        if found is None:
            return None
        total = total.plus(found.grams)
    return total


def _refuse_salt(case: Case, index: int | None, *met: Met, message: str, because: str) -> None:
    """An error where a stage ferments it; where only the method does, its box."""
    if index is None:
        case.told(SALT, because, *met)
        return
    case.refuse(
        SALT,
        case.stages[index],
        *met,
        message=message,
        hint=f"Weigh {_limits()} of their weight in canning salt, and use no substitute.",
        because=because,
        stage=index,
    )


def ferment_place(case: Case) -> None:
    """Cabbage alone has published weeks: a box where it lies too warm, too cold, or too short a time."""
    index, vegetables = _fermented(case)
    cabbages = [line for line in lines_with(case.recipe, ("cabbage", "cabbages")) if line in vegetables]
    if index is None or not cabbages:
        return
    stage = case.stages[index]
    if stage.at is None or stage.minutes is None:
        told = "the temperature" if stage.at is None else "the time"
        because = f"the course does not say {told}; {WEEKS}"
        case.cannot_tell(PLACE, because, ("course",), *cabbages, stage=index)
        return
    off = _why_off(stage, stage.at.low.fahrenheit, stage.at.high.fahrenheit, stage.minutes.high)
    if off:
        case.box(PLACE, f"it ferments {off}; {WEEKS}", *cabbages, stage=index)


def _why_off(stage: Stage, low_f: Fraction, high_f: Fraction, minutes: Fraction) -> str:
    """How the stage is not as published; empty where it is."""
    if high_f > WARM_F or low_f < COLD_F:
        return f"at {both_scales(high_f if high_f > WARM_F else low_f)}"
    least = WEEKS_WARM if low_f >= BRISK_F else WEEKS_COOL
    return f"for {stage.length_written}" if minutes < least * WEEK_MIN else ""


def _fermented(case: Case) -> tuple[int | None, list[Ingredient]]:
    """The stage, None where words alone tell of it, and the vegetables; nothing for dough, drink and sausage."""
    index, says = case.facts.first_stage("ferment"), case.tables.garden.says
    if (index is None and not _is_told(case)) or case.facts.meats or rises_or_sets(case.recipe):
        return None, []
    own = (line for line in case.recipe.ingredients if not line.link)
    found = [line for line in own if says(line.name, "fermented vegetable")]
    return (index, found) if found else (None, [])


def _is_told(case: Case) -> bool:
    """The method presses it into a crock for weeks, and nothing sours it but its own brine."""
    sour = lines_with(case.recipe, ("vinegar",))
    return "ferment told" in case.facts.words.facts and not sour and bool(lines_with(case.recipe, ("salt",)))


def _percent(share: Span) -> str:
    low, high = show_decimal(share.low, places=2), show_decimal(share.high, places=2)
    if share.low == 0:
        return f"at most {high} %"
    return f"{low} %" if low == high else f"{low} to {high} %"


def _limits() -> str:
    return f"{show_decimal(SALT_PERCENT, places=2)} to {show_decimal(SALT_MOST_PERCENT, places=2)} %"


RULES = (
    Rule(slugs=(SALT,), look=ferment_salt),
    Rule(slugs=(PLACE,), look=ferment_place),
)
