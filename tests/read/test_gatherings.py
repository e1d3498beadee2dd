"""Files of gatherings/ in, gatherings out: a whole one, what may be left out, and clocks of its two moments."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta, timezone
from fractions import Fraction
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from generator.model.gathering import Gathering, Guests
from generator.model.quantity import Dimension
from generator.problems import Position, ProblemLog
from generator.read import read_book
from generator.tables import Tables

MakeBook = Callable[..., Path]

WHOLE = """---
name: Supper for thirty-five
summary: Beans, greens and bread.
date: 2026-12-05 17:30 America/Denver   # serving time
work from: 2026-11-28 07:00
guests: {adults: 29, children: 6, child share: 1/3}
dishes:
  - all guests [Pinto beans](../recipes/pinto-beans.md)
  - 60 % of guests [Collards](../recipes/coll%C3%A1rds.md)
  - 24 servings [Cornbread](../recipes/cornbread.md)
  - 1 serving [Plain beans](../recipes/plain-beans.md)
on hand:
  - 2 [smoked elk shanks](../recipes/smoked-elk-shank.md), in the freezer
  - 2 lb dry pinto beans
  - 1 lb bacon, sliced, in the fridge
  - 3 lb dry pinto beans, on the shelf
whole batches: yes
draft: true
---

## Who does what

[Collards](../recipes/collards.md) are washed outside.
"""
PLAIN = """---
name: Lunch
date: 2026-12-05 12:00
guests: 8
dishes:
  - all guests [Beans](../recipes/beans.md)
