"""A plan backwards from serving, worked by hand on Saturday 5 December 2026 at 18:00."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest

from generator.compute import Kitchen
from generator.compute.gathering.lengths import Heaviest, stage_length, thaw_length
from generator.model.moment import Moment
from generator.model.quantity import Span
from generator.model.recipe import Stage
from generator.problems import Position
from tests.compute.gathering.supper import (
    MakeBook,
    invite,
    on_hand,
    plan,
    read,
    recipe,
    step,
    steps,
    told,
)

SHANK_MEAT = "meat:\n  animal: elk\n  cut: fore shank\n  weight: 6 lb\n  pieces: 4\n"
BEANS = recipe("Beans", course="simmer: 3 h in the pot; rest: 20 min", uses="2 [shanks](shank.md)")


def shank(course: str, keep: str = "") -> str:
    return recipe("Shank", makes="4 shanks (5 lb)", course=course, extra=SHANK_MEAT + keep)


def test_the_last_stage_of_a_dish_ends_at_serving_with_the_longer_end_of_each_length(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    """2-3 h and 20 min before 18:00: the simmer at 14:40."""
    text = recipe("Beans", course="simmer: 2–3 h in the pot; rest: 20 min")
    planned = plan(read(make_book, kitchen, {"beans": text}), invite("beans"), kitchen)
    assert steps(planned, "beans") == [
        ("simmer", "Sat 05 14:40", "Sat 05 17:40"),
        ("rest", "Sat 05 17:40", "Sat 05 18:00"),
    ]
    assert planned.problems == ()


def test_a_component_is_over_before_the_first_stage_of_the_first_that_takes_from_it(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    """Beans begin at 14:40, the salad at 17:00: the roast of 2 h ends at 14:40."""
    book = read(
        make_book,
        kitchen,
        {
            "shank": shank("roast: 2 h in the oven"),
            "beans": BEANS,
            "salad": recipe("Salad", course="rest: 1 h", uses="1 [shank](shank.md)"),
        },
    )
    planned = plan(book, invite("beans", "salad"), kitchen)
    assert steps(planned, "shank") == [("roast", "Sat 05 12:40", "Sat 05 14:40")]


def test_a_frozen_component_gets_a_thaw_of_its_own_unless_the_taker_has_one(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    """A shank of 5 / 4 = 1.25 lb thaws for a day: from Friday 14:40. Freezing takes the day before that."""
    frozen = shank("roast: 2 h in the oven; freeze: in the freezer")
    book = read(make_book, kitchen, {"shank": frozen, "beans": BEANS})
    planned = plan(book, invite("beans"), kitchen)
    assert [one for one in steps(planned, "shank") if one[0] != "roast"] == [
        ("freeze", "Thu 03 14:40", "Fri 04 14:40"),
        ("thaw", "Fri 04 14:40", "Sat 05 14:40"),
    ]
    put_in = step(planned, "shank", "thaw")
    assert put_in.index == -1
    assert put_in.place == "in the fridge"
    assert put_in.note == (
        "for Beans; 24 h counted by the FSIS rule for the fridge, a day for each 4 lb begun; "
        "the heaviest piece is 1.3 lb (0.6 kg)"
    )
    thawing = BEANS.replace("  - simmer", "  - thaw: in the fridge\n  - simmer")
    book = read(make_book, kitchen, {"shank": frozen, "beans": thawing})
    planned = plan(book, invite("beans"), kitchen)
    assert [one[0] for one in steps(planned, "shank")] == ["roast", "freeze"]
    assert steps(planned, "beans")[0] == ("thaw", "Fri 04 14:40", "Sat 05 14:40")
    assert step(planned, "shank", "freeze").end == step(planned, "beans", "thaw").start


def test_what_is_in_the_freezer_is_thawed_and_not_made(make_book: MakeBook, kitchen: Kitchen) -> None:
    book = read(make_book, kitchen, {"shank": shank("roast: 2 h in the oven"), "beans": BEANS})
    there = (on_hand("shank", 1, "freezer"),)
    planned = plan(book, invite("beans", there=there), kitchen)
    assert steps(planned, "shank") == [("thaw", "Fri 04 14:40", "Sat 05 14:40")]
    there = (on_hand("shank", 1, "fridge"),)
    assert steps(plan(book, invite("beans", there=there), kitchen), "shank") == []


@pytest.mark.parametrize(
    ("pounds", "hours"),
    [("1/2", 24), ("4", 24), ("4.01", 48), ("8", 48), ("10", 72), ("20", 120)],
)
def test_thaw_by_the_fsis_rule(pounds: str, hours: int) -> None:
    """USDA FSIS, The Big Thaw: 24 hours for each 4 to 5 pounds, small packs about a day; 4 taken, each begun."""
    length = thaw_length("fridge", Heaviest.of(Fraction(pounds)))
    assert length.minutes == hours * 60
    assert f"{hours} h counted by the FSIS rule" in length.note


def test_thaw_by_the_heaviest_piece_and_the_least_where_none_is_told() -> None:
    two = Heaviest.of(Fraction(2), Fraction(9), None)
    assert thaw_length("", two).minutes == 3 * 24 * 60
    assert "the heaviest piece whose weight is told is 9 lb (4.1 kg)" in thaw_length("", two).note
    unknown = thaw_length("fridge", Heaviest.of(None))
    assert (unknown.minutes, unknown.is_unknown) == (24 * 60, False)
    assert "what the pieces weigh is not told, so this is the least" in unknown.note


def test_thaw_in_cold_water_is_half_an_hour_a_pound(make_book: MakeBook, kitchen: Kitchen) -> None:
    """USDA FSIS, The Big Thaw: a pack of a pound an hour or less, a turkey 30 minutes a pound."""
    assert thaw_length("cold water", Heaviest.of(Fraction(1))).minutes == 60
    assert thaw_length("cold water", Heaviest.of(Fraction(4))).minutes == 120
    assert thaw_length("cold water", Heaviest.of(None)).is_unknown
    assert thaw_length("microwave", Heaviest.of(Fraction(1))).is_unknown


def test_cooling_is_counted_by_the_two_steps_and_short_work_not_at_all(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    """FDA Food Code 3-501.14: 6 hours in all."""
    text = recipe("Shank", makes="4 shanks", course="rinse; simmer: 1 h in the pot; cool; pack: in bags")
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": BEANS}), invite("beans"), kitchen)
    assert step(planned, "shank", "pack").note == "no length is written"
    cool = step(planned, "shank", "cool")
    assert (cool.end - cool.start).total_seconds() == 6 * 3600
    assert cool.note == "6 h counted, the most that the two steps of the FDA Food Code give for cooling"
    assert planned.problems == ()


def test_a_long_stage_without_a_length_is_told(make_book: MakeBook, kitchen: Kitchen) -> None:
    text = recipe("Stew", course="simmer: until soft in the pot")
    planned = plan(read(make_book, kitchen, {"stew": text}), invite("stew"), kitchen)
    assert told(planned, "length-unknown") == [
        (
            "Stew: 'simmer' has no length, so nobody can say when to start it.",
            "Write how long it takes, such as simmer: 3 h.",
        )
    ]


def test_a_brine_is_turned_every_day(make_book: MakeBook, kitchen: Kitchen) -> None:
    """A cure of 3 days from Wednesday 13:40 is turned twice; a dry cure is not."""
    cure = "cure:\n  method: brine\n  water: 2 qt\n  salt: 3 %\n"
    text = shank("cure: 3 days in the fridge; roast: 1 h in the oven", cure)
    book = read(make_book, kitchen, {"shank": text, "beans": BEANS})
    planned = plan(book, invite("beans"), kitchen)
    assert [one[:2] for one in steps(planned, "shank")] == [
        ("cure", "Wed 02 13:40"),
        ("turn", "Thu 03 13:40"),
        ("turn", "Fri 04 13:40"),
        ("roast", "Sat 05 13:40"),
    ]
    assert [one.note for one in planned.steps if one.stage == "turn"] == [
        "in its brine, day 1",
        "in its brine, day 2",
    ]
    dry = text.replace("method: brine\n  water: 2 qt", "method: dry")
    book = read(make_book, kitchen, {"shank": dry, "beans": BEANS})
    assert "turn" not in {one[0] for one in steps(plan(book, invite("beans"), kitchen), "shank")}


# keeping


PICKLE = recipe("Pickle", makes="4 jars", course="pickle: 7 days in the fridge", uses="1 [shank](shank.md)")
PLATE = recipe("Plate", course="rest: 1 h", uses="1 [jar of pickle](pickle.md); 1 [shank](shank.md)")


def test_kept_too_long_in_the_fridge(make_book: MakeBook, kitchen: Kitchen) -> None:
    """The pickle takes it a week before Saturday 17:00, the plate then: it waits 7 days and keeps 4."""
    files = {
        "shank": shank("roast: 2 h in the oven", "keep:\n  fridge: 4 days\n"),
        "pickle": PICKLE,
        "plate": PLATE,
    }
    planned = plan(read(make_book, kitchen, files), invite("plate"), kitchen)
    assert told(planned, "kept-too-long") == [
        (
            "Shank would wait 7 days in the fridge; it keeps 4 days.",
            "Freeze it and thaw it again (freeze: in the freezer), or make what is used last a second time, later: "
            "not before Tue 1 Dec 17:00.",
        )
    ]


def test_kept_to_its_last_day_is_no_problem(make_book: MakeBook, kitchen: Kitchen) -> None:
    """It waits 7 days and keeps 7; the shorter end of 6-7 days is too short."""
    for keeps, problems in (("7 days", 0), ("6–7 days", 1)):
        kept = shank("roast: 2 h in the oven", f"keep:\n  fridge: {keeps}\n")
        files = {"shank": kept, "pickle": PICKLE, "plate": PLATE}
        planned = plan(read(make_book, kitchen, files), invite("plate"), kitchen)
        assert len(planned.problems) == problems


def test_kept_long_in_the_freezer_is_a_note(make_book: MakeBook, kitchen: Kitchen) -> None:
    frozen = shank("roast: 2 h in the oven; freeze", "keep:\n  fridge: 4 days\n  freezer: 3 days\n")
    files = {"shank": frozen, "pickle": PICKLE, "plate": PLATE}
    planned = plan(read(make_book, kitchen, files), invite("plate"), kitchen)
    assert told(planned, "kept-too-long") == []
    assert planned.notes == (
        "Shank waits 7 days in the freezer, past the 3 days that it is good for: safe, but no longer at its best.",
    )


def test_nobody_says_how_long_it_keeps(make_book: MakeBook, kitchen: Kitchen) -> None:
    files = {"shank": shank("roast: 2 h in the oven"), "pickle": PICKLE, "plate": PLATE}
    planned = plan(read(make_book, kitchen, files), invite("plate"), kitchen)
    assert planned.notes == ("Shank waits 7 days, and its recipe does not say how long it keeps.",)


# too late

CURE = "cure:\n  method: brine\n  water: 2 qt\n  salt: 3 %\n"
LONG = shank("cure: 6 days in the fridge; hot smoke: 5 h at 200–225 °F in the smoker", CURE)
OTHERS = {
    "bread": recipe("Bread", course="bake: 30 min in the oven"),
    "aspic": recipe("Aspic", course="chill: 9 days in the fridge"),
    "soup": recipe("Soup", course="simmer: 1 h in the pot"),
    "stew": recipe("Stew", course="simmer: 2 h in the pot"),
}


def test_too_late_says_by_how_much_and_what_helps(make_book: MakeBook, kitchen: Kitchen) -> None:
    """Beans at 14:40; 6 days and 5 h before it is Sunday 29 November 09:40; from Tuesday 07:00 that is 1.9 days."""
    book = read(make_book, kitchen, {"shank": LONG, "beans": BEANS, **OTHERS})
    planned = plan(book, invite("beans", work_from=datetime(2026, 12, 1, 7)), kitchen)
    assert told(planned, "too-late") == [
        (
            "Shank is too late by 2 days: its last possible start is Sun 29 Nov 09:40, and work starts on "
            "Tue 1 Dec 07:00. What takes longest is 'cure', 6 days.",
            "What helps: 4 shanks (5 lb) of Shank in the larder, under 'on hand'; a smaller or thinner piece, whose "
            "published cure time is shorter, with a course written for it; another dish that can still be made: "
            "Bread or Soup.",
        )
    ]


def test_no_smaller_piece_is_offered_where_size_does_not_decide(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    loin = LONG.replace("fore shank", "loin")
    book = read(make_book, kitchen, {"shank": loin, "beans": BEANS, "aspic": OTHERS["aspic"]})
    planned = plan(book, invite("beans", work_from=datetime(2026, 12, 1, 7)), kitchen)
    ((_, hint),) = told(planned, "too-late")
    assert hint == (
        "What helps: 4 shanks (5 lb) of Shank in the larder, under 'on hand'; a later date; no other dish of the book "
        "can be made by then either."
    )


def test_what_is_on_hand_makes_it_in_time(make_book: MakeBook, kitchen: Kitchen) -> None:
    book = read(make_book, kitchen, {"shank": LONG, "beans": BEANS})
    work_from = datetime(2026, 12, 1, 7)
    half = plan(
        book,
        invite("beans", work_from=work_from, there=(on_hand("shank", Fraction(1, 2), "fridge"),)),
        kitchen,
    )
    assert "2 shanks (2 lb 8 oz) of Shank" in told(half, "too-late")[0][1]
    whole = plan(book, invite("beans", work_from=work_from, there=(on_hand("shank", 1, "fridge"),)), kitchen)
    assert whole.problems == ()


def test_a_dish_is_too_late_because_of_its_thaw(make_book: MakeBook, kitchen: Kitchen) -> None:
    book = read(make_book, kitchen, {"shank": shank("roast: 2 h in the oven"), "beans": BEANS})
    there = (on_hand("shank", 1, "freezer"),)
    planned = plan(book, invite("beans", work_from=datetime(2026, 12, 4, 15), there=there), kitchen)
    ((message, _),) = told(planned, "too-late")
    assert message.startswith(
        "Beans is too late by 1 day (20 min): its last possible start is Fri 4 Dec 14:40"
    )


def test_a_dish_through_a_component_that_is_too_late_is_no_way_out(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    other = recipe("Another pot", course="simmer: 1 h in the pot", uses="1 [shank](shank.md)")
    book = read(make_book, kitchen, {"shank": LONG, "beans": BEANS, "another": other, "soup": OTHERS["soup"]})
    planned = plan(book, invite("beans", work_from=datetime(2026, 12, 1, 7)), kitchen)
    assert told(planned, "too-late")[0][1].endswith("another dish that can still be made: Soup.")


def test_moment_without_a_zone_is_by_the_clock_of_serving(make_book: MakeBook, kitchen: Kitchen) -> None:
    at: Moment = datetime(2026, 12, 5, 18, tzinfo=ZoneInfo("America/Denver"))
    book = read(make_book, kitchen, {"beans": recipe("Beans", course="simmer: 3 h in the pot")})
    assert plan(book, invite("beans", at=at, work_from=datetime(2026, 12, 5, 15)), kitchen).problems == ()
    late = plan(book, invite("beans", at=at, work_from=datetime(2026, 12, 5, 15, 1)), kitchen)
    assert len(told(late, "too-late")) == 1


def test_what_is_not_frozen_waits_for_the_thaw_of_something_else(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    """Over before the thaw of a day begins on Friday at 15:00, used after it: it waits 24 h and keeps 12."""
    beans = recipe("Beans", course="thaw: in the fridge; simmer: 3 h in the pot", uses="2 [shanks](shank.md)")
    files = {"shank": shank("roast: 2 h in the oven", "keep:\n  fridge: 12 h\n"), "beans": beans}
    planned = plan(read(make_book, kitchen, files), invite("beans"), kitchen)
    ((message, hint),) = told(planned, "kept-too-long")
    assert message == "Shank would wait 24 h in the fridge; it keeps 12 h."
    assert hint.endswith("later: not before Sat 5 Dec 03:00.")


def test_some_from_the_freezer_and_the_rest_made(make_book: MakeBook, kitchen: Kitchen) -> None:
    """Two shanks thaw from Friday 14:40, two are roasted until then: what is made does not wait for the thaw."""
    book = read(make_book, kitchen, {"shank": shank("roast: 2 h in the oven"), "beans": BEANS})
    there = (on_hand("shank", Fraction(1, 2), "freezer"),)
    planned = plan(book, invite("beans", there=there), kitchen)
    assert steps(planned, "shank") == [
        ("thaw", "Fri 04 14:40", "Sat 05 14:40"),
        ("roast", "Sat 05 12:40", "Sat 05 14:40"),
    ]


def test_a_dish_without_a_course_is_said(make_book: MakeBook, kitchen: Kitchen) -> None:
    text = "---\nname: Salad\nserves: 10\nchapter: Pots\n---\n\nToss.\n"
    planned = plan(read(make_book, kitchen, {"salad": text}), invite("salad"), kitchen)
    assert (planned.steps, planned.notes) == ((), ("Salad has no course: nothing of it is planned.",))


def test_a_thick_joint_is_given_the_slow_end_of_its_estimate() -> None:
    """The rule by weight can be short by half for a compact joint: the longer of the two is counted."""
    thick = thaw_length("fridge", Heaviest.of(Fraction(3, 2), slowest_h=56))
    assert thick.minutes == 56 * 60
    assert thick.note.startswith("56 h counted, the slow end of the estimate from its thickness")
    assert "would say 24 h" in thick.note
    heavy = thaw_length("fridge", Heaviest.of(Fraction(13), slowest_h=56))
    assert heavy.minutes == 96 * 60
    assert heavy.note.startswith("96 h counted by the FSIS rule")


def test_a_written_thaw_is_never_taken_for_shorter_than_the_rule(kitchen: Kitchen) -> None:
    """20 lb at 24 h for each 4 lb begun is 5 days (USDA FSIS, The Big Thaw), whatever the recipe says."""
    stage = Stage(
        name="thaw",
        place="fridge",
        place_written="in the fridge",
        minutes=Span.of(12 * 60),
        length_written="12 h",
        written="thaw: 12 h in the fridge",
        position=Position("recipes/ham.md"),
    )
    length = stage_length(stage, Heaviest.of(Fraction(20)), kitchen.tables)
    assert length.minutes == 5 * 24 * 60
    assert length.note.endswith("what is written, 12 h, is shorter")
    enough = stage_length(
        replace(stage, minutes=Span.of(6 * 24 * 60)), Heaviest.of(Fraction(20)), kitchen.tables
    )
    assert (enough.minutes, enough.note) == (6 * 24 * 60, "")


def test_what_lies_in_the_fridge_is_as_old_as_the_work_on_it(make_book: MakeBook, kitchen: Kitchen) -> None:
    """There since 25 November at the latest, used on 5 December, and it keeps 4 days."""
    book = read(
        make_book, kitchen, {"shank": shank("simmer: 1 h", keep="keep:\n  fridge: 4 days\n"), "beans": BEANS}
    )
    invited = invite("beans", there=(on_hand("shank", 1, "fridge"),), work_from=datetime(2026, 11, 25, 7))
    (problem,) = plan(book, invited, kitchen).problems
    assert problem.slug == "kept-too-long"
    assert "in the fridge is there since Wed 25 Nov 07:00 at the latest" in problem.message
    assert "it keeps 4 days" in problem.message
    assert "Freeze it" in problem.hint


# --- a course that was read from a method

READ = "---\nname: Roast\nserves: 10\nchapter: Pots\ningredients:\n  - 5 lb beef roast\n---\n\n{}\n"


def test_a_course_that_was_read_is_planned_with_where_every_length_is_known(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    """2 h and 20 min before 18:00, as if it were written."""
    text = READ.format("Salt it. Roast for 2 hours. Rest 20 minutes.")
    planned = plan(read(make_book, kitchen, {"roast": text}), invite("roast"), kitchen)
    assert steps(planned, "roast") == [
        ("roast", "Sat 05 15:40", "Sat 05 17:40"),
        ("rest", "Sat 05 17:40", "Sat 05 18:00"),
    ]


@pytest.mark.parametrize(
    "method",
    ["Roast to 160 °F. Rest 20 minutes.", "Roast for 2 hours. Keep it two days."],
    ids=["a stage without a length", "a length in a sentence that told no stage"],
)
def test_a_course_that_was_read_in_part_is_no_course(
    make_book: MakeBook, kitchen: Kitchen, method: str
) -> None:
    planned = plan(read(make_book, kitchen, {"roast": READ.format(method)}), invite("roast"), kitchen)
    assert steps(planned, "roast") == []
    assert planned.problems == ()
    assert "Roast has no course: nothing of it is planned." in planned.notes
