"""A plan in, out the words that its pages and the terminal share, all of it as plain text, as data, as a calendar.

A zone is told once where it is the same all along. In JSON unknown is null, a range is [low, high], times are ISO 8601.
"""

from __future__ import annotations

import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property
from itertools import groupby

from generator.model.gathering import Gathering, Guests
from generator.model.moment import Moment, date_words, time_words, weekday_words
from generator.model.page import CalendarJob, Event
from generator.model.plan import Item, Making, Plan, Step
from generator.model.results import ComputedBook, JudgedText
from generator.model.shown import show_number
from generator.problems import Problem
from generator.render.data import Data, caution_data, cure_data, exact, fields, number, problem_data
from generator.render.text import WIDTH, box_texts, cure_text
from generator.render.yields import batches_words, made_words, servings_words
from generator.tables import Tables

PLACES = {
    "freezer": "From the freezer",
    "fridge": "From the fridge",
    "shelf": "From the shelf",
    "on hand": "On hand, made already",
    "garden": "From the garden",
    "woods": "From the woods",
    "smokehouse shelf": "From the smokehouse shelf",
    "shop": "From the shop",
}
"Headings of the shopping and gathering list, in the order in which one walks."

ALARMS = {"thaw": 15, "turn": 15, "rinse": 15, "hot smoke": 30, "cold smoke": 30}
"[min] before a stage at which it is told; a smoker is lit before it smokes. Source: house choice."
DOING = {
    "thaw": "take out to thaw",
    "turn": "turn over",
    "hot smoke": "light the smoker, hot smoke",
    "cold smoke": "light the smoker, cold smoke",
}
"A stage as something to do, where its name alone is not."

NumberedDay = tuple[str, tuple[tuple[int, Step], ...]]
"A day and the steps that begin on it, each with its place in the plan, from 1."


@dataclass(frozen=True, slots=True, kw_only=True)
class PlanClock:
    """Says moments of one plan."""

    zone: str
    "Told once for the whole plan; empty where none is known, and where the clocks change on the way."
    tells_zone: bool
    "Every time has its zone behind it, because it is not the same all along."

    def time(self, moment: Moment) -> str:
        """`08:00`"""
        return time_words(moment) if self.tells_zone else f"{moment:%H:%M}"

    def day(self, moment: Moment) -> str:
        """`Sat 5 Dec`"""
        return f"{weekday_words(moment)} {date_words(moment)}"

    def date(self, moment: Moment) -> str:
        """`Sat 5 Dec 2026`"""
        return f"{self.day(moment)} {moment.year}"

    def moment(self, moment: Moment) -> str:
        """`Sat 5 Dec 08:00`"""
        return f"{self.day(moment)} {self.time(moment)}"

    def until(self, step: Step) -> str:
        """The end of a step as seen from its start: `to 14:30`, `to Sat 5 Dec 08:00`; empty where it takes no time."""
        if step.start == step.end:
            return ""
        same_day = step.start.date() == step.end.date()
        return f"to {self.time(step.end) if same_day else self.moment(step.end)}"


def plan_clock(plan: Plan) -> PlanClock:
    """The clock of one plan."""
    moments = [plan.invited.gathering.serve_at]
    moments += [moment for step in plan.steps for moment in (step.start, step.end)]
    zones = {moment.tzname() or "" for moment in moments}
    return PlanClock(zone="" if len(zones) > 1 else zones.pop(), tells_zone=len(zones) > 1)


def guests_words(guests: Guests) -> str:
    """`29 adults and 6 children, each counted as 1/2`."""
    words = _some(guests.adults, "adult", "adults")
    if guests.children:
        share = show_number(guests.child_share)
        each = "" if guests.child_share == 1 else f", each counted as {share}"
        words += f" and {_some(guests.children, 'child', 'children')}{each}"
    return words


def guest_count(guests: Guests) -> str:
    """`35 guests`"""
    return _some(guests.adults + guests.children, "guest", "guests")


