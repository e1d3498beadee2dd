"""What shares a smoker, an oven, a burner, a pot: conflicts, smokes made one, rounds. Worked by hand, serving at 18:00."""

from __future__ import annotations

from datetime import datetime

from generator.compute import Kitchen
from generator.model.book import Book
from generator.model.gathering import Capacity
from tests.compute.gathering.supper import (
    MakeBook,
    invite,
    plan,
    pots,
    read,
    recipe,
    smoker,
    step,
    steps,
    told,
)

AT = "hot smoke: 5 h at 200–225 °F in the smoker"


def smoked(name: str, course: str, pounds: int, keep: str = "keep:\n  fridge: 4 days\n") -> str:
    meat = f"meat:\n  animal: elk\n  cut: fore shank\n  weight: {pounds} lb\n"
    return recipe(name, makes="4 pieces (5 lb)", course=course, extra=meat + keep)


def two_dishes(
    make_book: MakeBook, kitchen: Kitchen, shank: str, leg: str, capacity: Capacity, simmer: str = "3 h"
) -> Book:
    """Beans begin at 15:00 with shanks, or as told; greens with legs at 17:00: one batch of each."""
    files = {
        "shank": shank,
        "leg": leg,
        "beans": recipe("Beans", course=f"simmer: {simmer} in the pot", uses="2 [shanks](shank.md)"),
        "greens": recipe("Greens", course="simmer: 1 h in the pot", uses="2 [legs](leg.md)"),
    }
    return read(make_book, kitchen, files, capacity)


def test_two_in_one_oven_are_told_with_its_number(make_book: MakeBook, kitchen: Kitchen) -> None:
    files = {
        "bread": recipe("Bread", course="bake: 1 h at 400 °F"),
        "roots": recipe("Roots", course="roast: 90 min in the oven"),
    }
    planned = plan(read(make_book, kitchen, files, Capacity(ovens=1)), invite("bread", "roots"), kitchen)
    assert told(planned, "kit-conflict") == [
        (
            "Roots (roast) and Bread (bake) overlap, Sat 5 Dec 17:00–18:00: that takes 2 ovens, and there is 1.",
            "Make one of them earlier and keep it hot, or in another place, or borrow what is lacking.",
        )
    ]
    for enough in (Capacity(ovens=2), Capacity()):
        planned = plan(read(make_book, kitchen, files, enough), invite("bread", "roots"), kitchen)
        assert planned.problems == ()


def test_one_after_another_is_no_conflict(make_book: MakeBook, kitchen: Kitchen) -> None:
    files = {
        "bread": recipe("Bread", course="bake: 1 h in the oven; rest: 1 h"),
        "roots": recipe("Roots", course="roast: 1 h in the oven"),
    }
    planned = plan(read(make_book, kitchen, files, Capacity(ovens=1)), invite("bread", "roots"), kitchen)
    assert planned.problems == ()


def test_burners_and_pots_are_counted_apart(make_book: MakeBook, kitchen: Kitchen) -> None:
    """A braise in the oven takes no burner, a pan no pot; beans that soak in a pot take no burner."""
    files = {
        "soup": recipe("Soup", course="simmer: 1 h in the pot"),
        "hash": recipe("Hash", course="fry: 1 h in the pan"),
        "roast": recipe("Roast", course="braise: 2 h at 325 °F in the oven"),
        "beans": recipe("Beans", course="soak: 8 h in the pot"),
    }
    guests = invite("soup", "hash", "roast", "beans")
    planned = plan(
        read(make_book, kitchen, files, Capacity(burners=1, pots_ml=pots(8).pots_ml)), guests, kitchen
    )
    when = "overlap, Sat 5 Dec 17:00–18:00: that takes 2"
    assert [message for message, _ in told(planned, "kit-conflict")] == [
        f"Hash (fry) and Soup (simmer) {when} burners, and there is 1.",
        f"Beans (soak) and Soup (simmer) {when} pots, and there is 1.",
    ]
    planned = plan(
        read(make_book, kitchen, files, Capacity(burners=2, pots_ml=pots(8, 4).pots_ml)), guests, kitchen
    )
    assert planned.problems == ()


