"""A plan in, its steps day by day out, as strings; the numbers are those of its strip."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import groupby

from generator.model.plan import Plan, Step
from generator.model.quantity import Span
from generator.render.context import Context, LinkView
from generator.render.plan_words import PlanClock


@dataclass(frozen=True, slots=True, kw_only=True)
class StepView:
    """One step."""

    number: int
    time: str
    until: str
    "`to 14:30`, `to Sat 5 Dec 08:00`; empty where it takes no time."
    recipe: LinkView
    stage: str
    place: str
    note: str
    work: str
    "Time of hand work at its start; empty where there is none."


@dataclass(frozen=True, slots=True, kw_only=True)
class DayView:
    """The steps that begin on one day."""

    title: str
    steps: tuple[StepView, ...]


def day_views(context: Context, page: str, plan: Plan, clock: PlanClock) -> tuple[DayView, ...]:
    """Every day on which something begins, in order."""
    numbered = enumerate(plan.steps, start=1)
    return tuple(
        DayView(title=title, steps=tuple(_step(context, page, number, step, clock) for number, step in steps))
        for title, steps in groupby(numbered, key=lambda one: clock.day(one[1].start))
    )


def _step(context: Context, page: str, number: int, step: Step, clock: PlanClock) -> StepView:
    return StepView(
        number=number,
        time=clock.time(step.start),
        until=clock.until(step.start, step.end),
        recipe=context.link_to(page, step.slug),
        stage=step.stage,
        place=step.place,
        note=step.note,
        work=context.amounts.minutes(Span.of(step.hands_on_min)) if step.hands_on_min else "",
    )
