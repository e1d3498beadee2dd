"""Hand work by day: which components move, by how much, and which do not. Worked by hand, serving at 18:00."""

from __future__ import annotations

from datetime import datetime

from generator.compute import Kitchen
from tests.compute.gathering.supper import MakeBook, invite, plan, read, recipe, steps

BEANS = recipe("Beans", course="simmer: 3 h in the pot", uses="2 [shanks](shank.md)")


def shank(course: str, keep: str = "keep:\n  fridge: 4 days\n") -> str:
    return recipe("Shank", makes="4 shanks (5 lb)", course=course, extra=keep)


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
    """Trim, a smoke lit 10 h later and a pack 10 h after that: of three so far apart one is always at night. The pot of 20 h
    wants them on Friday at 22:00: pack at 22:00 and trim at 02:00. One hour earlier 21:00 is night still; at 20:30, 10:30
    and 00:30 one is left."""
    beans = BEANS.replace("3 h", "20 h")
    text = shank(
        "trim: 1 h hands 10 min; cure: 9 h in the fridge; hot smoke: 10 h in the smoker; pack: in bags"
    )
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": beans}), invite("beans"), kitchen)
    assert [one[:2] for one in steps(planned, "shank")] == [
        ("trim", "Fri 04 00:30"),
        ("cure", "Fri 04 01:30"),
        ("hot smoke", "Fri 04 10:30"),
        ("pack", "Fri 04 20:30"),
    ]


def test_what_does_not_keep_does_not_move(make_book: MakeBook, kitchen: Kitchen) -> None:
    """It would have to wait 6 h, and keeps a fifth of a day."""
    text = shank("trim: 20 min hands 20 min; roast: 12 h in the oven", "keep:\n  fridge: 5 h\n")
    planned = plan(read(make_book, kitchen, {"shank": text, "beans": BEANS}), invite("beans"), kitchen)
    assert steps(planned, "shank")[0][1] == "Sat 05 02:40"


def test_nothing_moves_before_work_begins(make_book: MakeBook, kitchen: Kitchen) -> None:
    text = shank("trim: 20 min hands 20 min; roast: 12 h in the oven")
    book = read(make_book, kitchen, {"shank": text, "beans": BEANS})
    planned = plan(book, invite("beans", work_from=datetime(2026, 12, 4, 20, 41)), kitchen)
    assert steps(planned, "shank")[0][1] == "Sat 05 02:40"
    assert planned.problems == ()


def test_a_dish_is_not_moved(make_book: MakeBook, kitchen: Kitchen) -> None:
    text = recipe("Roast", course="trim: 1 h hands 1 h; roast: 14 h in the oven")
    planned = plan(read(make_book, kitchen, {"roast": text}), invite("roast"), kitchen)
    assert steps(planned, "roast")[0][1] == "Sat 05 03:00"


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
