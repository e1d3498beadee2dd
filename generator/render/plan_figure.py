"""A plan by the clock in, the coordinates of its strip out; a template only prints them.

User units: a strip 640 wide with letters of 13. A narrow screen moves it sideways within its frame instead of
shrinking it, and has the table first. x goes with real time, y downwards, a lane for each recipe.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from math import ceil
from typing import ClassVar

from generator.model.moment import Moment, later, minutes_from
from generator.model.plan import DAY_FROM, DAY_TO, Plan, Step
from generator.render.plans import PlanClock

WIDTH = 640
LEFT, RIGHT = 4.0, 636.0
"Edges of the field."
HEAD = 40.0
"Height of the days' names and of the serving time above the lanes."
LETTER = 8.0
"Room for one letter of a label at 13. Source: house choice, more than a wide face takes on average."
NAME, ROW, BAR = 20.0, 20.0, 14.0
"Heights of a lane's name, of a row of bars and of a bar."
GAP, SIDE = 4.0, 4.0
"Below a lane, and between a bar and its label."
LEAST = 3.0
"A bar is no narrower, so that it is seen."
DAY_NAME = 56.0
"Room for the name of a day."
LONGEST_NAME = 70
"Letters of a recipe's name in its lane."


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One step."""

    number: int
    "Its place in the plan, from 1: the number in the table."
    label: str
    x: float
    y: float
    width: float
    work: float
    "Width of the hand work at its start; 0 where there is none."
    label_x: float
    label_y: float
    anchor: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Lane:
    """One recipe."""

    name: str
    top: float
    name_y: float
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """One midnight, and the name of the day that begins there; empty where there is no room for it."""

    x: float
    top: float
    "Where its line begins: higher where it bears a name."
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Night:
    """A stretch of night."""

    x: float
    width: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanFigure:
    """A plan as a strip."""

    width: ClassVar = WIDTH
    height: float
    left: ClassVar = LEFT
    right: ClassVar = RIGHT
    head: ClassVar = HEAD
    bottom: float
    field: float
    "Height between head and bottom."
    bar: ClassVar = BAR
    title: ClassVar = "The plan at a glance"
    description: str
    days: tuple[Day, ...]
    nights: tuple[Night, ...]
    night: ClassVar = f"{DAY_TO:%H:%M} to {DAY_FROM:%H:%M}"
    "In words: 21:00 to 07:00."
    lanes: tuple[Lane, ...]
    serve_x: float
    serve_text_x: float
    serve_text: str
    serve_anchor: str


def plan_figure(plan: Plan, clock: PlanClock) -> PlanFigure | None:
    """The strip of one plan; None where there is nothing to do."""
    if not plan.steps:
        return None
    serve_at = plan.invited.gathering.serve_at
    first = midnight(plan.steps[0].start)
    last = _next_midnight(max((serve_at, *(step.end for step in plan.steps)), key=_absolute))
    scale = TimeAxis(first=first, minutes=minutes_from(first, last))
    lanes = tuple(_lanes(plan, scale))
    bottom = _bottom(lanes[-1])
    serve_x = scale.x(serve_at)
    served = f"served {clock.time(serve_at)}"
    is_before = serve_x - len(served) * LETTER > LEFT
    return PlanFigure(
        height=bottom + GAP,
        bottom=bottom,
        field=bottom - HEAD,
        description=_description(plan, clock),
        days=_days(first, last, scale, clock),
        nights=tuple(_nights(first, last, scale)),
        lanes=lanes,
        serve_x=serve_x,
        serve_text=served,
        serve_text_x=round(serve_x - SIDE if is_before else serve_x + SIDE, 1),
        serve_anchor="end" if is_before else "start",
    )


def _absolute(moment: Moment) -> Moment:
    """In UTC where a zone is known: what can be compared across a change of clocks."""
    return moment if moment.tzinfo is None else moment.astimezone(UTC)


def midnight(moment: Moment) -> Moment:
    """The beginning of its local day."""
    return datetime.combine(moment.date(), time(), moment.tzinfo)


def _next_midnight(moment: Moment) -> Moment:
    return datetime.combine(moment.date() + timedelta(days=1), time(), moment.tzinfo)


@dataclass(frozen=True, slots=True, kw_only=True)
class TimeAxis:
    """From moments to user units, to a tenth of one."""

    first: Moment
    minutes: float

    def x(self, moment: Moment) -> float:
        """Where a moment stands, from left to right; nothing stands outside the field."""
        share = minutes_from(self.first, moment) / self.minutes
        return round(LEFT + (RIGHT - LEFT) * min(max(share, 0.0), 1.0), 1)