def _some(number: int, one: str, many: str) -> str:
    return f"{number} {one if number == 1 else many}"


@dataclass(frozen=True, kw_only=True)
class PlanTold:
    """A plan as every page of it and the terminal tell it."""

    plan: Plan

    @cached_property
    def clock(self) -> PlanClock:
        """Says its moments."""
        return plan_clock(self.plan)

    @property
    def gathering(self) -> Gathering:
        """As its author wrote it."""
        return self.plan.invited.gathering

    @property
    def count(self) -> str:
        """`35 guests`"""
        return guest_count(self.gathering.guests)

    @property
    def troubles(self) -> dict[str, tuple[Problem, ...]]:
        """By its heading, what cannot be met, then what wants a look."""
        return {
            "It cannot be met": tuple(one for one in self.plan.problems if one.is_error),
            "Look at this first": tuple(one for one in self.plan.problems if not one.is_error),
        }

    @property
    def days(self) -> tuple[NumberedDay, ...]:
        """Every day on which something begins, in order, with its steps; the numbers are those of the strip."""
        days = groupby(enumerate(self.plan.steps, start=1), key=lambda one: self.clock.day(one[1].start))
        return tuple((day, tuple(steps)) for day, steps in days)

    @property
    def places(self) -> dict[str, list[Item]]:
        """By the heading of its place, in the order in which one walks, others behind; within one the order of the plan."""
        found: dict[str, list[Item]] = {place: [] for place in PLACES}
        for item in self.plan.shopping:
            found.setdefault(item.place, []).append(item)
        return {PLACES.get(place, place.capitalize()): items for place, items in found.items() if items}


def gathering_text(plan: Plan, book: ComputedBook, units: str, tables: Tables) -> str:
    """A whole gathering: what cannot be met first, then what is made, weighed, fetched and done."""
    told = PlanTold(plan=plan)
    names = {slug: recipe.name for slug, recipe in book.book.recipes.items()}
    parts = [_head(told), *box_texts(_text(plan, book))]
    parts += [
        _part(title, [f"{one.message} {one.hint}".strip() for one in found])
        for title, found in told.troubles.items()
        if found
    ]
    parts.append(_part("What is made", [_making_line(making, units) for making in plan.makings]))
    parts += [
        f"{making.recipe.recipe.name}\n{cure_text(making.recipe.cure, tables)}"
        for making in plan.makings
        if making.recipe.cure is not None and making.batches
    ]
    for day, steps in told.days:
        parts.append(_part(day, [_step_line(step, names[step.slug], told.clock) for _, step in steps]))
    for place, items in told.places.items():
        parts.append(_part(place, [_item_line(item, names, units) for item in items]))
    if plan.notes:
        parts.append(_part("Besides", plan.notes))
    return "\n\n".join(parts)


def _text(plan: Plan, book: ComputedBook) -> JudgedText:
    """What the gathering's own words were found to say."""
    one = plan.invited.gathering
    return book.texts.get(one.slug, JudgedText(gathering=one))


def _head(told: PlanTold) -> str:
    one, clock = told.gathering, told.clock
    zone = f" ({clock.zone}, like every time here)" if clock.zone else ""
    served = f"Served {clock.date(one.serve_at)}, {clock.time(one.serve_at)}{zone}"
    guests = f"{told.count}: {guests_words(one.guests)}"
    return "\n".join(filter(None, (one.name, one.summary, served, guests)))


def _part(title: str, lines: Iterable[str]) -> str:
    wrapped = (textwrap.fill(line, WIDTH, initial_indent="  ", subsequent_indent="      ") for line in lines)
    return "\n".join((title, *wrapped))


def _making_line(making: Making, units: str) -> str:
    words = (
        batches_words(making.batches) if making.batches else "none to make",
        servings_words(making.servings) or (made_words(making.recipe, units) if making.batches else ""),
        f"{batches_words(making.on_hand)} on hand" if making.on_hand else "",
        f"{batches_words(making.extra)} left over" if making.extra else "",
    )
    return f"{making.recipe.recipe.name}: {', '.join(filter(None, words))}"


