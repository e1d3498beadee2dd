"""Vegetables in vinegar or in their own sour brine in; the acid and the salt that keep them, or a refusal, out."""

from __future__ import annotations

import re
from fractions import Fraction

from generator.compute.convert import weigh_measures
from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.times import DAY_MIN
from generator.compute.safety.verdict import cannot_tell, contradict
from generator.compute.safety.words import both_scales
from generator.model.quantity import Dimension, Span
from generator.model.recipe import Ingredient, Stage
from generator.model.results import Caution
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables
from generator.tables.garden import spaced

ACID_PERCENT = Fraction(5)
"Source: North Dakota State University Extension: vinegar of 5 % acidity; 4 % is not for preserving."
SALT_PERCENT = Fraction("2.25")
"Source: USDA Guide 6 by weight: 3 tbsp of canning salt in 5 lb of cabbage is 2.25 to 2.5 %."
SALT_MOST_PERCENT = Fraction("2.5")
"Source: as above."
WARM_F, COLD_F = Fraction(75), Fraction(60)
"Source: USDA Guide 6, sauerkraut: above 75 °F it turns soft, below 60 °F it may not ferment."
BRISK_F = Fraction(70)
WEEKS_WARM, WEEKS_COOL = Fraction(3), Fraction(5)
"Source: USDA Guide 6, sauerkraut: 3 to 4 weeks at 70 to 75 °F, 5 to 6 weeks at 60 to 65 °F."
WEEK_MIN = Fraction(10080)
"Source: minutes in a week, a definition."
RISES_OR_SETS = frozenset({"flour", "yeast", "milk", "yogurt"})
"Words of what ferments without being kept by salt: dough, drink, yogurt. Source: house choice."
A_MEAL_DAYS = Fraction(4)
"Pickles kept no longer than this are a salad, not a preserve. Source: fridge life of cooked leftovers, 3 to 4 days."
_RANGE = r"(?<![0-9])([0-9]+(?:[.,][0-9]+)?)(?: ?%?(?: ?[-–] ?| to )[0-9]+(?:[.,][0-9]+)?)?"
"A number, or the low end of a range of two."
_PERCENT = re.compile(_RANGE + r" ?(?:%|per ?cent)")
_GRAIN = re.compile(_RANGE + r"[ -]grain")
GRAIN_PER_PERCENT = Fraction(10)
"Source: 50 grain is 5 %, North Dakota State University Extension."


