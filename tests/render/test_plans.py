"""A plan as data and as text: the keys that were promised, unknown as null, ranges as pairs, nothing left out."""

from __future__ import annotations

import json
from dataclasses import replace

from generator.model.results import Shown
from generator.render.data import cure_data
from generator.render.plans import gathering_data, gathering_text, plan_clock
from generator.tables import load_tables
from tests.render.plan_sample import BEANS, SHANK, STEPS, STOCK, at, sample_book, sample_plan, step


def test_keys_are_those_that_were_promised() -> None:
    data = json.loads(json.dumps(gathering_data(sample_plan(), sample_book(), "us")))
    assert list(data) == ["demand", "shopping", "timeline", "cures", "cautions", "problems"]
    assert [list(one) for one in data["demand"]] == [["recipe", "amount_g", "batches", "green_weight_g"]] * 4
    assert [list(one) for one in data["shopping"]] == [["item", "place", "shown", "grams", "for"]] * 6
    assert [list(one) for one in data["timeline"]] == [
        ["recipe", "stage", "start", "end", "hands_on_min"]
    ] * len(STEPS)


def test_values_unknown_ones_and_ranges() -> None:
    """As the sample was set by hand."""
    data = gathering_data(sample_plan(), sample_book(), "us")
    assert data["demand"][0] == {
        "recipe": BEANS,
        "amount_g": None,
        "batches": 8 / 3,
        "green_weight_g": None,
    }
    assert data["demand"][3] == {
        "recipe": SHANK,
        "amount_g": [2150, 2160],
        "batches": 1,
        "green_weight_g": 2721,
    }
    by_name = {item["item"]: item for item in data["shopping"]}
    assert by_name["collards"]["grams"] == [9000, 9600]
    assert by_name["juniper berries"]["grams"] is None
    assert by_name["smoked elk shanks"]["for"] == [BEANS, STOCK]
    assert by_name["curing salt no. 1"]["grams"] == 14.9


def test_times_are_iso_with_their_offset() -> None:
    """Denver is 7 h behind UTC in winter and 6 h in summer time."""
    first = gathering_data(sample_plan(), sample_book(), "us")["timeline"][0]
    assert (first["start"], first["end"]) == ("2026-11-29T08:00-07:00", "2026-11-30T17:00-07:00")
    summer = replace(
        sample_plan(), steps=(step(SHANK, "cure", 2, at(31, "08:00", 10), at(2, "08:00", 11), 5),)
    )
    one = gathering_data(summer, sample_book(), "us")["timeline"][0]
    assert (one["start"], one["end"]) == ("2026-10-31T08:00-06:00", "2026-11-02T08:00-07:00")


def test_cures_are_those_of_the_sheet_and_problems_those_of_check() -> None:
    data, shank = gathering_data(sample_plan(), sample_book(), "us"), sample_plan().makings[3].recipe
    assert shank.cure is not None
    assert data["cures"] == [{"recipe": SHANK, **cure_data(shank.cure)}]
    assert [(one["severity"], one["line"]) for one in data["problems"]] == [("error", 6), ("warning", 6)]


def test_shown_follows_the_units_and_nothing_shown_is_null() -> None:
    shown = Shown(us="4 lb", metric="1.8 kg", imperial="")
    plan = replace(sample_plan(), shopping=(replace(sample_plan().shopping[0], shown=shown),))
    found = [
        gathering_data(plan, sample_book(), units)["shopping"][0]["shown"]
        for units in ("us", "metric", "imperial")
    ]
    assert found == ["4 lb", "1.8 kg", None]


def text() -> str:
    return gathering_text(sample_plan(), sample_book(), "us", load_tables())


def test_text_says_everything_in_its_order() -> None:
    said = " ".join(text().split())
    order = [
        "Supper for thirty-five",
        "Served Sat 5 Dec 2026, 17:30 (MST, like every time here)",
        "35 guests: 29 adults and 6 children, each counted as ½",
        "It cannot be met The brine of Smoked elk shank is 2 days short. Begin by",
        "Look at this first Two pots",
        "What is made Pinto beans with smoked shank: 2⅔ batches, 32 servings",
        "Smoked elk shank: one batch, 4 shanks, ½ of one batch on hand, 0.28 of one batch left over",
        "ingoing nitrite 150 ppm, limit 200 ppm",
        "Sun 29 Nov 08:00 Smoked elk shank: thaw in the fridge to Mon 30 Nov 17:00; 10 min by hand",
        "06:30 Smoked elk shank: rinse; 15 min by hand (no length is written)",
        "From the freezer [ ] 6 lb elk fore shanks, raw (for Smoked elk shank)",
        "[ ] 20 lb collards (for Collards in smoked stock; 43 % of the weight is stems)",
        "Besides ¼ of one batch of smoked elk shank is left over.",
    ]
    places = [said.find(words) for words in order]
    assert -1 not in places, order[places.index(-1)]
    assert places == sorted(places)
    for number, one in enumerate(STEPS, start=1):
        assert f"{one.start:%H:%M} " in said, number


def test_text_keeps_to_the_width_of_a_terminal() -> None:
    assert max(len(line) for line in text().splitlines() if "Limit from" not in line) <= 80


def test_a_zone_is_told_behind_each_time_where_the_clocks_change() -> None:
    """Summer time ends in Denver on 1 November 2026."""
    plan = replace(sample_plan(), steps=(step(SHANK, "cure", 2, at(31, "08:00", 10), at(2, "08:00", 11), 5),))
    clock = plan_clock(plan)
    assert clock.zone == ""
    assert clock.moment(plan.steps[0].start) == "Sat 31 Oct 08:00 MDT"
    assert clock.until(plan.steps[0]) == "to Mon 2 Nov 08:00 MST"


def test_a_plan_without_a_zone_names_none() -> None:
    gathering = sample_plan().invited.gathering
    invited = replace(
        sample_plan().invited, gathering=replace(gathering, serve_at=gathering.serve_at.replace(tzinfo=None))
    )
    steps = tuple(
        replace(one, start=one.start.replace(tzinfo=None), end=one.end.replace(tzinfo=None)) for one in STEPS
    )
    plan = replace(sample_plan(), invited=invited, steps=steps)
    assert plan_clock(plan).zone == ""
    assert "Served Sat 5 Dec 2026, 17:30\n" in gathering_text(plan, sample_book(), "us", load_tables())
    assert gathering_data(plan, sample_book(), "us")["timeline"][0]["start"] == "2026-11-29T08:00"