def _step_line(step: Step, name: str, clock: PlanClock) -> str:
    words = " ".join(filter(None, (step.stage, step.place, clock.until(step))))
    hands = f"; {step.hands_on_min} min by hand" if step.hands_on_min else ""
    note = f" ({step.note})" if step.note else ""
    return f"{clock.time(step.start)}  {name}: {words}{hands}{note}"


def _item_line(item: Item, names: dict[str, str], units: str) -> str:
    words = " ".join(filter(None, ("[ ]", item.shown.in_units(units), item.name)))
    takers = ", ".join(names[slug] for slug in item.needed_for)
    behind = "; ".join(filter(None, (f"for {takers}" if takers else "", item.note)))
    return f"{words} ({behind})" if behind else words


def unmet_lines(plans: Iterable[Plan]) -> Iterator[str]:
    """What keeps gatherings from being met as they are written: not of the book, but of their own plans."""
    for plan in plans:
        for problem in plan.problems:
            file = plan.invited.gathering.file
            yield f"{file}: the plan: {problem.message} [{problem.slug}]"
            if problem.hint:
                yield f"    {problem.hint}"


def gathering_data(plan: Plan, book: ComputedBook, units: str) -> Data:
    """What is made, fetched, done and weighed, and what cannot be met."""
    return {
        "demand": [_making_data(making) for making in plan.makings],
        "shopping": [_item_data(item, units) for item in plan.shopping],
        "timeline": [_step_data(step) for step in plan.steps],
        "cures": [
            {"recipe": making.slug, **cure_data(making.recipe.cure)}
            for making in plan.makings
            if making.recipe.cure is not None and making.batches
        ],
        "cautions": [caution_data(caution) for caution in _text(plan, book).cautions],
        "problems": [problem_data(problem) for problem in plan.problems],
    }


def _making_data(making: Making) -> Data:
    return {
        **fields(making, "recipe = slug", "amount_g"),
        "batches": exact(making.batches),
        "green_weight_g": number(making.green_weight_g),
    }


def _item_data(item: Item, units: str) -> Data:
    return {
        **fields(item, "item = name", "place"),
        "shown": item.shown.in_units(units) or None,
        **fields(item, "grams", "for = needed_for"),
    }


def _step_data(step: Step) -> Data:
    return {
        **fields(step, "recipe = slug", "stage"),
        "start": step.start.isoformat(timespec="minutes"),
        "end": step.end.isoformat(timespec="minutes"),
        "hands_on_min": step.hands_on_min,
    }


def plan_calendar(plan: Plan, path: str, names: Mapping[str, str]) -> CalendarJob:
    """`names` has the name of each recipe by its slug. The file is as old as its supper: a later one is newer."""
    gathering = plan.invited.gathering
    seen: Counter[str] = Counter()
    events = []
    for step in plan.steps:
        if step.end != step.start or step.hands_on_min or step.stage in ALARMS:
            known = f"{gathering.slug}/{step.slug}/{step.stage}/{step.index}"
            seen[known] += 1
            events.append(_event(step, f"{known}/{seen[known]}", names[step.slug]))
    return CalendarJob(path=path, name=gathering.name, stamp=gathering.serve_at, events=tuple(events))


def _event(step: Step, name: str, recipe: str) -> Event:
    return Event(
        name=name,
        start=step.start,
        end=step.end,
        summary=f"{recipe}: {DOING.get(step.stage, step.stage)}",
        description=_event_words(step),
        alarm_min=ALARMS.get(step.stage),
    )


def _event_words(step: Step) -> str:
    """Lines: the work, the place, why so long."""
    work = f"{step.hands_on_min} min of work" if step.hands_on_min else ""
    return "\n".join(filter(None, (work, step.place, step.note)))
