"""A plan in, the sheet for the wall out: the clock, when to stop waiting for the smoker, what becomes of the rest."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from generator.model.moment import Moment, later
from generator.model.plan import Making, Plan, Step
from generator.model.quantity import Temperature
from generator.render import paths
from generator.render.amounts import MINIMUM, PLAIN
from generator.render.context import Context, LinkView
from generator.render.plans import PlanClock, plan_clock
from generator.render.views.gathering import PlanView

ROWS_OF_LOG = 22
"Source: house choice, what a page of A4 or Letter has room for."
FISH = frozenset({"fish", "shellfish"})
"Animal groups with a smoke rule of their own."
HOT_SMOKE = "hot smoke"
COOLING, COME_UP, SMOKED_FISH = "cool-two-steps", "come-up-time", "hot-smoked-fish"
"Rules whose words or sources stand here."


@dataclass(frozen=True, slots=True, kw_only=True)
class StopView:
    """When to stop waiting for the smoker."""

    recipe: str
    day: str
    rules: tuple[str, ...]
    source: LinkView
    "Of the rule of time; without text where there is none."


@dataclass(frozen=True, slots=True, kw_only=True)
class LeftView:
    """What becomes of hot food: a sentence and where it comes from."""

    title: str
    text: str
    sources: tuple[LinkView, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class WallView(PlanView):
    """The wall sheet of a gathering."""

    stops: tuple[StopView, ...]
    left: tuple[LeftView, ...]
    log: range
    "Its empty rows."


def wall_view(context: Context, plan: Plan) -> WallView:
    """The sheet of one plan."""
    one, clock = plan.invited.gathering, plan_clock(plan)
    return WallView(
        title=f"{one.name}: wall sheet",
        description=f"What is done when for {one.name}, in large figures, on paper.",
        plan=plan,
        whole=context.href(paths.gathering_path(one.slug)),
        stops=tuple(stop_views(context, plan, clock)),
        left=_left(context),
        log=range(ROWS_OF_LOG),
    )


def stop_views(context: Context, plan: Plan, clock: PlanClock) -> Iterator[StopView]:
    """For each hot smoke of meat: by what hour which inside temperature must be there."""
    makings = {making.slug: making for making in plan.makings}
    for step in plan.steps:
        making = makings[step.slug]
        if step.stage == HOT_SMOKE and making.recipe.recipe.meat is not None:
            in_time, source, by = _in_time(context, making, step, clock)
            target = _target(context, making, step, clock)
            # A smoke that is over before the hour of the rule has its own end to keep.
            rules = (target,) if target and by > step.end else (in_time, target)
            yield StopView(
                recipe=making.recipe.recipe.name,
                day=clock.day(step.start),
                rules=tuple(filter(None, rules)),
                source=source,
            )


def _in_time(context: Context, making: Making, step: Step, clock: PlanClock) -> tuple[str, LinkView, Moment]:
    """The published rule of time and its hour: land meat must be through the warm range, fish has its own."""
    tables, meats = context.tables, making.recipe.recipe.meats
    if all(context.animal_group(meat.animal) in FISH for meat in meats):
        inside = _both(context, tables.constant("smoked_fish_minimum_f"))
        hold = tables.constant("smoked_fish_hold_min")
        text = f"Not {inside} inside, held {hold} min, by {clock.moment(step.end)}: finish it in the oven."
        return text, _source_of(context, SMOKED_FISH), step.end
    inside = _both(context, tables.constant("come_up_to_f"))
    end = later(step.start, int(60 * tables.constant("come_up_most_h")))
    text = f"Not past {inside} inside by {clock.moment(end)}: finish it in the oven."
    return text, _source_of(context, COME_UP), end


def _target(context: Context, making: Making, step: Step, clock: PlanClock) -> str:
    """The stage's own temperature by its own end."""
    stages = making.recipe.recipe.stages
    stage = stages[step.index] if 0 <= step.index < len(stages) else None
    if stage is None or stage.inside is None:
        return ""
    inside = context.amounts.temperature(stage.inside, use=MINIMUM).plain
    return f"{inside} inside by {clock.moment(step.end)}, else finish it in the oven."


def _both(context: Context, degrees_f: Fraction, *, use: str = MINIMUM) -> str:
    """On both scales, rounded up: it is a least one. (135 °F is published as 57 °C, its plain rounding.)"""
    return context.amounts.temperature(Temperature(degrees_f, "F"), use=use).plain


def _source_of(context: Context, rule: str) -> LinkView:
    return context.source_link(context.tables.cautions[rule].sources[0])


def _left(context: Context) -> tuple[LeftView, ...]:
    """Hot holding, then the cooling of what is left."""
    cooling = context.tables.cautions[COOLING]
    home = _both(context, context.tables.constant("hot_holding_minimum_f"))
    trade = _both(context, context.tables.constant("hot_holding_trade_f"), use=PLAIN)
    return (
        LeftView(
            title="Until it is served",
            text=f"Hold hot food at {home} or hotter; kitchens of the trade hold at {trade} at least.",
            sources=(
                context.source_link("nchfp-2002", "section 6.1.3"),
                context.source_link("food-code-cooling", "3-501.16(A)(1)"),
            ),
        ),
        LeftView(title="What is left", text=cooling.text, sources=context.source_links(cooling.sources)),
    )