---
"""


def read(folder: Path, tables: Tables) -> tuple[tuple[Gathering, ...], ProblemLog]:
    log = ProblemLog()
    manuscript = read_book(folder, tables, log)
    assert manuscript is not None
    return manuscript.gatherings, log


def only(folder: Path, tables: Tables) -> Gathering:
    """The one gathering of a book without a problem."""
    (gathering,), log = read(folder, tables)
    assert log.sorted() == ()
    return gathering


def test_a_whole_gathering(make_book: MakeBook, tables: Tables) -> None:
    gathering = only(make_book({"gatherings/supper.md": WHOLE}), tables)
    assert (gathering.slug, gathering.file) == ("supper", "gatherings/supper.md")
    assert (gathering.name, gathering.summary) == ("Supper for thirty-five", "Beans, greens and bread.")
    zone = ZoneInfo("America/Denver")
    assert gathering.serve_at == datetime(2026, 12, 5, 17, 30, tzinfo=zone)
    assert gathering.work_from == datetime(2026, 11, 28, 7, 0, tzinfo=zone)
    assert gathering.guests == Guests(adults=29, children=6, child_share=Fraction(1, 3))
    assert gathering.guests.helpings == 31  # 29 and a third of 6
    assert (gathering.whole_batches, gathering.draft) == (True, True)
    assert [link.target for link in gathering.body.links] == ["../recipes/collards.md"]


def test_dishes_of_a_gathering(make_book: MakeBook, tables: Tables) -> None:
    gathering = only(make_book({"gatherings/supper.md": WHOLE}), tables)
    assert [(dish.link.text, dish.link.target, dish.servings, dish.share) for dish in gathering.dishes] == [
        ("Pinto beans", "../recipes/pinto-beans.md", None, 1),
        ("Collards", "../recipes/collárds.md", None, Fraction(3, 5)),
        ("Cornbread", "../recipes/cornbread.md", 24, None),
        ("Plain beans", "../recipes/plain-beans.md", 1, None),
    ]
    assert gathering.dishes[1].link.position == Position("gatherings/supper.md", 9, 20)


def test_what_is_on_hand(make_book: MakeBook, tables: Tables) -> None:
    gathering = only(make_book({"gatherings/supper.md": WHOLE}), tables)
    assert [(one.line.name, one.line.preparation, one.place) for one in gathering.on_hand] == [
        ("smoked elk shanks", "", "freezer"),
        ("dry pinto beans", "", ""),
        ("bacon", "sliced", "fridge"),
        ("dry pinto beans", "", "shelf"),
    ]
    shanks = gathering.on_hand[0].line
    assert shanks.link is not None
    assert shanks.link.target == "../recipes/smoked-elk-shank.md"
    assert shanks.quantity is not None
    total = shanks.quantity.total(Dimension.COUNT)
    assert total is not None
    assert total.low == 2


@pytest.mark.parametrize(
    ("line", "preparation", "place"),
    [
        ("2 lb walnuts, in the shell", "in the shell", ""),
        ("1 lb trout, in a vacuum bag, in the freezer", "in a vacuum bag", "freezer"),
        ("2 lb beans, In the Fridge", "", "fridge"),
    ],
)
def test_words_that_are_no_place_stay_words(
    make_book: MakeBook, tables: Tables, line: str, preparation: str, place: str
) -> None:
    text = PLAIN.replace("dishes:", f"on hand:\n  - {line}\ndishes:")
    (one,) = only(make_book({"gatherings/lunch.md": text}), tables).on_hand
    assert (one.line.preparation, one.place) == (preparation, place)


def test_what_may_be_left_out(make_book: MakeBook, tables: Tables) -> None:
    gathering = only(make_book({"gatherings/lunch.md": PLAIN}), tables)
    assert gathering.serve_at == datetime(2026, 12, 5, 12, 0)
    assert gathering.work_from is None
    assert gathering.guests == Guests(adults=8)
    assert gathering.guests.child_share == Fraction(1, 2)
    assert (gathering.summary, gathering.on_hand) == ("", ())
    assert (gathering.whole_batches, gathering.draft) == (False, False)


@pytest.mark.parametrize(
    ("guests", "helpings"),
    [("{adults: 4}", 4), ("{adults: 0, children: 6}", 3), ("{adults: 1, children: 3, child share: 0.25}", Fraction(7, 4))],
)  # fmt: skip
def test_guests_by_their_keys(make_book: MakeBook, tables: Tables, guests: str, helpings: Fraction) -> None:
    text = PLAIN.replace("guests: 8", f"guests: {guests}")
    assert only(make_book({"gatherings/lunch.md": text}), tables).guests.helpings == helpings


DENVER = ZoneInfo("America/Denver")
CLOCKS = [
    # a start without a zone is told by the clock of the date; where it has its own, by that
    ("2026-12-05 17:30 America/Denver", "2026-12-01 07:00", datetime(2026, 12, 1, 7, 0, tzinfo=DENVER)),
    ("2026-12-05 17:30 America/Denver", "2026-12-01 14:00Z", datetime(2026, 12, 1, 14, 0, tzinfo=UTC)),
    ("2026-12-05 17:30Z", "2026-12-01 07:00", datetime(2026, 12, 1, 7, 0, tzinfo=UTC)),
    (
        "2026-12-05 17:30-07:00",
        "2026-12-01 07:00",
        datetime(2026, 12, 1, 7, 0, tzinfo=timezone(timedelta(hours=-7))),
    ),
    # the clock goes back between them: 01:45 in summer time is before 01:30 in winter time
    (
        "2026-11-01 01:30-07:00 America/Denver",
        "2026-11-01 01:45-06:00 America/Denver",
        datetime(2026, 11, 1, 7, 45, tzinfo=UTC),
    ),
]


@pytest.mark.parametrize(("date", "work_from", "expected"), CLOCKS)
def test_work_from_goes_by_the_clock_of_the_date(
    make_book: MakeBook, tables: Tables, date: str, work_from: str, expected: datetime
) -> None:
    text = PLAIN.replace("date: 2026-12-05 12:00", f"date: {date}\nwork from: {work_from}")
    gathering = only(make_book({"gatherings/lunch.md": text}), tables)
    assert gathering.work_from is not None
    assert gathering.work_from.astimezone(UTC) == expected.astimezone(UTC)


def test_a_gathering_with_an_error_is_named_as_unread(make_book: MakeBook, tables: Tables) -> None:
    log = ProblemLog()
    broken = PLAIN.replace("guests: 8", "guests: eight")
    folder = make_book({"gatherings/lunch.md": broken, "gatherings/supper.md": PLAIN})
    manuscript = read_book(folder, tables, log)
    assert manuscript is not None
    assert manuscript.unread == ("gatherings/lunch.md",)
    assert [gathering.slug for gathering in manuscript.gatherings] == ["supper"]
    assert [problem.slug for problem in log] == ["wrong-value"]


def test_all_slips_of_a_gathering_are_told_at_once(make_book: MakeBook, tables: Tables) -> None:
    text = "---\ndate: 2026-12-05\nguests: many\ndishes:\n  - beans\non hand:\n  - salt\n---\n"
    gatherings, log = read(make_book({"gatherings/lunch.md": text}), tables)
    assert gatherings == ()
    assert [problem.slug for problem in log.sorted()] == [
        "missing-key",
        "unreadable-moment",
        "wrong-value",
        "unreadable-dish",
        "wrong-dimension",
    ]
