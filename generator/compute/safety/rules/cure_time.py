"""A cure and its days in; what published times ask beyond them, and a look at the middle of a thick piece, out."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from generator.compute.meat.cut import is_mixed_through
from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.cure_days import (
    GENERAL,
    STAGES,
    HeldAgainst,
    held_against,
    is_warm_enough,
)
from generator.compute.safety.facts.pieces import piece_lb, thickness_in
from generator.compute.safety.facts.times import last_stage, stages_named
from generator.compute.safety.words import both_scales
from generator.model.published import DayRule
from generator.model.recipe import Cure, Meat, Recipe
from generator.model.rounding import round_up
from generator.model.shown import show_decimal
from generator.tables import Tables

LONGER, UNKNOWN, GREY = "cure-time", "cure-time-unknown", "grey-middle"

METHODS = {"brine": "in a brine", "dry": "in a dry cure"}
WHOLE_DAY = Fraction(1)
"Source: house choice, a day asked for is shown whole, rounded up."
GRAMS_PER_KG, MM_PER_CM = Fraction(1000), Fraction(10)
"Source: metric prefixes, a definition."
THICK_IN = Fraction(2)
"Source: common practice, no source; from this thickness [in] a cure may leave its middle behind."
FILLET = re.compile(r"\bfil+ets?\b")
"Source: words of the trade."
SMOKE = ("cold smoke",)
"Stages besides the heating ones after which a piece is packed. Source: words of the trade."


def cure_time(case: Case) -> None:
    """Not met: a rule of the same kind asks for longer. Cannot be told: no rule of the kind could be worked out."""
    cure = case.recipe.cure
    found = [] if cure is None else [_time_of(case, meat, cure) for meat in case.recipe.meats]
    for slug in (LONGER, UNKNOWN):
        told = [time for time in found if time is not None and time.slug == slug]
        if told and cure is not None:
            _held_box(case, told, cure)


@dataclass(frozen=True, slots=True, kw_only=True)
class _Time:
    """What published times say of one meat."""

    slug: str
    words: str
    meat: Meat
    held: list[HeldAgainst]


def _time_of(case: Case, meat: Meat, cure: Cure) -> _Time | None:
    recipe, held = case.recipe, held_against(case.recipe, meat, case.tables)
    if not held:
        return None
    opening = _opening(meat, cure, held[0].rule, case.tables)
    longer = [one for one in held if one.is_longer]
    if longer:
        asked = "; ".join(_clause(one, recipe, meat, case.tables) for one in longer)
        words = f"{opening} ask for more days: {asked}{_remarks(meat, longer, case.tables)}"
        return _Time(slug=LONGER, words=words, meat=meat, held=longer)
    if any(one.is_told for one in held):
        return None
    says = "; ".join(f"{one.rule.title}: {one.rule.says}" for one in held)
    words = f"{opening} cannot be compared: {_missing(held)}; {says}"
    return _Time(slug=UNKNOWN, words=words, meat=meat, held=held)


def _held_box(case: Case, told: list[_Time], cure: Cure) -> None:
    """Beside the cure stage, of every meat that it is so of; the sources are those of the rules it speaks of."""
    several = bool(case.recipe.several_meats)
    because = "; ".join(f"{one.meat.name}: {one.words}" if several else one.words for one in told)
    sources = tuple(dict.fromkeys(held.rule.source for one in told for held in one.held))
    meats = (one.meat for one in told)
    case.box(told[0].slug, because, cure, *meats, stage=case.facts.first_stage("cure"), sources=sources)


def _opening(meat: Meat, cure: Cure, rule: DayRule, tables: Tables) -> str:
    product = tables.product(meat.cut) if GENERAL not in rule.products else "heavy pieces"
    return f"published cure times for {product} {METHODS[cure.method]}"


def _clause(held: HeldAgainst, recipe: Recipe, meat: Meat, tables: Tables) -> str:
    """One rule: whose it is, what it says, what that is for this piece, and what the recipe gives."""
    rule, asked, given = held.rule, held.asked, held.given
    assert asked is not None
    assert given is not None
    sure = "" if rule.certainty == "seen" else f" ({rule.certainty})"
    result = f", which is {show_decimal(round_up(asked, WHOLE_DAY), places=0)} days for {_piece(rule, meat, tables)}"
    by_piece = rule.days_per_lb is not None or rule.days_per_inch is not None
    cold = any(not is_warm_enough(rule, stage) for stage in stages_named(recipe, STAGES[rule.counts]))
    too_cold = (
        "" if not cold or rule.low_f is None else f", where days below {both_scales(rule.low_f)} do not count"
    )
    return (
        f"{rule.title}{sure}: {rule.says}{result if by_piece else ''}, "
        f"and this recipe gives {_days(given)}{too_cold}"
    )


def _days(days: Fraction) -> str:
    return f"{show_decimal(days, places=1)} {'day' if days == 1 else 'days'}"


def _piece(rule: DayRule, meat: Meat, tables: Tables) -> str:
    if rule.days_per_inch is not None:
        thickness = thickness_in(meat, tables) or Fraction(0)
        cm = thickness * tables.units["inch"].factor / MM_PER_CM
        return f"a piece {show_decimal(thickness, places=2)} in ({show_decimal(cm, places=1)} cm) thick"
    weight = piece_lb(meat, tables) or Fraction(0)
    kg = weight * tables.units["pound"].factor / GRAMS_PER_KG
    return f"a piece of {show_decimal(weight, places=2)} lb ({show_decimal(kg, places=2)} kg)"


def _remarks(meat: Meat, held: list[HeldAgainst], tables: Tables) -> str:
    """How the weight of a piece was found, and for which animal the times were written."""
    remarks = ""
    if any(one.rule.days_per_lb is not None for one in held):
        if meat.pieces is None:
            remarks += "; the pieces are not told, so the whole weight was taken as one piece"
        elif meat.pieces > 1:
            remarks += f"; the weight was divided by {meat.pieces} pieces, and a heavier piece takes longer"
    animal = tables.animal(meat.animal)
    if animal is not None and animal.key != "pork":
        remarks += "; the times were written for pork"
    return remarks


def _missing(held: list[HeldAgainst]) -> str:
    if any(one.given is None for one in held):
        return "the course does not say how long the cure lasts"
    if any(one.rule.days_per_inch is not None for one in held):
        return "the thickness is not told"
    return "the weight of a piece is not told"


def grey_middle(case: Case) -> None:
    """Met where a piece is thick or on the bone; where nobody told, it may be. Never for ground or sliced meat.

    Without a curing salt a fillet of fish has no colour that tells how far the salt has come.
    """
    cure = case.recipe.cure
    whole = [
        meat
        for meat in case.recipe.meats
        if meat.form not in ("ground", "sliced") and (case.facts.nitrite or not _is_fillet(meat, case.tables))
    ]
    if cure is None or is_mixed_through(case.recipe):
        return
    thick = [(meat, why) for meat in whole if (why := _why_thick(meat, case.tables))]
    because = "; ".join(
        f"{' and '.join(meat.name for meat, own in thick if own == why)}: {why}" if len(whole) > 1 else why
        for why in dict.fromkeys(why for _, why in thick)
    )
    if because and not case.facts.nitrite:
        because += "; without a curing salt the meat is grey all through, so all of it is cooked through now"
    if because:
        case.box(GREY, because, *(meat for meat, _ in thick), cure, stage=_where_looked(case))


def _is_fillet(meat: Meat, tables: Tables) -> bool:
    animal = tables.animal(meat.animal)
    return animal is not None and animal.group == "fish" and FILLET.search(meat.cut.lower()) is not None


def _why_thick(meat: Meat, tables: Tables) -> str:
    """Why a piece counts as thick; empty for one that does not."""
    thickness = thickness_in(meat, tables)
    if meat.bone == "in":
        return "the bone is in, and a cure may not have reached it"
    if thickness is None:
        return "the thickness is not told, and a thick piece may be cured outside only"
    if thickness >= THICK_IN:
        return (
            f"the piece is {show_decimal(thickness, places=2)} in thick; from {THICK_IN} in (5 cm) on the "
            "middle is looked at, by common practice"
        )
    return ""


def _where_looked(case: Case) -> int | None:
    """Beside the packing of a piece that was smoked or heated before it, else beside the last stage of the cure."""
    heats = case.tables.stages
    packed = last_stage(case.recipe, ("pack",))
    before = case.stages[:packed] if packed is not None else ()
    if packed is not None and any(heats.get(stage.name, False) or stage.name in SMOKE for stage in before):
        return packed - 1  # the stage before: a piece is looked at, then packed
    return last_stage(case.recipe, ("cure", "equalise"))


RULES = (
    Rule(slugs=(LONGER, UNKNOWN), look=cure_time),
    Rule(slugs=(GREY,), look=grey_middle),
)
