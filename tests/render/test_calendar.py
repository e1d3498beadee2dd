"""A plan in, the entries of its calendar out: which steps stand in it, what is told of them, and their identities."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from fractions import Fraction

import pytest

from generator.model.gathering import Gathering, Guests, Invited
from generator.model.moment import later
from generator.model.plan import Plan, Step
from generator.model.recipe import Body
from generator.problems import Position
from generator.render.plans import plan_calendar

AT = Position("gatherings/supper.md")
SERVED = datetime(2026, 12, 5, 18)
NAMES = {"shank": "Smoked shank", "beans": "Beans"}


def step(stage: str, minutes: int = 0, *, index: int = 0, hands: int = 0, **more: str) -> Step:
    start = datetime(2026, 12, 1, 9)
    return Step(
        slug="shank",
        stage=stage,
        index=index,
        start=start,
        end=later(start, minutes),
        hands_on_min=hands,
        place=more.get("place", ""),
        note=more.get("note", ""),
    )


def plan(*steps: Step) -> Plan:
    gathering = Gathering(
        slug="supper",
        file=AT.file,
        name="Supper for 35",
        summary="",
        serve_at=SERVED,
        work_from=None,
        guests=Guests(adults=29, children=6, child_share=Fraction(1, 2)),
        dishes=(),
        on_hand=(),
        whole_batches=False,
        body=Body(text="", first_line=1),
        position=AT,
    )
    invited = Invited(gathering=gathering, dishes=(), components=(), ingredients=())
    return Plan(invited=invited, makings=(), shopping=(), steps=steps, problems=())


def test_an_entry_for_each_step_that_takes_time_or_hands_or_is_told() -> None:
    job = plan_calendar(
        plan(
            step("cure", 120), step("trim", hands=20), step("pack"), step("rinse"), step("turn", 5, index=-1)
        ),
        "gatherings/supper/supper.ics",
        NAMES,
    )
    assert [event.summary for event in job.events] == [
        "Smoked shank: cure",
        "Smoked shank: trim",
        "Smoked shank: rinse",
        "Smoked shank: turn over",
    ]
    assert (job.path, job.name, job.stamp) == ("gatherings/supper/supper.ics", "Supper for 35", SERVED)
    assert job.events[0].end == later(job.events[0].start, 120)


@pytest.mark.parametrize(
    ("stage", "alarm", "words"),
    [
        ("turn", 15, "turn over"),
        ("rinse", 15, "rinse"),
        ("hot smoke", 30, "light the smoker, hot smoke"),
        ("cold smoke", 30, "light the smoker, cold smoke"),
        ("thaw", 15, "take out to thaw"),
        ("cure", None, "cure"),
    ],
)
def test_what_somebody_must_be_told_of(stage: str, alarm: int | None, words: str) -> None:
    (event,) = plan_calendar(plan(step(stage, 60)), "a.ics", NAMES).events
    assert (event.alarm_min, event.summary) == (alarm, f"Smoked shank: {words}")


def test_the_work_the_place_and_the_note_are_told() -> None:
    told = step("turn", 5, hands=5, place="fridge", note="in its brine, day 1")
    (event,) = plan_calendar(plan(told), "a.ics", NAMES).events
    assert event.description == "5 min of work\nfridge\nin its brine, day 1"


def test_identities_are_by_recipe_and_stage_and_not_by_time() -> None:
    turns = tuple(step("turn", 5, index=-1) for _ in range(2))
    first = plan_calendar(plan(step("thaw", 60), *turns), "a.ics", NAMES)
    assert [event.name for event in first.events] == [
        "supper/shank/thaw/0/1",
        "supper/shank/turn/-1/1",
        "supper/shank/turn/-1/2",
    ]
    moved = plan(*(replace(one, start=later(one.start, 90)) for one in (step("thaw", 60), *turns)))
    assert [event.name for event in plan_calendar(moved, "a.ics", NAMES).events] == [
        event.name for event in first.events
    ]