def test_smokes_of_one_heat_that_fit_become_one(make_book: MakeBook, kitchen: Kitchen) -> None:
    """Shanks are wanted at 15:00, legs at 17:00: smoked at 10:00 and 12:00. Both fit: the legs go in at 10:00."""
    book = two_dishes(make_book, kitchen, smoked("Shank", AT, 6), smoked("Leg", AT, 8), smoker(14))
    planned = plan(book, invite("beans", "greens"), kitchen)
    assert steps(planned, "shank") == [("hot smoke", "Sat 05 10:00", "Sat 05 15:00")]
    assert steps(planned, "leg") == [("hot smoke", "Sat 05 10:00", "Sat 05 15:00")]
    assert step(planned, "shank", "hot smoke").note == "in one smoke with Leg"
    assert step(planned, "leg", "hot smoke").note == "in one smoke with Shank"
    assert planned.problems == ()


def test_smokes_that_do_not_fit_together_are_told(make_book: MakeBook, kitchen: Kitchen) -> None:
    book = two_dishes(make_book, kitchen, smoked("Shank", AT, 6), smoked("Leg", AT, 8), smoker(13))
    planned = plan(book, invite("beans", "greens"), kitchen)
    assert steps(planned, "leg") == [("hot smoke", "Sat 05 12:00", "Sat 05 17:00")]
    assert told(planned, "kit-conflict") == [
        (
            "Shank (hot smoke) and Leg (hot smoke) overlap in the smoker and take 14 lb green weight, Sat 5 Dec "
            "12:00–15:00; the smoker holds 13 lb.",
            "Smoke it in rounds, on two days, or in two smokers.",
        )
    ]


def test_smokes_of_two_heats_stay_two_and_are_told(make_book: MakeBook, kitchen: Kitchen) -> None:
    hotter = AT.replace("200–225", "225–250")
    book = two_dishes(make_book, kitchen, smoked("Shank", AT, 6), smoked("Leg", hotter, 8), smoker(30))
    planned = plan(book, invite("beans", "greens"), kitchen)
    assert {one.note for one in planned.steps} == {""}
    assert told(planned, "kit-conflict") == [
        (
            "Shank (hot smoke) and Leg (hot smoke) overlap in the smoker, Sat 5 Dec 12:00–15:00, at "
            "different temperatures.",
            "Start one of them earlier, or smoke it elsewhere; where both recipes allow it, write one temperature.",
        )
    ]


def test_smokes_of_unknown_heat_stay_apart(make_book: MakeBook, kitchen: Kitchen) -> None:
    bare = "hot smoke: 5 h in the smoker"
    book = two_dishes(make_book, kitchen, smoked("Shank", bare, 6), smoked("Leg", bare, 8), smoker(30))
    planned = plan(book, invite("beans", "greens"), kitchen)
    assert {one.note for one in planned.steps} == {""}
    ((message, _),) = told(planned, "kit-conflict")
    assert message.endswith("Sat 5 Dec 12:00–15:00, and not all of them tell their temperature.")


def test_a_smoke_moves_no_further_than_it_keeps(make_book: MakeBook, kitchen: Kitchen) -> None:
    """A pot of 30 h wants its shanks on Friday at 12:00: legs smoked with them would wait from then until Saturday 17:00,
    29 h. Those that keep a day do not go in, those that keep two do."""
    for days, start in (("1 day", "Sat 05 12:00"), ("2 days", "Fri 04 07:00")):
        leg = smoked("Leg", AT, 8, f"keep:\n  fridge: {days}\n")
        book = two_dishes(make_book, kitchen, smoked("Shank", AT, 6), leg, smoker(30), "30 h")
        assert steps(plan(book, invite("beans", "greens"), kitchen), "leg")[0][1] == start


def test_a_smoke_moves_no_further_than_work_begins(make_book: MakeBook, kitchen: Kitchen) -> None:
    book = two_dishes(
        make_book,
        kitchen,
        smoked("Shank", AT, 6),
        smoked("Leg", "trim: 1 h; " + AT, 8),
        smoker(30),
    )
    for hour, start in ((9, "Sat 05 10:00"), (10, "Sat 05 12:00")):
        planned = plan(book, invite("beans", "greens", work_from=datetime(2026, 12, 5, hour)), kitchen)
        assert step(planned, "leg", "hot smoke").start.strftime("%a %d %H:%M") == start
        assert planned.problems == ()


