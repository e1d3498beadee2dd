"""A course and a least temperature in, whether the middle of the meat gets there out.

The last stage that says how hot the middle gets is judged, since what follows may only warm it again. The air of a
stage bounds its inside: nothing in an oven of 150 °F comes to 165 °F.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from generator.model.recipe import Recipe, Stage
from generator.tables import Tables

COLD_STAGES = frozenset(
    {
        *("thaw", "chill", "cool", "freeze", "cure", "equalise", "soak", "rinse", "age", "pack"),
        *("inject", "marinate"),
    }
)
"Stages whose inside temperature is one to come down to. Source: words of the trade."
COLD_JAR = ("fridge", "freezer")
"Where a jar is put by, not sealed by heat. Source: words of the trade."
WARM_DRYING_F = Fraction(100)
"[degF] Source: house choice; from here on drying is a stage of heat, below it the meat stays raw."
CANNERS = ("pressure canner", "water bath")
MOVES = frozenset({"jar", "boil", "cook", "simmer"})
"Stages that in a water bath heat filled jars; what bakes or rests in one is a custard. Source: words of the trade."
WET_STAGES = frozenset({"boil", "simmer", "braise"})
"Heat by water, which is hot all round the meat and never hotter than it boils. Source: words of the trade."
CANNER, CANNER_F = "pressure canner", Fraction(240)
"[degF] Source: USDA AIB 539, its pressures hold the steam near 240 °F at each altitude; a jar without it tells nothing."
FINISHING = frozenset({"cold smoke", "ferment", "pickle", "infuse"})
"Stages that make raw meat look ready to eat. Source: words of the trade."
DRIED_MIN = Fraction(1440)
"[min] Source: house choice; drying for a day or longer makes something to eat, drying until tacky does not."


class Heat(StrEnum):
    """What a course does to raw meat, as far as it says."""

    MET = "met"
    NOT_MET = "not met"
    UNKNOWN = "unknown"
    "It is heated, and nothing says to what temperature inside."
    RAW = "raw"
    "No stage heats it."


@dataclass(frozen=True, slots=True, kw_only=True)
class Reached:
    """How hot the middle gets, and where that is said."""

    heat: Heat
    inside_f: Fraction | None = None
    "The temperature that was judged: None where none is told, or where nothing heats."
    stage: int | None = None
    by_air: bool = False
    "The air of the stage is colder than what it asks for, or than what is needed."


def reached(recipe: Recipe, minimum_f: Fraction, tables: Tables) -> Reached:
    """The course held against a least temperature [degF]."""
    canned = _canned(recipe)
    if canned is not None:
        return canned
    stages = [(index, stage) for index, stage in enumerate(recipe.stages) if is_hot(stage, recipe, tables)]
    if not stages:
        return Reached(heat=Heat.RAW)
    judged = _last_told(stages)
    if judged is not None and judged.inside_f is not None and judged.inside_f >= minimum_f:
        return judged
    told = -1 if judged is None or judged.stage is None else judged.stage
    later = [(index, stage) for index, stage in stages if index > told]
    if any(_may_reach(stage, minimum_f) for _, stage in later):
        return Reached(heat=Heat.UNKNOWN, stage=later[-1][0])
    if judged is not None:
        return Reached(heat=Heat.NOT_MET, inside_f=judged.inside_f, stage=judged.stage, by_air=judged.by_air)
    index, hottest = max(later, key=lambda pair: _air_f(pair[1]) or Fraction(0))
    return Reached(heat=Heat.NOT_MET, inside_f=_air_f(hottest), stage=index, by_air=True)


def _canned(recipe: Recipe) -> Reached | None:
    """Meat that goes raw into a jar is cooked in a pressure canner; whether for long enough is the rule of canning."""
    for index, stage in enumerate(recipe.stages):
        if stage.place == CANNER:
            told = stage.minutes is not None
            return Reached(
                heat=Heat.MET if told else Heat.UNKNOWN, inside_f=CANNER_F if told else None, stage=index
            )
    return None


def is_hot(stage: Stage, recipe: Recipe, tables: Tables) -> bool:
    """True for a stage that can bring the middle to a temperature, by its name or by what it says."""
    if stage.name in COLD_STAGES:
        return False
    if stage.name == "jar":
        return is_hot_jar(stage, recipe)
    if tables.stages.get(stage.name, False) or stage.inside is not None:
        return True
    air = _air_f(stage)
    return stage.name == "dry" and air is not None and air >= WARM_DRYING_F


def is_hot_jar(stage: Stage, recipe: Recipe) -> bool:
    """`jar` anywhere but in the cold: a jar that does not say where may be a canned one.

    One without a canner that is kept in the cold alone is only packed.
    """
    if stage.name != "jar" or stage.place in COLD_JAR:
        return False
    heated = stage.place in CANNERS or stage.pounds is not None
    places = {keep.place for keep in recipe.keep}
    return heated or not places or not places <= set(COLD_JAR)


def _air_f(stage: Stage) -> Fraction | None:
    return None if stage.at is None else stage.at.high.fahrenheit


def _may_reach(stage: Stage, minimum_f: Fraction) -> bool:
    """A stage that does not tell its inside: can it get there? A rest has no heat of its own."""
    air = _air_f(stage)
    return _inside_f(stage) is None and (air is None or air >= minimum_f)


def _inside_f(stage: Stage) -> Fraction | None:
    return None if stage.inside is None else stage.inside.fahrenheit


def _last_told(stages: Sequence[tuple[int, Stage]]) -> Reached | None:
    """The last inside temperature, never above the air. A rest counts where it ends hotter: heat goes on inward."""
    judged: Reached | None = None
    for index, stage in stages:
        wanted, air = _inside_f(stage), _air_f(stage)
        if wanted is None:
            continue
        by_air = air is not None and air < wanted
        inside_f = air if by_air and air is not None else wanted
        cooler = judged is not None and judged.inside_f is not None and inside_f < judged.inside_f
        if not (stage.name == "rest" and cooler):
            judged = Reached(heat=Heat.MET, inside_f=inside_f, stage=index, by_air=by_air)
    return judged


def looks_finished(recipe: Recipe) -> bool:
    """True where a recipe makes something of raw meat that a reader would eat as it is. A brine alone does not."""
    if recipe.cure is not None and recipe.cure.method == "dry":
        return True
    return any(stage.name in FINISHING or _is_dried(stage) for stage in recipe.stages)


def _is_dried(stage: Stage) -> bool:
    return stage.name == "dry" and stage.minutes is not None and stage.minutes.high >= DRIED_MIN


def is_wet(recipe: Recipe) -> bool:
    """True where water or its own fat heats it: a pot of its own accord goes beyond every least temperature."""
    return any(stage.name in WET_STAGES | {"render"} and _air_f(stage) is None for stage in recipe.stages)
