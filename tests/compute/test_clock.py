"""Clock times of a course, worked by hand. Changes of clocks from the IANA time zone database, release 2025:

Europe/Berlin goes from CEST (+02:00) to CET (+01:00) on 2026-10-25 at 01:00 UTC and back on 2026-03-29 at 01:00 UTC;
America/Denver goes from MDT (-06:00) to MST (-07:00) on 2026-11-01 at 08:00 UTC.
"""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest

from generator.compute.clock import is_timed, latest_start, times_from, times_until, uncounted
from generator.model.moment import StageTime
from generator.model.quantity import Span
from generator.model.recipe import Body, ReadCourse, Recipe, Stage
from generator.problems import Position

BERLIN, DENVER = ZoneInfo("Europe/Berlin"), ZoneInfo("America/Denver")
HOUR = 60


def stage(
    name: str, low: Fraction | int | None = None, high: Fraction | int | None = None, **rest: Span
) -> Stage:
    """Lengths in minutes."""
    length = None if low is None else Span(Fraction(low), Fraction(low if high is None else high))
    return Stage(name=name, minutes=length, written=name, position=Position("recipes/x.md"), **rest)  # type: ignore[arg-type]  # any field


def shown(times: tuple[StageTime, ...]) -> list[tuple[str, ...]]:
    """Stage, earliest and latest start, earliest and latest end."""
    return [
        (one.stage, *(end.isoformat(" ", "minutes") for end in (
            one.start.earliest, one.start.latest, one.end.earliest, one.end.latest
        )))
        for one in times
    ]  # fmt: skip


COURSE = (
    stage("thaw"),
    stage("cure", 2 * 24 * HOUR),
    stage("dry", 90),
    stage("hot smoke", 5 * HOUR, 6 * HOUR),
    stage("cool", 2 * HOUR),
)


def test_forwards_a_range_opens_a_window_that_stays_open() -> None:
    """Two days after Saturday 08:00 is Monday 08:00; 1 h 30 min later 09:30; 5 to 6 h later 14:30 to 15:30; 2 h on."""
    assert shown(times_from(COURSE, datetime(2026, 12, 5, 8))) == [
        ("thaw", *["2026-12-05 08:00"] * 4),
        ("cure", *["2026-12-05 08:00"] * 2, *["2026-12-07 08:00"] * 2),
        ("dry", *["2026-12-07 08:00"] * 2, *["2026-12-07 09:30"] * 2),
        ("hot smoke", *["2026-12-07 09:30"] * 2, "2026-12-07 14:30", "2026-12-07 15:30"),
        ("cool", "2026-12-07 14:30", "2026-12-07 15:30", "2026-12-07 16:30", "2026-12-07 17:30"),
    ]


def test_backwards_takes_the_longer_ends_so_that_nobody_is_late() -> None:
    """48 + 1.5 + 6 + 2 = 57.5 h before Saturday 18:00 is Thursday 08:30; with the short smoke it is ready at 17:00."""
    ready = datetime(2026, 12, 5, 18)
    assert latest_start(COURSE, ready) == datetime(2026, 12, 3, 8, 30)
    last = times_until(COURSE, ready)[-1]
    assert (last.end.earliest, last.end.latest) == (datetime(2026, 12, 5, 17), ready)


def test_a_stage_without_a_length_takes_no_time_and_says_so() -> None:
    first = times_from(COURSE, datetime(2026, 12, 5, 8))[0]
    assert first.start == first.end
    assert first.note == "no length is written"
    assert uncounted((*COURSE, stage("pack"))) == ("thaw", "pack")
    assert {one.note for one in times_from(COURSE, datetime(2026, 12, 5, 8))[1:]} == {""}


def test_work_is_counted_where_only_that_is_written() -> None:
    trim = stage("trim", hands_minutes=Span.of(45))
    (one,) = times_from((trim,), datetime(2026, 12, 5, 8))
    assert one.end.latest == datetime(2026, 12, 5, 8, 45)
    assert one.note == "no length is written: only its work is counted"
    assert uncounted((trim,)) == ("trim",)


