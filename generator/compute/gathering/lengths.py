"""A stage of a recipe in; the minutes a plan counts for it, and why, out.

The longer end of what is written. What is not written comes from a published rule where there is one; else nothing
is counted, and a stage that takes long by nature is one that cannot be planned.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from generator.compute.clock import NO_LENGTH, ONLY_WORK, stage_minutes
from generator.compute.safety.facts.pieces import piece_lb
from generator.compute.transfer.thaw import DAY_H, FRIDGE, LB_PER_DAY, WATER_H_PER_LB, thawing_range_hours
from generator.model.book import Book
from generator.model.quantity import Dimension
from generator.model.recipe import Meat, Recipe, Stage
from generator.model.shown import show_decimal
from generator.problems import OutOfRange
from generator.tables import Tables

HOUR = 60
"[min] Source: a definition."
DAY = 24 * HOUR
"[min] Source: a definition."
FREEZE_H = 24
"No more is put in a freezer than freezes in a day. Source: US home food preservation advice, from memory."
SMALL_PACK_H = 1
"Of a pack of about a pound in cold water. Source: USDA FSIS, The Big Thaw: an hour or less."
SHORT = frozenset(
    {
        "trim",
        "chill",
        "turn",
        "rinse",
        "pack",
        "rest",
        "grind",
        "stuff",
        "brown",
        "fry",
        "blanch",
        "jar",
        "reheat",
        "inject",
        "mix",
        "strain",
        "serve",
    }
)
"Stages of minutes: a plan without their lengths is still a plan. Source: common practice, no source."
WATER = frozenset({"cold water", "ice bath"})
"Places where it thaws in water. Source: words of the trade."


@dataclass(frozen=True, slots=True, kw_only=True)
class Length:
    """What a plan counts for one stage."""

    minutes: int
    note: str = ""
    "Empty where the length is written."
    is_unknown: bool = False
    "It takes long, and nothing says how long."


@dataclass(frozen=True, slots=True, kw_only=True)
class Heaviest:
    """The heaviest of some pieces."""

    lb: Fraction | None
    "Of those that are told; None: of none."
    is_of_all: bool
    slowest_h: int | None = None
    "The slow end of the estimate by thickness [h], of the thickest; None where no thickness is told."

    @classmethod
    def of(cls, *weights: Fraction | None, slowest_h: int | None = None) -> Heaviest:
        """None for each piece whose weight is not told."""
        known = [weight for weight in weights if weight is not None]
        return cls(lb=max(known, default=None), is_of_all=len(known) == len(weights), slowest_h=slowest_h)

    @property
    def words(self) -> str:
        """What was counted with."""
        if self.lb is None:
            return "what the pieces weigh is not told, so this is the least"
        told = "" if self.is_of_all else " whose weight is told"
        return f"the heaviest piece{told} is {_pounds(self.lb)}"


def course_lengths(book: Book, recipe: Recipe, tables: Tables) -> tuple[Length, ...]:
    """For each stage of a recipe, in order."""
    thawing = heaviest_piece(book, recipe, tables)
    return tuple(stage_length(stage, thawing, tables) for stage in recipe.stages)


def stage_length(stage: Stage, heaviest: Heaviest, tables: Tables) -> Length:
    """What is written, else the published rule for it; a thaw is never taken for shorter than the rule says."""
    if stage.minutes is not None:
        return _written(stage, heaviest)
    if stage.name == "thaw":
        return thaw_length(stage.place, heaviest)
    if stage.name == "cool":
        hours = tables.constant("cooling_whole_h")
        note = f"{hours} h counted, the most that the two steps of the FDA Food Code give for cooling"
        return Length(minutes=ceil(hours * HOUR), note=note)
    if stage.name == "freeze":
        return Length(minutes=FREEZE_H * HOUR, note=f"{FREEZE_H} h counted for freezing through")
    if stage.hands_minutes is not None:
        return Length(minutes=stage_minutes(stage)[1], note=ONLY_WORK)
    return Length(minutes=0, note=NO_LENGTH, is_unknown=stage.name not in SHORT)


def _written(stage: Stage, heaviest: Heaviest) -> Length:
    written = Length(minutes=stage_minutes(stage)[1])
    if stage.name != "thaw" or heaviest.lb is None:
        return written
    ruled = thaw_length(stage.place, heaviest)
    if ruled.is_unknown or ruled.minutes <= written.minutes:
        return written
    return Length(
        minutes=ruled.minutes, note=f"{ruled.note}; what is written, {stage.length_written}, is shorter"
    )


def thaw_length(place: str, heaviest: Heaviest) -> Length:
    """By the rule of FSIS from the weight of the heaviest piece; in the fridge where no place is told."""
    if place in WATER:
        return _in_water(heaviest)
    if place not in ("", "fridge"):
        return Length(minutes=0, note=NO_LENGTH, is_unknown=True)
    pounds = Fraction(LB_PER_DAY[0])
    # Up: the rule gives a whole day for each part of its pounds that is begun.
    days = 1 if heaviest.lb is None else max(1, ceil(heaviest.lb / pounds))
    rule = f"a day for each {show_decimal(pounds, places=0)} lb begun"
    hours = days * int(DAY_H)
    if heaviest.slowest_h is not None and heaviest.slowest_h > hours:
        note = (
            f"{heaviest.slowest_h} h counted, the slow end of the estimate from its thickness; the FSIS rule for the "
            f"fridge, {rule}, would say {hours} h"
        )
        return Length(minutes=heaviest.slowest_h * HOUR, note=note)
    note = f"{hours} h counted by the FSIS rule for the fridge, {rule}; {heaviest.words}"
    return Length(minutes=days * DAY, note=note)


def _in_water(heaviest: Heaviest) -> Length:
    if heaviest.lb is None:
        return Length(minutes=0, note=NO_LENGTH, is_unknown=True)
    minutes = max(SMALL_PACK_H * HOUR, ceil(heaviest.lb * Fraction(WATER_H_PER_LB) * HOUR))
    note = f"{minutes} min counted by the FSIS rule for cold water, 30 min a pound; {heaviest.words}"
    return Length(minutes=minutes, note=note)


def _pounds(weight: Fraction) -> str:
    kilograms = show_decimal(weight * Fraction("0.45359237"), places=1)
    return f"{show_decimal(weight, places=1)} lb ({kilograms} kg)"


def heaviest_piece(book: Book, recipe: Recipe, tables: Tables) -> Heaviest:
    """Of what a recipe thaws: its own meat and the components it takes."""
    own = [piece_lb(meat, tables) for meat in recipe.meats]
    components = [book.recipes[use.component] for use in book.uses_of(recipe.slug)]
    taken = [made_piece_lb(component, tables) for component in components]
    slowest = [hours for one in (recipe, *components) if (hours := slowest_thaw_h(one)) is not None]
    return Heaviest.of(*own, *taken, slowest_h=max(slowest, default=None))


def slowest_thaw_h(recipe: Recipe) -> int | None:
    """The slow end of the estimate for a piece of its meat in the fridge [h]; None for a thickness that is not told.

    The rules by weight are for flat packs and birds, and can be short by half for a compact joint.
    """
    told = [hours for meat in recipe.meats if (hours := _slow_thaw_h(meat)) is not None]
    return max(told, default=None)


def _slow_thaw_h(meat: Meat) -> int | None:
    if meat.thickest_mm is None:
        return None
    try:
        _, slow = thawing_range_hours(thickness_mm=float(meat.thickest_mm), shape=meat.shape, medium=FRIDGE)
    except OutOfRange:
        return None
    return ceil(slow)


def made_piece_lb(recipe: Recipe, tables: Tables) -> Fraction | None:
    """One finished piece of a component [lb], else one raw piece of it; all of a batch where no pieces are told."""
    pound = tables.units["pound"].factor
    weight = recipe.makes_total(Dimension.WEIGHT)
    count = recipe.makes_total(Dimension.COUNT)
    if weight is None:
        raw = [pounds for meat in recipe.meats if (pounds := piece_lb(meat, tables)) is not None]
        return max(raw, default=None) if count is not None else None
    return weight.high / (count.low if count is not None and count.low >= 1 else 1) / pound