def _lanes(plan: Plan, scale: TimeAxis) -> Iterator[Lane]:
    """A lane for each recipe that has a step, in the order in which they begin."""
    names = {making.slug: making.recipe.recipe.name for making in plan.makings}
    numbered: dict[str, list[tuple[int, Step]]] = {}
    for number, step in enumerate(plan.steps, start=1):
        numbered.setdefault(step.slug, []).append((number, step))
    top = HEAD
    for slug, steps in numbered.items():
        name = names[slug]
        lane = Lane(
            name=name if len(name) <= LONGEST_NAME else f"{name[:LONGEST_NAME]}…",
            top=top,
            name_y=top + 15,
            bars=_bars(steps, scale, top + NAME),
        )
        yield lane
        top = _bottom(lane)


def _bottom(lane: Lane) -> float:
    return max(bar.y for bar in lane.bars) + ROW + GAP


def _bars(steps: Sequence[tuple[int, Step]], scale: TimeAxis, top: float) -> tuple[Bar, ...]:
    """Each step in the first row where neither it nor its label touches another."""
    rows: list[list[tuple[float, float]]] = []
    bars = []
    for number, step in steps:
        label = f"{number} {step.stage}"
        left, width = scale.x(step.start), max(scale.x(step.end) - scale.x(step.start), LEAST)
        left = min(left, RIGHT - width)
        work = scale.x(later(step.start, step.hands_on_min)) - scale.x(step.start)
        work = min(max(work, LEAST), width) if step.hands_on_min else 0.0
        label_x, anchor, taken = _label(left, left + width, work, len(label) * LETTER)
        row = _row(rows, taken)
        y = top + row * ROW
        bars.append(
            Bar(
                number=number,
                label=label,
                x=left,
                y=y,
                width=round(width, 1),
                work=round(work, 1),
                label_x=round(label_x, 1),
                label_y=y + 12,
                anchor=anchor,
            )
        )
    return tuple(bars)


def _label(left: float, right: float, work: float, width: float) -> tuple[float, str, tuple[float, float]]:
    """Where a label stands, how it is anchored and what it and its bar take up: in the bar, behind or before it."""
    if left + work + 2 * SIDE + width <= right:
        return left + work + SIDE, "start", (left, right)
    if right + SIDE + width <= RIGHT:
        return right + SIDE, "start", (left, right + SIDE + width)
    if left - SIDE - width >= LEFT:
        return left - SIDE, "end", (left - SIDE - width, right)
    return left + work + SIDE, "start", (left, max(right, left + work + SIDE + width))


def _row(rows: list[list[tuple[float, float]]], taken: tuple[float, float]) -> int:
    for number, row in enumerate(rows):
        if all(taken[1] + SIDE <= low or high + SIDE <= taken[0] for low, high in row):
            row.append(taken)
            return number
    rows.append([taken])
    return len(rows) - 1


def _midnights(first: Moment, last: Moment) -> Iterator[Moment]:
    moment = first
    while _absolute(moment) < _absolute(last):
        yield moment
        moment = _next_midnight(moment)


def _days(first: Moment, last: Moment, scale: TimeAxis, clock: PlanClock) -> tuple[Day, ...]:
    midnights = tuple(_midnights(first, last))
    every = ceil(DAY_NAME / ((RIGHT - LEFT) / len(midnights)))
    days = []
    for number, moment in enumerate(midnights):
        name = clock.day(moment).rpartition(" ")[0] if number % every == 0 else ""
        days.append(Day(x=scale.x(moment), top=SIDE if name else HEAD, name=name))
    return tuple(days)


def _nights(first: Moment, last: Moment, scale: TimeAxis) -> Iterator[Night]:
    for moment in (*_midnights(first, last), last):
        begins = datetime.combine(moment.date() - timedelta(days=1), DAY_TO, moment.tzinfo)
        ends = datetime.combine(moment.date(), DAY_FROM, moment.tzinfo)
        left, right = scale.x(begins), scale.x(ends)
        if right > left:
            yield Night(x=left, width=round(right - left, 1))


def _description(plan: Plan, clock: PlanClock) -> str:
    """The strip in words, for whoever cannot see it."""
    names = {making.slug: making.recipe.recipe.name for making in plan.makings}
    ends: dict[str, tuple[Moment, Moment]] = {}
    for step in plan.steps:
        start, end = ends.get(step.slug, (step.start, step.end))
        ends[step.slug] = (start, max(end, step.end, key=_absolute))
    lanes = "; ".join(
        f"{names[slug]} from {clock.moment(start)} to {clock.moment(end)}"
        for slug, (start, end) in ends.items()
    )
    served = clock.moment(plan.invited.gathering.serve_at)
    return f"A strip with a lane for each recipe: {lanes}. Served {served}. Every bar stands in the table with its number."
