"""Hand work by day: which components move, by how much, and which do not. Worked by hand, serving at 18:00."""

from __future__ import annotations

from datetime import datetime

import pytest

from generator.compute import Kitchen
from generator.compute.gathering.plan import Schedule
from generator.model.gathering import Capacity
from tests.compute.gathering.supper import MakeBook, invite, on_hand, plan, read, recipe, step, steps

SHANK_MEAT = "meat:\n  animal: elk\n  cut: shank\n  weight: 6 lb\n  pieces: 2\n"
BRINE = "cure:\n  method: brine\n  water: 2 qt\n  salt: 3 %\n"
BEANS = recipe("Beans", course="simmer: 3 h in the pot", uses="2 [shanks](shank.md)")


def shank(course: str, keep: str = "keep:\n  fridge: 4 days\n") -> str:
    return recipe("Shank", makes="4 shanks (5 lb)", course=course, extra=keep)


def night_notes(planned: Schedule, name: str) -> list[str]:
    """What is said of a recipe's nights."""
    return [note for note in planned.notes if note.startswith(f"{name}: ") and "at night" in note]


def test_a_component_moves_by_the_fewest_half_hours_into_the_day(
    make_book: MakeBook, kitchen: Kitchen
) -> None:
    """Over at 15:00, a trim and 12 h of roasting would begin at 02:40; 6 h earlier is 20:40 the day before."""
    text = shank("trim: 20 min hands 20 min; roast: 12 h in the oven")
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": BEANS}), invite("beans"), kitchen)
    assert steps(planned, "shank") == [
        ("trim", "Fri 04 20:40", "Fri 04 21:00"),
        ("roast", "Fri 04 21:00", "Sat 05 09:00"),
    ]
    assert steps(planned, "beans") == [("simmer", "Sat 05 15:00", "Sat 05 18:00")]


def test_no_move_where_all_is_by_day(make_book: MakeBook, kitchen: Kitchen) -> None:
    text = shank("trim: 20 min hands 20 min; roast: 7 h 40 min in the oven")
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": BEANS}), invite("beans"), kitchen)
    assert steps(planned, "shank")[0][1] == "Sat 05 07:00"


def test_the_fewest_nights_win_where_not_all_can_be_by_day(make_book: MakeBook, kitchen: Kitchen) -> None:
    """Trim, 1 h later a cure, 9 h later a smoke, 10 h later a pack: of the four, no hour has all by day. The pot of 20 h wants
    them on Friday at 02:00, 03:00, 12:00 and 22:00, three at night. Back by half hours there are two from 00:30 on, and the
    first with one is 20:00, 21:00, 06:00 and 16:00."""
    beans = BEANS.replace("3 h", "20 h")
    text = shank(
        "trim: 1 h hands 10 min; cure: 9 h in the fridge; hot smoke: 10 h in the smoker; pack: in bags"
    )
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": beans}), invite("beans"), kitchen)
    assert [one[:2] for one in steps(planned, "shank")] == [
        ("trim", "Thu 03 20:00"),
        ("cure", "Thu 03 21:00"),
        ("hot smoke", "Fri 04 06:00"),
        ("pack", "Fri 04 16:00"),
    ]
    assert night_notes(planned, "Shank") == [
        "Shank: hot smoke begins Fri 4 Dec 06:00, at night (21:00 to 07:00), because no hour was found that has all of it by "
        "day."
    ]


def test_what_does_not_keep_does_not_move(make_book: MakeBook, kitchen: Kitchen) -> None:
    """It would have to wait 6 h, and keeps a fifth of a day."""
    text = shank("trim: 20 min hands 20 min; roast: 12 h in the oven", "keep:\n  fridge: 5 h\n")
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": BEANS}), invite("beans"), kitchen)
    assert steps(planned, "shank")[0][1] == "Sat 05 02:40"
    assert night_notes(planned, "Shank") == [
        "Shank: trim begins Sat 5 Dec 02:40 and roast begins Sat 5 Dec 03:00, at night (21:00 to 07:00), because sooner it "
        "would wait longer than it keeps."
    ]


def test_nothing_moves_before_work_begins(make_book: MakeBook, kitchen: Kitchen) -> None:
    text = shank("trim: 20 min hands 20 min; roast: 12 h in the oven")
    book = read(make_book, kitchen, {"shank": text, "beans": BEANS})
    planned = plan(book, invite("beans", work_from=datetime(2026, 12, 4, 20, 41)), kitchen)
    assert steps(planned, "shank")[0][1] == "Sat 05 02:40"
    assert planned.problems == ()
    (said,) = night_notes(planned, "Shank")
    assert said.endswith("because sooner it would be before work starts.")


def test_a_dish_is_not_moved(make_book: MakeBook, kitchen: Kitchen) -> None:
    text = recipe("Roast", course="trim: 1 h hands 1 h; roast: 14 h in the oven")
    planned = plan(read(make_book, kitchen, {"roast": text}), invite("roast"), kitchen)
    assert steps(planned, "roast")[0][1] == "Sat 05 03:00"
    assert night_notes(planned, "Roast") == [
        "Roast: trim begins Sat 5 Dec 03:00 and roast begins Sat 5 Dec 04:00, at night (21:00 to 07:00), because a dish is over "
        "when it is served."
    ]


