"""A plan in, plain text for a terminal out: what cannot be met first, then what is made, weighed, fetched and done."""

from __future__ import annotations

import textwrap
from collections.abc import Iterable, Iterator
from itertools import groupby

from generator.model.plan import Item, Making, Plan, Step
from generator.model.results import ComputedBook
from generator.render.data import made_words
from generator.render.plan_words import (
    PLACES,
    PlanClock,
    guest_count,
    guests_words,
    plan_clock,
    servings_words,
)
from generator.render.text import WIDTH, cure_text
from generator.render.views.yields import batches_words
from generator.tables import Tables


def gathering_text(plan: Plan, book: ComputedBook, units: str, tables: Tables) -> str:
    """A whole gathering."""
    clock = plan_clock(plan)
    parts = [_head(plan, clock)]
    parts += [_part(title, lines) for title, lines in _problems(plan) if lines]
    parts.append(_part("What is made", [_made(making, units) for making in plan.makings]))
    parts += [
        f"{making.recipe.recipe.name}\n{cure_text(making.recipe.cure, tables)}"
        for making in plan.makings
        if making.recipe.cure is not None and making.batches
    ]
    parts += list(_days(plan, book, clock))
    parts += list(_places(plan, book, units))
    if plan.notes:
        parts.append(_part("Besides", list(plan.notes)))
    return "\n\n".join(parts)


def _head(plan: Plan, clock: PlanClock) -> str:
    one = plan.invited.gathering
    zone = f" ({clock.zone}, like every time here)" if clock.zone else ""
    return "\n".join(
        filter(
            None,
            (
                one.name,
                one.summary,
                f"Served {clock.date(one.serve_at)}, {clock.time(one.serve_at)}{zone}",
                f"{guest_count(one.guests)}: {guests_words(one.guests)}",
            ),
        )
    )


def _part(title: str, lines: list[str]) -> str:
    wrapped = (textwrap.fill(line, WIDTH, initial_indent="  ", subsequent_indent="      ") for line in lines)
    return "\n".join((title, *wrapped))


def _problems(plan: Plan) -> tuple[tuple[str, list[str]], ...]:
    lines = [(one.is_error, f"{one.message} {one.hint}".strip()) for one in plan.problems]
    return (
        ("It cannot be met", [line for is_error, line in lines if is_error]),
        ("Look at this first", [line for is_error, line in lines if not is_error]),
    )


def _made(making: Making, units: str) -> str:
    words = [
        batches_words(making.batches) if making.batches else "none to make",
        servings_words(making.servings) or (made_words(making.recipe, units) if making.batches else ""),
        f"{batches_words(making.on_hand)} on hand" if making.on_hand else "",
        f"{batches_words(making.extra)} left over" if making.extra else "",
    ]
    return f"{making.recipe.recipe.name}: {', '.join(filter(None, words))}"


def _days(plan: Plan, book: ComputedBook, clock: PlanClock) -> Iterator[str]:
    for day, steps in groupby(plan.steps, key=lambda step: clock.day(step.start)):
        yield _part(day, [_step(step, book, clock) for step in steps])


def _step(step: Step, book: ComputedBook, clock: PlanClock) -> str:
    name = book.book.recipes[step.slug].name
    words = " ".join(filter(None, (step.stage, step.place, clock.until(step.start, step.end))))
    hands = f"; {step.hands_on_min} min by hand" if step.hands_on_min else ""
    note = f" ({step.note})" if step.note else ""
    return f"{clock.time(step.start)}  {name}: {words}{hands}{note}"


def _places(plan: Plan, book: ComputedBook, units: str) -> Iterator[str]:
    places = dict.fromkeys((*PLACES, *(item.place for item in plan.shopping)))
    for place in places:
        items = [_item(item, book, units) for item in plan.shopping if item.place == place]
        if items:
            yield _part(PLACES.get(place, place.capitalize()), items)


def _item(item: Item, book: ComputedBook, units: str) -> str:
    names = ", ".join(book.book.recipes[slug].name for slug in item.needed_for)
    words = " ".join(filter(None, ("[ ]", item.shown.in_units(units), item.name)))
    behind = "; ".join(filter(None, (f"for {names}" if names else "", item.note)))
    return f"{words} ({behind})" if behind else words


def unmet_lines(plans: Iterable[Plan]) -> Iterator[str]:
    """What keeps gatherings from being met as they are written: not of the book, but of their own plans."""
    for plan in plans:
        for problem in plan.problems:
            file = plan.invited.gathering.file
            yield f"{file}: the plan: {problem.message} [{problem.slug}]"
            if problem.hint:
                yield f"    {problem.hint}"
