"""What holds for every plan: order, moving the date, hours across a change of clocks.

Changes of clocks from the IANA time zone database: Europe/Berlin 2026-10-25 at 01:00 UTC, America/Denver 2026-11-01 at
08:00 UTC, both an hour back.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, time, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import Phase, example, given, settings
from hypothesis import strategies as st

from generator.build import kitchen
from generator.compute.gathering.capacity import check_capacity
from generator.compute.gathering.daylight import by_daylight
from generator.compute.gathering.deadlines import late_starts, past_keep
from generator.compute.gathering.layout import Given, Layout, lay_out
from generator.compute.gathering.moving import bring_together
from generator.compute.gathering.night import nights
from generator.compute.gathering.plan import schedule
from generator.model.book import Book
from generator.model.moment import Moment, later
from generator.model.plan import Step
from generator.problems import ProblemLog
from tests.compute.gathering.supper import invite, makings, plan, read, recipe, smoker, step

STAGES = (
    "thaw: in the fridge",
    "trim: 20 min hands 20 min",
    "rinse",
    "cure: 3–5 days in the fridge",
    "soak: 8–20 h in the fridge",
    "hot smoke: 4–6 h at 200–225 °F in the smoker",
    "simmer: 90 min in the pot",
    "roast: 2 h in the oven",
    "cool",
    "pack: in bags",
    "freeze: in the freezer",
)
KEEPS = ("", "keep:\n  fridge: 1 day\n  freezer: 2 days\n", "keep:\n  fridge: 9 days\n  freezer: 2 months\n")
NAMES = ("a", "b", "c", "d", "e")
MEAT = "meat:\n  animal: elk\n  cut: shank\n  weight: 6 lb\n  pieces: 2\n"
BRINE = "cure:\n  method: brine\n  water: 2 qt\n  salt: 3 %\n"


@st.composite
def books(draw: st.DrawFn) -> dict[str, str]:
    """Components a to c, each taking from earlier ones, and two dishes that take from any."""
    texts = {}
    for number, name in enumerate(NAMES):
        course = draw(st.lists(st.sampled_from(STAGES), min_size=1, max_size=5))
        taken = draw(st.sets(st.sampled_from(NAMES[: min(number, 3)]), max_size=2)) if number else set()
        uses = "; ".join(f"1 [piece of {one}]({one}.md)" for one in sorted(taken))
        is_dish = number >= 3
        extra = ("" if is_dish else MEAT + BRINE) + draw(st.sampled_from(KEEPS))
        texts[name] = recipe(
            f"Recipe {name}",
            makes="" if is_dish else "2 pieces (4 lb)",
            course="; ".join(course),
            uses=uses,
            extra=extra,
        )
    return texts


def in_folder(folder: str) -> Callable[[dict[str, str]], Path]:
    """As the fixture `make_book`, for many books in one test."""

    def make(files: dict[str, str]) -> Path:
        for name, text in {"book.yaml": "title: A book\nchapters: [Pots]\n", **files}.items():
            path = Path(folder) / name
            path.parent.mkdir(exist_ok=True)
            path.write_text(text, encoding="utf-8")
        return Path(folder)

    return make


def book_of(texts: dict[str, str]) -> Book:
    with tempfile.TemporaryDirectory() as folder:
        return read(in_folder(folder), kitchen(), texts, smoker(30))


SERVED = st.datetimes(datetime(2026, 1, 1), datetime(2027, 1, 1)).map(
    lambda moment: moment.replace(second=0, microsecond=0)
)
UNSHRUNK = (Phase.explicit, Phase.reuse, Phase.generate)
"Five recipes do not get small in a reasonable time: what fails is told as it was found."
ZONES = st.sampled_from((None, ZoneInfo("Europe/Berlin"), ZoneInfo("America/Denver")))


def is_for_the_table(step: Step, slug: str) -> bool:
    """A dish that its course leaves in the freezer is thawed to be served."""
    return step.slug == slug and step.index == -1 and step.note.startswith("for the table")


@settings(max_examples=60, phases=UNSHRUNK)
@given(texts=books(), at=SERVED, zone=ZONES, hours=st.none() | st.integers(1, 300))
def test_no_stage_starts_before_what_it_needs_ends(
    texts: dict[str, str], at: Moment, zone: ZoneInfo | None, hours: int | None
) -> None:
    book, served = book_of(texts), at.replace(tzinfo=UTC).astimezone(zone) if zone else at
    work_from = (
        None if hours is None else (served.astimezone(UTC) if zone else served) - timedelta(hours=hours)
    )
    invited = invite("d", "e", at=served, work_from=work_from)
    planned = plan(book, invited, kitchen())
    by_clock = {
        (one.slug, one.index): (_utc(one.start), _utc(one.end)) for one in planned.steps if one.index >= 0
    }
    starts = [_utc(one.start) for one in planned.steps]
    assert starts == sorted(starts)
    made = [making.slug for making in makings(book, invited, kitchen())]
    assert {"d", "e"} <= set(made)
    for slug in made:
        count = len(book.recipes[slug].stages)
        for index in range(count - 1):
            assert by_clock[slug, index][1] == by_clock[slug, index + 1][0]
        if slug in ("d", "e"):
            thawed = [_utc(one.start) for one in planned.steps if is_for_the_table(one, slug)]
            assert by_clock[slug, count - 1][1] == (thawed[0] if thawed else _utc(served))
        for use in book.uses_of(slug):
            needs = by_clock[slug, 0][0]
            ready = by_clock[use.component, len(book.recipes[use.component].stages) - 1][1]
            assert ready <= needs
            for thaw in planned.steps:
                if (thaw.slug, thaw.stage, thaw.index) == (use.component, "thaw", -1):
                    assert _utc(thaw.start) >= ready
                    assert _utc(thaw.end) in takers_of(book, thaw.slug, by_clock)


LENGTHS_MIN = {
    "trim": (20, 20),
    "rinse": (0, 0),
    "cure": (3 * 1440, 5 * 1440),
    "soak": (8 * 60, 20 * 60),
    "hot smoke": (360, 360),
    "simmer": (90, 90),
    "roast": (120, 120),
    "cool": (360, 360),
    "pack": (0, 0),
    "freeze": (1440, 1440),
    "turn": (5, 5),
}
"[min] As written above, the longer end of what does not lie in the fridge. Cooling by FDA Food Code 3-501.14, 6 hours."
CURE_MIN = 6 * 1440
"[min] All cures of a piece together. Purdue University, 1919, heavy pieces: 2 days for each pound, of 3 lb."
THAW_MIN = (1440, 1440 + 600)
"[min] USDA FSIS, The Big Thaw: a day for pieces below 4 lb; sooner by a night at the most."


TAKES_ITS_MAKINGS_INTO_THE_NIGHT = {
    "a": recipe(
        "Recipe a",
        makes="2 pieces (4 lb)",
        course="trim: 20 min hands 20 min; cool; freeze: in the freezer; pack: in bags; thaw: in the fridge",
        extra=MEAT + BRINE + KEEPS[1],
    ),
    "b": recipe(
        "Recipe b",
        makes="2 pieces (4 lb)",
        course="thaw: in the fridge; hot smoke: 4–6 h at 200–225 °F in the smoker",
        extra=MEAT + BRINE,
    ),
    "c": recipe(
        "Recipe c",
        makes="2 pieces (4 lb)",
        course="thaw: in the fridge; roast: 2 h in the oven; simmer: 90 min in the pot; roast: 2 h in the oven",
        uses="1 [piece of a](a.md); 1 [piece of b](b.md)",
        extra=MEAT + BRINE + KEEPS[2],
    ),
    "d": recipe(
        "Recipe d",
        course="simmer: 90 min in the pot; roast: 2 h in the oven",
        uses="1 [piece of a](a.md); 1 [piece of b](b.md)",
    ),
    "e": recipe(
        "Recipe e",
        course="cool; thaw: in the fridge; soak: 8–20 h in the fridge; cure: 3–5 days in the fridge",
        uses="1 [piece of b](b.md); 1 [piece of c](c.md)",
    ),
}
"By a shorter soak dish e gains three nights and c, b and a, which it takes with it, lose eight."


@settings(max_examples=30, phases=UNSHRUNK)
@example(
    texts=TAKES_ITS_MAKINGS_INTO_THE_NIGHT, at=datetime(2027, 1, 1), zone=ZoneInfo("Europe/Berlin"), hours=224
)
@given(texts=books(), at=SERVED, zone=ZONES, hours=st.none() | st.integers(1, 300))
def test_moving_into_the_day_keeps_every_bound(
    texts: dict[str, str], at: Moment, zone: ZoneInfo | None, hours: int | None
) -> None:
    """Against the same plan as late as it may be: no more at night, nothing newly late, kept too long or short of room, no safety clock
    touched; and what is at night still is said in words."""
    book, served = book_of(texts), at.replace(tzinfo=UTC).astimezone(zone) if zone else at
    work_from = None if hours is None else later(served, -60 * hours)
    invited = invite("d", "e", at=served, work_from=work_from)
    listed = makings(book, invited, kitchen())
    made = {one.slug: one for one in listed if one.batches}
    plain = Given(book=book, invited=invited, made=made, kitchen=kitchen())
    together, groups = bring_together(plain)
    before, after = lay_out(plain, together), lay_out(plain, by_daylight(plain, together, groups))
    assert len(nights(plain, after, plain.order)) <= len(nights(plain, before, plain.order))
    assert late_starts(plain, after).keys() <= late_starts(plain, before).keys()
    assert len(short_of_room(plain, after)) <= len(short_of_room(plain, before))
    was_over = past_keep(plain, before)
    assert all(wait <= was_over.get(slug, 0) for slug, wait in past_keep(plain, after).items())
    planned = schedule(book, invited, listed, kitchen())
    dark: set[str] = set()
    cured: dict[str, int] = {}
    for one in planned.steps:
        low, high = THAW_MIN if one.stage == "thaw" else LENGTHS_MIN[one.stage]
        minutes = (_utc(one.end) - _utc(one.start)) // timedelta(minutes=1)
        assert low <= minutes <= high, one
        cured[one.slug] = cured.get(one.slug, 0) + (minutes if one.stage == "cure" else 0)
        if not all(is_day(moment) or moment == served for moment in (one.start, one.end)):
            dark.add(one.slug)
    for slug, minutes in cured.items():
        whole = LENGTHS_MIN["cure"][1] * sum(stage.name == "cure" for stage in book.recipes[slug].stages)
        assert minutes >= (min(CURE_MIN, whole) if book.recipes[slug].meat else whole)
    said = " ".join(note for note in planned.notes if "at night" in note)
    for slug in dark:
        takers = [use.dish for use in book.used_by(slug)]
        assert any(f"{book.recipes[one].name}: " in said for one in (slug, *takers)), slug


def short_of_room(given: Given, layout: Layout) -> ProblemLog:
    log = ProblemLog()
    check_capacity(given, layout, log)
    return log


def is_day(moment: Moment) -> bool:
    return time(7) <= moment.time() <= time(21)


def takers_of(book: Book, slug: str, by_clock: dict[tuple[str, int], tuple[Moment, Moment]]) -> set[Moment]:
    """When each that is made and takes from it begins."""
    return {by_clock[use.dish, 0][0] for use in book.used_by(slug) if (use.dish, 0) in by_clock}


def _utc(moment: Moment) -> Moment:
    return moment.astimezone(UTC) if moment.tzinfo else moment


@settings(max_examples=40, phases=UNSHRUNK)
@given(texts=books(), at=SERVED, days=st.integers(-400, 400), hours=st.none() | st.integers(1, 300))
def test_moving_the_date_moves_every_start_by_as_much(
    texts: dict[str, str], at: Moment, days: int, hours: int | None
) -> None:
    book, by = book_of(texts), timedelta(days=days)
    before, after = (
        plan(
            book,
            invite("d", "e", at=served, work_from=None if hours is None else served - timedelta(hours=hours)),
            kitchen(),
        )
        for served in (at, at + by)
    )
    moved = tuple(replace(one, start=one.start + by, end=one.end + by) for one in before.steps)
    assert moved == after.steps
    assert [one.slug for one in before.problems] == [one.slug for one in after.problems]


@pytest.mark.parametrize(
    ("served", "zone", "begins"),
    [
        # 18:00 CET is 17:00 UTC; 5 days and an hour before it 16:00 UTC is 18:00 CEST
        (datetime(2026, 10, 28, 18), "Europe/Berlin", "2026-10-23 18:00+02:00"),
        # 18:00 MST is 01:00 UTC of the next day; 121 h before it 00:00 UTC is 18:00 MDT of the day before
        (datetime(2026, 11, 4, 18), "America/Denver", "2026-10-30 18:00-06:00"),
    ],
)
def test_a_brine_of_five_days_keeps_its_hours(served: Moment, zone: str, begins: str) -> None:
    """By the clock the cure ends an hour earlier than it began, and 120 hours have passed."""
    texts = {
        "a": recipe(
            "Shank", makes="2 pieces (4 lb)", course="cure: 5 days in the fridge", extra=MEAT + BRINE
        ),
        "d": recipe("Beans", course="simmer: 1 h in the pot", uses="1 [piece](a.md)"),
    }
    at = served.replace(tzinfo=ZoneInfo(zone))
    planned = plan(book_of(texts), invite("d", at=at), kitchen())
    cure = step(planned, "a", "cure")
    assert cure.start.isoformat(" ", "minutes") == begins
    assert cure.end.astimezone(UTC) - cure.start.astimezone(UTC) == timedelta(hours=120)
    assert (cure.start.hour, cure.end.hour) == (18, 17)
    turned = [one.start.astimezone(UTC) for one in planned.steps if one.stage == "turn"]
    assert turned == [cure.start.astimezone(UTC) + timedelta(days=day) for day in (1, 2, 3, 4)]
