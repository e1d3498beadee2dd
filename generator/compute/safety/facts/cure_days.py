"""A recipe's cure in; the published cure times of the same kind out, with the days asked for and the days given."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from generator.compute.cure.days import days_by_thickness, days_by_weight
from generator.compute.meat.cut import is_mixed_through
from generator.compute.safety.facts.meats import is_pumped
from generator.compute.safety.facts.pieces import piece_lb, thickness_in
from generator.compute.safety.facts.times import days_in, stages_named
from generator.model.published import DayRule
from generator.model.recipe import Meat, Recipe, Stage
from generator.tables import Tables

LIKE_PORK = frozenset({"domestic", "wild pig", "deer family", "bear", "other game"})
"Animals large enough for their cuts to be of the same kind as a pig's. Source: common practice, no source."
STAGES = {"contact": ("cure",), "equalise": ("equalise",), "cure + equalise": ("cure", "equalise")}
"Which stages the days of a rule count."
GENERAL = "general"
"The product of rules that speak of every heavy piece."


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
        """True where even the shorter end of the rule's own range is more days than the recipe gives."""
        share = self.rule.shorter_share or Fraction(1)
        return self.asked is not None and self.given is not None and share * self.asked > self.given


def rules_for(recipe: Recipe, meat: Meat, tables: Tables) -> tuple[DayRule, ...]:
    """The published times of the same kind: product, method, pumped or not. General ones where there is no other."""
    cure, animal = recipe.cure, tables.animal(meat.animal)
    if cure is None or animal is None or animal.group not in LIKE_PORK:
        return ()
    if meat.form in ("ground", "sliced") or is_mixed_through(recipe):
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


def held_against(recipe: Recipe, meat: Meat, tables: Tables) -> list[HeldAgainst]:
    """Every rule of the kind of one meat, held against its recipe."""
    return [hold(rule, recipe, meat, tables) for rule in rules_for(recipe, meat, tables)]


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
    days = days_in(recipe, STAGES[rule.counts], lambda stage: is_warm_enough(rule, stage))
    return None if days is None else days.low


def is_warm_enough(rule: DayRule, stage: Stage) -> bool:
    """False where days below the rule's temperature do not count and the stage may be colder."""
    if rule.cold_days_count or rule.low_f is None or stage.at is None:
        return True
    return stage.at.low.fahrenheit >= rule.low_f