def test_turning_counts_as_hand_work(make_book: MakeBook, kitchen: Kitchen) -> None:
    """A cure of 3 days and 12 h of smoke begin at 03:00, and it would be turned at 03:00; 6 h 30 min earlier is 20:30,
    where the smoke is lit at 20:30 too."""
    cure = "meat:\n  animal: elk\n  cut: shank\n  weight: 6 lb\ncure:\n  method: brine\n  water: 2 qt\n  salt: 3 %\nkeep:\n  fridge: 4 days\n"
    text = shank("cure: 3 days in the fridge; hot smoke: 12 h in the smoker", cure)
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": BEANS}), invite("beans"), kitchen)
    assert [one[:2] for one in steps(planned, "shank")] == [
        ("cure", "Tue 01 20:30"),
        ("turn", "Wed 02 20:30"),
        ("turn", "Thu 03 20:30"),
        ("hot smoke", "Fri 04 20:30"),
    ]


def test_a_thaw_begins_sooner_by_day(make_book: MakeBook, kitchen: Kitchen) -> None:
    """A roast of 8 h begins at 10:00. USDA FSIS, The Big Thaw: 24 hours for each 4 to 5 pounds; 44 h written begin at 14:00,
    and 28 h at 06:00: nine hours and a half sooner, by half hours, is 21:00 less half an hour."""
    for length, begins in (("44 h", "Thu 03 14:00"), ("28 h", "Thu 03 21:00"), ("24 h", "Fri 04 10:00")):
        text = recipe("Roast", course=f"thaw: {length} in the fridge; roast: 8 h in the oven")
        planned = plan(read(make_book, kitchen, {"roast": text}), invite("roast"), kitchen)
        assert steps(planned, "roast")[0] == ("thaw", begins, "Sat 05 10:00"), length
        assert step(planned, "roast", "thaw").note == ("begun 9 h sooner, by day" if length == "28 h" else "")
        assert night_notes(planned, "Roast") == []


def test_a_thaw_that_the_plan_puts_in_begins_sooner_by_day(make_book: MakeBook, kitchen: Kitchen) -> None:
    """Needed at 04:00, it thaws for a day by the rule: from 21:00 on, seven hours sooner. What keeps 5 h once it is thawed
    begins no more than 5 h sooner, which is night as well: it begins as counted."""
    beans = BEANS.replace("3 h", "14 h")
    for keeps, begins in (("4 days", "Thu 03 21:00"), ("5 h", "Fri 04 04:00")):
        files = {"shank": shank("roast: 2 h in the oven", f"keep:\n  fridge: {keeps}\n"), "beans": beans}
        invited = invite("beans", there=(on_hand("shank", 1, "freezer"),))
        planned = plan(read(make_book, kitchen, files), invited, kitchen)
        assert steps(planned, "shank") == [("thaw", begins, "Sat 05 04:00")], keeps


def test_a_thaw_in_water_begins_as_late_as_it_may(make_book: MakeBook, kitchen: Kitchen) -> None:
    """Somebody changes the water: it is not left to lie."""
    text = recipe("Roast", course="thaw: 2 h in cold water; roast: 10 h in the oven")
    planned = plan(read(make_book, kitchen, {"roast": text}), invite("roast"), kitchen)
    assert steps(planned, "roast")[0] == ("thaw", "Sat 05 06:00", "Sat 05 08:00")
    assert len(night_notes(planned, "Roast")) == 1


@pytest.mark.parametrize(
    ("stage", "begins"),
    [
        # 10 h before 15:00 is 05:00; the range leaves 8 h, from 07:00.
        ("soak: 8–10 h in the fridge", "Sat 05 07:00"),
        ("soak: 9–10 h in the fridge", "Sat 05 05:00"),
        ("soak: 10 h in the fridge", "Sat 05 05:00"),
        # Something else than the clock says when it is over.
        ("dry: 8–10 h in the fridge until tacky", "Sat 05 05:00"),
        ("soak: 8–10 h in cold water", "Sat 05 05:00"),
        # Clocks of safety.
        ("cool: 8–10 h in the fridge", "Sat 05 05:00"),
        ("chill: 8–10 h in the fridge", "Sat 05 05:00"),
    ],
)
def test_a_written_range_in_the_fridge_is_the_slack_of_a_dish(
    make_book: MakeBook, kitchen: Kitchen, stage: str, begins: str
) -> None:
    text = recipe("Beans", course=f"{stage}; simmer: 3 h in the pot")
    planned = plan(read(make_book, kitchen, {"beans": text}), invite("beans"), kitchen)
    assert steps(planned, "beans")[0][1] == begins
    assert len(night_notes(planned, "Beans")) == (begins < "Sat 05 07:00")