def test_one_smoke_beyond_the_smoker_is_told(make_book: MakeBook, kitchen: Kitchen) -> None:
    book = two_dishes(
        make_book,
        kitchen,
        smoked("Shank", AT, 40),
        smoked("Leg", "roast: 1 h", 8),
        smoker(30),
    )
    planned = plan(book, invite("beans", "greens"), kitchen)
    ((message, _),) = told(planned, "kit-conflict")
    assert message == (
        "Shank (hot smoke) takes 40 lb green weight, Sat 5 Dec 10:00–15:00; the smoker holds 30 lb."
    )


def test_an_unknown_weight_is_said_and_not_counted(make_book: MakeBook, kitchen: Kitchen) -> None:
    bare = recipe("Shank", makes="4 pieces", course=AT)
    book = two_dishes(make_book, kitchen, bare, smoked("Leg", AT, 8), smoker(30))
    planned = plan(book, invite("beans", "greens"), kitchen)
    assert planned.notes == (
        "What Shank (hot smoke) weighs is not told: whether the smoker takes it is not known.",
    )
    assert step(planned, "leg", "hot smoke").note == ""


def test_a_mound_of_greens_goes_in_by_rounds(make_book: MakeBook, kitchen: Kitchen) -> None:
    """Chopped collards weigh 36 g a cup (USDA SR28, NDB 11161): 8 lb are 3,628.7 / 36 = 100.8 cups, of 4 to a quart
    25.2 qt or 6.3 gal, which a pot of 16 qt (4 gal) takes in 2 rounds and one of 8 qt in 4."""
    greens = recipe("Greens", course="rinse; cook: 10 min in the pot", uses="4 lb collards, in ribbons")
    for there, rounds in ((pots(8, 16), 2), (pots(8), 4)):
        book = read(make_book, kitchen, {"greens": greens}, there)
        planned = plan(book, invite("greens"), kitchen)
        note = step(planned, "greens", "cook").note
        assert note.startswith(
            f"8 lb of collards are wilted in {rounds} rounds: raw they fill about 6¼ gal, and the"
        )
        assert planned.notes == (f"Greens: {note}.",)
    book = read(make_book, kitchen, {"greens": greens}, pots(26))
    assert plan(book, invite("greens"), kitchen).notes == ()


def test_greens_of_unknown_bulk_are_not_guessed(make_book: MakeBook, kitchen: Kitchen) -> None:
    nettles = recipe("Soup", course="cook: 10 min in the pot", uses="1 lb nettle tops")
    planned = plan(read(make_book, kitchen, {"soup": nettles}, pots(8)), invite("soup"), kitchen)
    assert planned.notes == (
        "Soup: 2 lb of nettle: how much room they take is not known; add them as they wilt.",
    )


def test_more_than_the_largest_pot_holds(make_book: MakeBook, kitchen: Kitchen) -> None:
    """20 servings take 2 x 6 qt of stock, which is 3 gal."""
    files = {
        "stock": recipe("Stock", makes="3 qt", course="simmer: 4 h in the pot"),
        "soup": recipe("Soup", course="simmer: 1 h in the pot", uses="6 qt [stock](stock.md)"),
    }
    planned = plan(read(make_book, kitchen, files, pots(8)), invite("soup"), kitchen)
    assert planned.notes == ("Stock: 3 gal in 2 rounds or pots: the largest holds 2 gal.",)


def test_stages_of_the_same_recipes_are_one_conflict(make_book: MakeBook, kitchen: Kitchen) -> None:
    """The soup cooks from 16:00 and simmers from 17:00, the beans from 15:00: together from 16:00 to 18:00."""
    files = {
        "soup": recipe("Soup", course="cook: 1 h in the pot; simmer: 1 h in the pot"),
        "beans": recipe("Beans", course="simmer: 3 h in the pot"),
    }
    planned = plan(read(make_book, kitchen, files, pots(8)), invite("soup", "beans"), kitchen)
    assert [message for message, _ in told(planned, "kit-conflict")] == [
        "Beans (simmer) and Soup (cook, simmer) overlap, Sat 5 Dec 16:00–18:00: that takes 2 pots, and there is 1."
    ]