def test_parts_of_a_minute_never_make_one_late() -> None:
    """A seventh of an hour is 8 4/7 min: 8 at the least, 9 at the most."""
    (one,) = times_from((stage("rest", Fraction(60, 7)),), datetime(2026, 12, 5, 8))
    assert (one.end.earliest.minute, one.end.latest.minute) == (8, 9)
    assert latest_start((stage("rest", Fraction(60, 7)),), datetime(2026, 12, 5, 8)).minute == 51


@pytest.mark.parametrize(
    ("start", "hours", "end"),
    [
        # 20:00 CEST is 18:00 UTC; 12 h later 06:00 UTC is 07:00 CET
        (datetime(2026, 10, 24, 20, tzinfo=BERLIN), 12, "2026-10-25 07:00+01:00"),
        # 00:30 CEST is 22:30 UTC; 2 h later 00:30 UTC is still CEST, 3 h later 01:30 UTC is CET: 02:30 twice
        (datetime(2026, 10, 25, 0, 30, tzinfo=BERLIN), 2, "2026-10-25 02:30+02:00"),
        (datetime(2026, 10, 25, 0, 30, tzinfo=BERLIN), 3, "2026-10-25 02:30+01:00"),
        # 22:00 CET is 21:00 UTC; 6 h later 03:00 UTC is 05:00 CEST
        (datetime(2026, 3, 28, 22, tzinfo=BERLIN), 6, "2026-03-29 05:00+02:00"),
        # 22:00 MDT is 04:00 UTC; 6 h later 10:00 UTC is 03:00 MST
        (datetime(2026, 10, 31, 22, tzinfo=DENVER), 6, "2026-11-01 03:00-07:00"),
        # without a zone there is no change of clocks
        (datetime(2026, 10, 31, 22), 6, "2026-11-01 04:00"),
    ],
)
def test_hours_are_hours_across_a_change_of_clocks(start: datetime, hours: int, end: str) -> None:
    (one,) = times_from((stage("hot smoke", hours * HOUR),), start)
    assert one.end.latest.isoformat(" ", "minutes") == end


def test_backwards_across_a_change_of_clocks() -> None:
    """08:00 MST is 15:00 UTC; 12 h before it 03:00 UTC is 21:00 MDT of the day before."""
    start = latest_start((stage("cure", 12 * HOUR),), datetime(2026, 11, 1, 8, tzinfo=DENVER))
    assert start.isoformat(" ", "minutes") == "2026-10-31 21:00-06:00"


def test_the_same_reading_of_the_clock_an_hour_later_is_a_range() -> None:
    (one,) = times_from((stage("rest", 2 * HOUR, 3 * HOUR),), datetime(2026, 10, 25, 0, 30, tzinfo=BERLIN))
    assert one.end.earliest.replace(tzinfo=None) == one.end.latest.replace(tzinfo=None, fold=0)
    assert one.end.is_range


@pytest.mark.parametrize(
    ("lengths", "read", "timed"),
    [
        ([None], None, True),
        ([], None, False),
        ([60], True, True),
        ([60, None], True, False),
        ([60], False, False),
        ([], True, False),
    ],
)
def test_a_course_that_was_read_is_timed_where_every_length_is_told(
    lengths: list[int | None], read: bool | None, timed: bool
) -> None:
    """`read`: None, the author's own; else whether the method tells no length besides."""
    at = Position("recipes/x.md")
    recipe = Recipe(
        slug="x",
        file="recipes/x.md",
        name="X",
        stages=tuple(stage("roast", length) for length in lengths),
        body=Body(text="", first_line=1),
        position=at,
        read_course=None if read is None else ReadCourse(unread=(), is_whole=read),
    )
    assert is_timed(recipe) is timed