@pytest.mark.parametrize(
    ("days", "begins"), [("6–6.5 days", "Sun 29 07:00"), ("5.5–6.5 days", "Sun 29 02:00")]
)
def test_a_cure_is_never_shorter_than_published_times(
    make_book: MakeBook, kitchen: Kitchen, days: str, begins: str
) -> None:
    """Purdue University, 1919, heavy pieces in a brine: 2 days for each pound, 6 for one of 3 lb. A smoke at 14:00 after six days
    and a half would begin it at 02:00: six days and seven hours are by day. A range with less than six days in it is taken at
    its longer end."""
    text = shank(
        f"cure: {days} in the fridge; hot smoke: 3 h in the smoker",
        SHANK_MEAT + BRINE + "keep:\n  fridge: 1 h\n",
    )
    beans = BEANS.replace("simmer: 3 h in the pot", "rest: 1 h")
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": beans}), invite("beans"), kitchen)
    assert steps(planned, "shank")[0][1] == begins


@pytest.mark.parametrize(
    ("ovens", "keeps", "begins"),
    [(2, "4 days", "Fri 04 20:40"), (1, "4 days", "Fri 04 08:40"), (1, "12 h", "Sat 05 02:40")],
)
def test_nothing_moves_into_the_way_of_another(
    make_book: MakeBook, kitchen: Kitchen, ovens: int, keeps: str, begins: str
) -> None:
    """The pie is in the oven on Friday from 23:00 to 01:00. The roast would be there from Friday 21:00 to 09:00; where there is
    one oven it is over before the pie, at 21:00, or where it does not keep so long it stays where it was."""
    text = shank("trim: 20 min hands 20 min; roast: 12 h in the oven", f"keep:\n  fridge: {keeps}\n")
    pie = recipe("Pie", course="bake: 2 h in the oven; rest: 17 h")
    files = {"shank": text, "beans": BEANS, "pie": pie}
    planned = plan(read(make_book, kitchen, files, Capacity(ovens=ovens)), invite("beans", "pie"), kitchen)
    assert planned.problems == ()
    assert steps(planned, "shank")[0][1] == begins
    said = night_notes(planned, "Shank")
    assert [note.partition("because ")[2] for note in said] == (
        ["sooner there would be no room for it in the kitchen."] if keeps == "12 h" else []
    )


@pytest.mark.parametrize(
    ("keeps", "soak", "trim"),
    [("20 min", "Sat 05 05:00", "Fri 04 19:30"), ("4 days", "Sat 05 07:00", "Fri 04 11:30")],
)
def test_nothing_moves_into_the_day_that_brings_more_of_another_into_the_night(
    make_book: MakeBook, kitchen: Kitchen, keeps: str, soak: str, trim: str
) -> None:
    """The soak begins at 05:00, or after 8 h at 07:00. The shank is over when it begins: at 05:00, from 19:30, 20:00 and 20:30
    on, which makes two at night with the soak, or at 07:00, from 21:30, 22:00 and 22:30 on, which makes three. Where it
    keeps it is over at 21:00 instead, from 11:30 on, and nothing is at night. Nor does it matter that the neck of another
    dish gains two by moving from 02:40 and 03:00, 6 h earlier."""
    files = {
        "shank": shank(
            "trim: 30 min hands 30 min; simmer: 30 min in the pot; roast: 8 h 30 min in the oven",
            f"keep:\n  fridge: {keeps}\n",
        ),
        "beans": recipe(
            "Beans", course="soak: 8–10 h in the fridge; simmer: 3 h in the pot", uses="2 [shanks](shank.md)"
        ),
        "neck": shank("trim: 20 min hands 20 min; roast: 12 h in the oven").replace("Shank", "Neck"),
        "stew": BEANS.replace("Beans", "Stew").replace("shank", "neck"),
    }
    files["neck"] = files["neck"].replace("shanks", "necks")
    planned = plan(read(make_book, kitchen, files), invite("beans", "stew"), kitchen)
    assert steps(planned, "beans")[0][1] == soak
    assert steps(planned, "shank")[0][1] == trim
    assert steps(planned, "neck")[0][1] == "Fri 04 20:40"
    assert night_notes(planned, "Beans") == (
        [
            "Beans: soak begins Sat 5 Dec 05:00, at night (21:00 to 07:00), because otherwise what it is made of would be at "
            "night."
        ]
        if keeps == "20 min"
        else []
    )


def test_what_is_too_late_already_is_shown_by_day(make_book: MakeBook, kitchen: Kitchen) -> None:
    """It would begin at 02:40 and work begins at 14:00: the last possible start that is by day is 20:40 the day before."""
    text = shank("trim: 20 min hands 20 min; roast: 12 h in the oven")
    book = read(make_book, kitchen, {"shank": text, "beans": BEANS})
    planned = plan(book, invite("beans", work_from=datetime(2026, 12, 5, 14)), kitchen)
    assert steps(planned, "shank")[0][1] == "Fri 04 20:40"
    assert [problem.slug for problem in planned.problems] == ["too-late"]
    assert "its last possible start is Fri 4 Dec 20:40" in planned.problems[0].message
    assert night_notes(planned, "Shank") == []
