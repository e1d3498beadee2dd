"""The strip of a plan: every step has its bar, in its place, and no label touches another."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from generator.model.moment import minutes_from
from generator.model.plan import Plan
from generator.render.plan_figure import (
    BAR,
    HEAD,
    LEAST,
    LEFT,
    LETTER,
    RIGHT,
    PlanFigure,
    midnight,
    plan_figure,
)
from generator.render.plans import plan_clock
from tests.render.plan_sample import SHANK, STEPS, at, sample_plan, step

DAY = (RIGHT - LEFT) / 7
"The sample runs from Sunday 29 November to Saturday 5 December: seven days in the width of the field."


def figure_of(plan: Plan) -> PlanFigure:
    found = plan_figure(plan, plan_clock(plan))
    assert found is not None
    return found


def test_every_step_has_one_bar_with_its_number_and_stage() -> None:
    figure = figure_of(sample_plan())
    bars = [bar for lane in figure.lanes for bar in lane.bars]
    assert sorted(bar.number for bar in bars) == list(range(1, len(STEPS) + 1))
    for bar in bars:
        assert bar.label == f"{bar.number} {STEPS[bar.number - 1].stage}"


def test_lanes_stand_in_the_order_in_which_they_begin() -> None:
    names = [lane.name for lane in figure_of(sample_plan()).lanes]
    assert names == [
        "Smoked elk shank",
        "Smoked shank stock",
        "Pinto beans with smoked shank",
        "Collards in smoked stock",
    ]


def test_bars_stand_where_the_clock_puts_them() -> None:
    """Thawing: from 08:00 of the first day to 17:00 of the second, by hand: 8/24 and 41/24 of a day."""
    thaw = figure_of(sample_plan()).lanes[0].bars[0]
    assert thaw.x == pytest.approx(LEFT + DAY * 8 / 24, abs=0.1)
    assert thaw.x + thaw.width == pytest.approx(LEFT + DAY * 41 / 24, abs=0.2)


def test_hand_work_is_told_apart_and_never_longer_than_its_bar() -> None:
    bars = {bar.number: bar for lane in figure_of(sample_plan()).lanes for bar in lane.bars}
    assert bars[5].work == 0, "drying is nobody's work"
    assert bars[1].work == LEAST, "ten minutes are too little to see"
    assert bars[11].work == pytest.approx(bars[11].width), "trimming is work all along"
    assert all(0 <= bar.work <= bar.width for bar in bars.values())


def test_nothing_touches_anything() -> None:
    """Boxes of bars and labels, by the widest letters: within the field, and none over another of its lane."""
    figure = figure_of(sample_plan())
    for lane in figure.lanes:
        boxes = []
        for bar in lane.bars:
            width = len(bar.label) * LETTER
            label = bar.label_x if bar.anchor == "start" else bar.label_x - width
            assert label >= LEFT
            assert label + width <= RIGHT
            boxes.append((min(bar.x, label), max(bar.x + bar.width, label + width), bar.y))
        for number, one in enumerate(boxes):
            for other in boxes[number + 1 :]:
                assert one[2] != other[2] or one[1] <= other[0] or other[1] <= one[0]
        assert all(lane.top < bar.y and bar.y + BAR < figure.bottom for bar in lane.bars)
    assert figure.lanes[0].top == HEAD


def test_a_day_of_the_changing_clocks_has_its_own_width() -> None:
    """1 November 2026 has 25 hours in Denver: US DST ends that day at 02:00 (Energy Policy Act of 2005)."""
    zone = ZoneInfo("America/Denver")
    first, second = datetime(2026, 11, 1, tzinfo=zone), datetime(2026, 11, 2, tzinfo=zone)
    assert minutes_from(first, second) == 25 * 60
    steps = (
        step(SHANK, "cure", 2, first.replace(hour=8), second.replace(hour=8), 0),
        step(SHANK, "dry", 4, second.replace(hour=8), second.replace(hour=10), 0),
    )
    gathering = replace(sample_plan().invited.gathering, serve_at=second.replace(hour=12))
    plan = replace(sample_plan(), invited=replace(sample_plan().invited, gathering=gathering), steps=steps)
    figure = figure_of(plan)
    assert figure.days[1].x == pytest.approx(LEFT + (RIGHT - LEFT) * 25 / 49, abs=0.1)


def test_nights_are_from_nine_to_seven() -> None:
    """The hours that the plan keeps free."""
    assert figure_of(sample_plan()).night == "21:00 to 07:00"
    nights = figure_of(sample_plan()).nights
    assert len(nights) == 8, "before the first morning, six whole ones, and after the last evening"
    assert nights[0].x == LEFT
    assert nights[0].width == pytest.approx(DAY * 7 / 24, abs=0.1)
    assert nights[1].width == pytest.approx(DAY * 10 / 24, abs=0.2)


def test_a_long_plan_names_only_days_that_have_room() -> None:
    steps = (step(SHANK, "cure", 2, at(1, "08:00", 10), at(4, "08:00"), 20), *STEPS[4:])
    days = figure_of(replace(sample_plan(), steps=steps)).days
    named = [day.x for day in days if day.name]
    assert len(days) == 66
    assert all(b - a >= 50 for a, b in pairwise(named))


def test_no_steps_no_figure() -> None:
    plan = replace(sample_plan(), steps=())
    assert plan_figure(plan, plan_clock(plan)) is None


def test_description_names_every_recipe_with_its_ends() -> None:
    text = figure_of(sample_plan()).description
    assert "Smoked elk shank from Sun 29 Nov 08:00 to Fri 4 Dec 14:30" in text
    assert "Served Sat 5 Dec 17:30." in text
    assert midnight(at(4, "06:30")) == at(4, "00:00")
