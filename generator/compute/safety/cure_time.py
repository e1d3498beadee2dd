"""A recipe's cure and its days in, a box where a published cure time of the same kind asks for more days out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from generator.compute.cure.days import days_by_thickness, days_by_weight
from generator.compute.safety.box import box
from generator.compute.safety.facts.gather import Facts
from generator.compute.safety.facts.meats import is_pumped
from generator.compute.safety.facts.pieces import piece_lb, thickness_in
from generator.compute.safety.facts.times import days_in, stages_named
from generator.compute.safety.words import both_scales
from generator.model.published import DayRule
from generator.model.recipe import Cure, Meat, Recipe, Stage
from generator.model.results import Caution
from generator.model.rounding import round_up
from generator.model.shown import show_decimal
from generator.problems import ProblemLog
from generator.tables import Tables

LIKE_PORK = frozenset({"domestic", "wild pig", "deer family", "bear", "other game"})
"Animals large enough for their cuts to be of the same kind as a pig's. Source: common practice, no source."
STAGES = {"contact": ("cure",), "equalise": ("equalise",), "cure + equalise": ("cure", "equalise")}
"Which stages the days of a rule count."
METHODS = {"brine": "in a brine", "dry": "in a dry cure"}
GENERAL = "general"
WHOLE_DAY = Fraction(1)
"Source: house choice, a day asked for is shown whole, rounded up."
GRAMS_PER_KG, MM_PER_CM = Fraction(1000), Fraction(10)
"Source: metric prefixes, a definition."


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldAgainst:
    """One rule and a recipe: days asked for and days given, None where they cannot be told."""

    rule: DayRule
    asked: Fraction | None
    given: Fraction | None

    @property
    def is_told(self) -> bool:
        """True where both are known."""
        return self.asked is not None and self.given is not None

    @property
    def is_longer(self) -> bool:
        """True where the rule asks for more days than the recipe gives."""
        return self.asked is not None and self.given is not None and self.asked > self.given


def cure_time(facts: Facts, tables: Tables, log: ProblemLog) -> list[Caution]:
    """Not met: a rule of the same kind asks for longer. Cannot be told: no rule of the kind could be worked out."""
    recipe, meat, cure = facts.recipe, facts.recipe.meat, facts.recipe.cure
    if meat is None or cure is None:
        return []
    held = [hold(rule, recipe, meat, tables) for rule in rules_for(recipe, tables)]
    longer = [one for one in held if one.is_longer]
    stage = facts.first_stage("cure")
    if longer:
        because = f"{_opening(meat, cure, longer[0].rule, tables)} ask for more days: " + "; ".join(
            _clause(one, recipe, meat, tables) for one in longer
        )
        found = box("cure-time", because + _remarks(meat, longer, tables), tables, stage=stage)
        return [replace(found, sources=_sources(longer))]
    if held and not any(one.is_told for one in held):
        because = (
            f"{_opening(meat, cure, held[0].rule, tables)} cannot be compared: {_missing(held)}; "
            + "; ".join(f"{one.rule.title}: {one.rule.says}" for one in held)
        )
        found = box("cure-time-unknown", because, tables, stage=stage)
        return [replace(found, sources=_sources(held))]
    return []


def rules_for(recipe: Recipe, tables: Tables) -> tuple[DayRule, ...]:
    """The published times of the same kind: product, method, pumped or not. General ones where there is no other."""
    meat, cure = recipe.meat, recipe.cure
    animal = tables.animal(meat.animal) if meat is not None else None
    if meat is None or cure is None or animal is None or animal.group not in LIKE_PORK:
        return ()
    if meat.form in ("ground", "sliced"):
        return ()
    product = tables.product(meat.cut)
    own = [rule for rule in tables.day_rules if product in rule.products and rule.method == cure.method]
    general = [rule for rule in tables.day_rules if GENERAL in rule.products and rule.method == cure.method]
    pumped = "yes" if is_pumped(recipe) else "no"
    weight_lb = piece_lb(meat, tables)
    return tuple(
        rule
        for rule in own or general
        if rule.pumped in (pumped, "any") and _speaks_of(rule, weight_lb) and _has_stages(rule, recipe)
    )


def _speaks_of(rule: DayRule, weight_lb: Fraction | None) -> bool:
    """False for a piece outside the weights of a rule; a piece of unknown weight may be inside."""
    if weight_lb is None:
        return True
    above = rule.above_lb is None or weight_lb > rule.above_lb
    return above and (rule.to_lb is None or weight_lb <= rule.to_lb)


def _has_stages(rule: DayRule, recipe: Recipe) -> bool:
    """Days of equalising are asked of a recipe that equalises; not every published method does."""
    return rule.counts != "equalise" or bool(stages_named(recipe, ("equalise",)))


def hold(rule: DayRule, recipe: Recipe, meat: Meat, tables: Tables) -> HeldAgainst:
    """A rule held against a recipe. Of a range of days the shorter end is what the recipe gives."""
    return HeldAgainst(rule=rule, asked=asked_days(rule, meat, tables), given=given_days(rule, recipe))


def asked_days(rule: DayRule, meat: Meat, tables: Tables) -> Fraction | None:
    """Days a rule asks for; None where the piece's weight or thickness is not told."""
    least = rule.least_days if rule.least_days is not None else Fraction(0)
    weight_lb, thickness = piece_lb(meat, tables), thickness_in(meat, tables)
    if weight_lb is None and (rule.above_lb is not None or rule.to_lb is not None):
        return None
    if rule.days_per_lb is not None:
        if not weight_lb:
            return None
        return days_by_weight(days_per_lb=rule.days_per_lb, piece_lb=weight_lb, least_days=least)
    if rule.days_per_inch is not None:
        if not thickness:
            return None
        return max(days_by_thickness(days_per_inch=rule.days_per_inch, thickness_in=thickness), least)
    return least


def given_days(rule: DayRule, recipe: Recipe) -> Fraction | None:
    """Days of the stages that a rule counts; None where the course does not say."""
    if not stages_named(recipe, STAGES[rule.counts]):
        return None
    days = days_in(recipe, STAGES[rule.counts], lambda stage: _is_warm_enough(rule, stage))
    return None if days is None else days.low


def _is_warm_enough(rule: DayRule, stage: Stage) -> bool:
    """False where days below the rule's temperature do not count and the stage may be colder."""
    if rule.cold_days_count or rule.low_f is None or stage.at is None:
        return True
    return stage.at.low.fahrenheit >= rule.low_f


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
    cold = any(not _is_warm_enough(rule, stage) for stage in stages_named(recipe, STAGES[rule.counts]))
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


def _sources(held: list[HeldAgainst]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(one.rule.source for one in held))
