"""A cure and its days in; what published times ask beyond them, and a look at the middle of a thick piece, out."""

from __future__ import annotations

from fractions import Fraction

from generator.compute.safety.case import Case, Rule
from generator.compute.safety.facts.cure_days import (
    GENERAL,
    STAGES,
    HeldAgainst,
    hold,
    is_warm_enough,
    rules_for,
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
SMOKE = ("cold smoke",)
"Stages besides the heating ones after which a piece is packed. Source: words of the trade."


def cure_time(case: Case) -> None:
    """Not met: a rule of the same kind asks for longer. Cannot be told: no rule of the kind could be worked out."""
    recipe, meat, cure = case.recipe, case.recipe.meat, case.recipe.cure
    if meat is None or cure is None:
        return
    held = [hold(rule, recipe, meat, case.tables) for rule in rules_for(recipe, case.tables)]
    longer = [one for one in held if one.is_longer]
    if longer:
        asked = "; ".join(_clause(one, recipe, meat, case.tables) for one in longer)
        words = f"ask for more days: {asked}{_remarks(meat, longer, case.tables)}"
        _held_box(case, LONGER, longer, meat, cure, words)
    elif held and not any(one.is_told for one in held):
        says = "; ".join(f"{one.rule.title}: {one.rule.says}" for one in held)
        _held_box(case, UNKNOWN, held, meat, cure, f"cannot be compared: {_missing(held)}; {says}")


def _held_box(case: Case, slug: str, held: list[HeldAgainst], meat: Meat, cure: Cure, words: str) -> None:
    """Beside the cure stage; the sources are those of the rules it speaks of."""
    because = f"{_opening(meat, cure, held[0].rule, case.tables)} {words}"
    sources = tuple(dict.fromkeys(one.rule.source for one in held))
    case.box(slug, because, cure, meat, stage=case.facts.first_stage("cure"), sources=sources)


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
        f"and this recipe gives {show_decimal(given, places=1)}{too_cold}"
    )


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
    """Met where a piece is thick or on the bone; where nobody told, it may be. Never for ground or sliced meat."""
    meat, cure = case.recipe.meat, case.recipe.cure
    if cure is None or meat is None or meat.form in ("ground", "sliced"):
        return
    because = _why_thick(meat, case.tables)
    if because and not case.facts.nitrite:
        because += "; without a curing salt the meat is grey all through, so all of it is cooked through now"
    if because:
        case.box(GREY, because, meat, cure, stage=_where_looked(case))


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