def pickle_acid(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Met: vinegar of at least 5 %. Not met: weaker. Cannot be told: no strength, or no vinegar, is written."""
    index = facts.first_stage("pickle")
    if index is None or not is_kept(facts.recipe.stages[index], facts):
        return []
    lines = [line for line in facts.recipe.ingredients if "vinegar" in spaced(line.name).split()]
    if not lines:
        because = "no vinegar is named, and what makes it sour is not told"
        return cannot_tell("pickle-acid", because, ("ingredients",), tables, stage=index)
    weak = [(line, found) for line in lines if (found := strength(line)) is not None and found < ACID_PERCENT]
    if weak:
        line, percent = weak[0]
        shown = f"{show_decimal(percent, places=1)} %"
        return contradict(
            "pickle-acid",
            facts,
            tables,
            log,
            position=line.position,
            message=f"'{line.name}' has {shown} acid; pickles are kept by vinegar of {ACID_PERCENT} %.",
            hint=f"Use vinegar marked {ACID_PERCENT} % and write it: 3 cups cider vinegar, 5 %.",
            because=f"{line.name} has {shown} acid",
            stage=index,
        )
    unknown = [line for line in lines if strength(line) is None]
    if unknown:
        because = f"the strength of {unknown[0].name} is not told; {ACID_PERCENT} % is needed"
        return cannot_tell("pickle-acid", because, ("ingredients",), tables, stage=index)
    if _is_thinned(lines, facts):
        because = (
            f"there is more water than {lines[0].name}, and no tested proportion of so much is known here"
        )
        return cannot_tell("pickle-acid", because, ("ingredients",), tables, stage=index)
    return [box("pickle-acid", f"{lines[0].name} of {ACID_PERCENT} % or more", tables, stage=index)]


def _is_thinned(vinegars: list[Ingredient], facts: Facts) -> bool:
    """More water than vinegar (house choice: beyond equal parts it is not called met); 1 g counts as 1 mL in both."""
    waters = [line for line in facts.recipe.ingredients if spaced(line.name).split()[-1:] == ["water"]]
    return sum(map(_most_ml, waters)) > sum(map(_least_ml, vinegars))


def _most_ml(line: Ingredient) -> Fraction:
    return max((one.high for one in _volumes(line)), default=Fraction(0))


def _least_ml(line: Ingredient) -> Fraction:
    return max((one.low for one in _volumes(line)), default=Fraction(0))


def _volumes(line: Ingredient) -> list[Span]:
    """The amount of a line by volume or by weight; none where it is not told."""
    if line.quantity is None:
        return []
    found = (line.quantity.total(kind) for kind in (Dimension.VOLUME, Dimension.WEIGHT))
    return [one for one in found if one is not None]


def strength(line: Ingredient) -> Fraction | None:
    """Per cent of acid by what the line says: 5 %, 50 grain; of a range the low end."""
    words = f"{line.name}, {line.preparation}".lower()
    percent, grain = _PERCENT.search(words), _GRAIN.search(words)
    if percent:
        return Fraction(percent.group(1).replace(",", "."))
    return Fraction(grain.group(1).replace(",", ".")) / GRAIN_PER_PERCENT if grain else None


def is_kept(stage: Stage, facts: Facts) -> bool:
    """False for an hour's onions that are eaten within days."""
    if stage.minutes is None or stage.minutes.high > DAY_MIN:
        return True
    return any(keep.place != "freezer" and keep.days.high > A_MEAL_DAYS for keep in facts.recipe.keep) or any(
        later.name == "jar" for later in facts.recipe.stages
    )


def ferment_salt(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Dry-salted vegetables: 2.25 % of salt by weight. Cannot be told where a weight, or the salt, is not."""
    index, vegetables = _fermented(facts, tables)
    if index is None:
        return []
    salts = [line for line in facts.recipe.ingredients if "salt" in spaced(line.name).split()]
    substitute = next(
        (line.name for line in facts.recipe.ingredients if tables.garden.says(line.name, "salt substitute")),
        "",
    )
    if substitute:
        return _refuse_salt(f"'{substitute}' takes the place of salt.", substitute, index, facts, tables, log)
    if any("water" in spaced(line.name).split() for line in facts.recipe.ingredients):
        because = "the salt is in a brine; 2.25 to 2.5 % is published for salt rubbed into the vegetable"
        return cannot_tell("ferment-salt", because, ("ingredients",), tables, stage=index)
    share = _share(salts, vegetables, facts, tables)
    if share is None:
        because = f"{vegetables[0].name} ferments, and the weight of salt or vegetables is not known"
        return cannot_tell("ferment-salt", because, ("ingredients",), tables, stage=index)
    because = f"{_percent(share)} salt in {vegetables[0].name}; {_limits()} is published for cabbage"
    if share.high < SALT_PERCENT:
        return _refuse_salt(
            f"The salt is {_percent(share)} of the vegetables.", because, index, facts, tables, log
        )
    if share.low < SALT_PERCENT:
        return cannot_tell("ferment-salt", because, ("ingredients",), tables, stage=index)
    return [box("ferment-salt", because, tables, stage=index)]


def _share(
    salts: list[Ingredient], vegetables: list[Ingredient], facts: Facts, tables: Tables
) -> Span | None:
    salt, rest = _weight(salts, facts, tables), _weight(vegetables, facts, tables)
    if salt is None or rest is None or not salts or rest.low <= 0:
        return None
    return Span(100 * salt.low / rest.high, 100 * salt.high / rest.low)


def _weight(lines: list[Ingredient], facts: Facts, tables: Tables) -> Span | None:
    total = Span.of(0)
    for line in lines:
        found = (
            weigh_measures(line.quantity, line.name, tables, facts.config.house_weights)
            if line.quantity is not None and not line.quantity.is_vague
            else None
        )
        if found is None:
            return None
        total = total.plus(found.grams)
    return total


def _refuse_salt(
    message: str, because: str, index: int, facts: Facts, tables: Tables, log: ProblemLog
) -> list[Caution]:
    return contradict(
        "ferment-salt",
        facts,
        tables,
        log,
        position=facts.recipe.stages[index].position,
        message=message,
        hint=f"Weigh {_limits()} of their weight in canning salt, and use no substitute.",
        because=because,
        stage=index,
    )


def ferment_place(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Cabbage alone has published weeks: a box where it lies too warm, too cold, or too short a time."""
    index, vegetables = _fermented(facts, tables)
    if index is None or not any({"cabbage", "cabbages"} & set(spaced(v.name).split()) for v in vegetables):
        return []
    stage = facts.recipe.stages[index]
    if stage.at is None or stage.minutes is None:
        told = "the temperature" if stage.at is None else "the time"
        because = f"the course does not say {told}; {_weeks()}"
        return cannot_tell("ferment-place", because, ("course",), tables, stage=index)
    low, high = stage.at.low.fahrenheit, stage.at.high.fahrenheit
    if high > WARM_F or low < COLD_F:
        at = both_scales(high if high > WARM_F else low)
        return [box("ferment-place", f"it ferments at {at}; {_weeks()}", tables, stage=index)]
    least = WEEKS_WARM if low >= BRISK_F else WEEKS_COOL
    if stage.minutes.high < least * WEEK_MIN:
        because = f"it ferments for {stage.length_written}; {_weeks()}"
        return [box("ferment-place", because, tables, stage=index)]
    return []


def _fermented(facts: Facts, tables: Tables) -> tuple[int | None, list[Ingredient]]:
    """The stage and the vegetables; nothing for dough, drink and sausage."""
    index = facts.first_stage("ferment")
    names = [spaced(line.name).split() for line in facts.recipe.ingredients]
    if index is None or facts.meats or any(RISES_OR_SETS & set(name) for name in names):
        return None, []
    found = [
        line
        for line in facts.recipe.ingredients
        if tables.garden.says(line.name, "fermented vegetable") and not line.link
    ]
    return (index, found) if found else (None, [])


def _percent(share: Span) -> str:
    low, high = show_decimal(share.low, places=2), show_decimal(share.high, places=2)
    return f"{low} %" if low == high else f"{low} to {high} %"


def _limits() -> str:
    return f"{show_decimal(SALT_PERCENT, places=2)} to {show_decimal(SALT_MOST_PERCENT, places=2)} %"


def _weeks() -> str:
    return (
        "3 to 4 weeks at 70 to 75 °F (21 to 24 °C), 5 to 6 weeks at 60 to 65 °F (16 to 18 °C) are published"
    )
