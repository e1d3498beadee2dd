"""A plan for the tests of pages, every record of it SET BY HAND: amounts, times and problems are not worked out.

Recipes are those of the demo book, so that cards and cures have something to show. Two dishes take from one smoked
component, the one of them through a stock: three deep. Steps from Sunday to Saturday run across midnights.
"""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from generator.build import kitchen, load_book
from generator.compute import Wish, compute_recipe
from generator.model.book import Book
from generator.model.gathering import Dish, Gathering, Guests, Invited
from generator.model.plan import Item, Making, Plan, Step
from generator.model.quantity import Span
from generator.model.recipe import Body, Link
from generator.model.results import ComputedBook, Shown
from generator.problems import Position, Problem, ProblemLog
from generator.render import Theme, make_context
from generator.render.context import Context
from generator.tables import load_tables

DEMO = Path(__file__).parents[2] / "content"
SHANK, STOCK = "smoked-elk-shank", "smoked-shank-stock"
BEANS, COLLARDS = "pinto-beans-with-smoked-shank", "collards-in-smoked-stock"
AT = Position("gatherings/supper.md", 6, 1)
DENVER = ZoneInfo("America/Denver")


def at(day: int, clock: str, month: int = 12) -> datetime:
    """`at(5, "17:30")`: in December 2026, in Denver."""
    hour, minute = clock.split(":")
    return datetime(2026, month, day, int(hour), int(minute), tzinfo=DENVER)


@cache
def demo_book() -> Book:
    found = load_book(DEMO, kitchen(), ProblemLog())
    assert found is not None
    return found


@cache
def sample_book() -> ComputedBook:
    """The four recipes of the plan as written; the rest of the demo book stays away."""
    book = demo_book()
    kept = {slug: compute_recipe(book, slug, kitchen()) for slug in (SHANK, STOCK, BEANS, COLLARDS)}
    return ComputedBook(book=book, recipes=kept)


def making(slug: str, batches: Fraction, **rest: Any) -> Making:
    fields = {"servings": None, "needed": batches, "on_hand": Fraction(0), "amount_g": None} | rest
    fields.setdefault("green_weight_g", None)
    fields.setdefault("used_by", ())
    recipe = compute_recipe(demo_book(), slug, kitchen(), Wish(batches=batches))
    return Making(recipe=recipe, slug=slug, batches=batches, **fields)


def step(slug: str, stage: str, index: int, start: datetime, end: datetime, hands: int, **rest: str) -> Step:
    place, note = rest.get("place", ""), rest.get("note", "")
    return Step(
        slug=slug, stage=stage, index=index, start=start, end=end, hands_on_min=hands, place=place, note=note
    )


def same(text: str) -> Shown:
    return Shown(us=text, metric=text, imperial=text)


GATHERING = Gathering(
    slug="supper",
    file="gatherings/supper.md",
    name="Supper for thirty-five",
    summary="Beans and greens after the last hunt.",
    serve_at=at(5, "17:30"),
    work_from=None,
    guests=Guests(adults=29, children=6),
    dishes=(
        Dish(link=Link(text="Pinto beans", target="x", position=AT), servings=None, share=Fraction(1)),
        Dish(link=Link(text="Collards", target="x", position=AT), servings=Fraction(24), share=None),
    ),
    on_hand=(),
    whole_batches=False,
    body=Body(
        text="# The evening\n\nSet the tables in the barn. See [the beans](../recipes/pinto-beans-with-smoked-shank.md).\n",
        first_line=14,
    ),
    position=AT,
)

STEPS = (
    step(SHANK, "thaw", 0, at(29, "08:00", 11), at(30, "17:00", 11), 10, place="in the fridge"),
    step(SHANK, "trim", 1, at(30, "17:00", 11), at(30, "17:20", 11), 20),
    step(SHANK, "cure", 2, at(30, "17:20", 11), at(4, "06:30"), 30, place="in the fridge"),
    step(SHANK, "rinse", 3, at(4, "06:30"), at(4, "06:30"), 15, note="no length is written"),
    step(SHANK, "dry", 4, at(4, "06:30"), at(4, "08:30"), 0, place="on a rack"),
    step(SHANK, "hot smoke", 5, at(4, "08:30"), at(4, "14:30"), 30, note="in one smoke of 28 lb"),
    step(STOCK, "simmer", 1, at(4, "15:00"), at(4, "20:00"), 30, place="in the pot"),
    step(STOCK, "cool", 2, at(4, "20:00"), at(4, "22:00"), 20, place="in cold water"),
    step(BEANS, "soak", 1, at(4, "22:00"), at(5, "10:00"), 10, place="in cold water"),
    step(BEANS, "simmer", 2, at(5, "13:50"), at(5, "16:50"), 20, place="in the pot"),
    step(COLLARDS, "trim", 1, at(5, "14:00"), at(5, "15:00"), 60, note="in three rounds"),
    step(COLLARDS, "simmer", 3, at(5, "16:00"), at(5, "17:15"), 10, place="in the pot"),
    step(BEANS, "rest", 3, at(5, "16:50"), at(5, "17:10"), 0),
)


@cache
def sample_plan() -> Plan:
    """Set by hand; see the top of the file."""
    dishes = tuple(zip(GATHERING.dishes, (BEANS, COLLARDS), strict=True))
    return Plan(
        invited=Invited(gathering=GATHERING, dishes=dishes, components=(), ingredients=()),
        makings=(
            making(BEANS, Fraction(8, 3), servings=Fraction(32)),
            making(COLLARDS, Fraction(3), servings=Fraction(24)),
            making(
                STOCK,
                Fraction(9, 8),
                amount_g=Span.of(4258),
                used_by=(COLLARDS,),
            ),
            making(
                SHANK,
                Fraction(1),
                needed=Fraction(59, 48),
                on_hand=Fraction(1, 2),
                amount_g=Span(Fraction(2150), Fraction(2160)),
                green_weight_g=Fraction(2721),
                used_by=(BEANS, STOCK),
            ),
        ),
        shopping=(
            Item(
                name="dry pinto beans",
                place="shop",
                grams=Span.of(1814),
                shown=same("4 lb"),
                needed_for=(BEANS,),
            ),
            Item(
                name="elk fore shanks, raw",
                place="freezer",
                grams=Span.of(2721),
                shown=same("6 lb"),
                needed_for=(SHANK,),
            ),
            Item(
                name="collards",
                place="garden",
                grams=Span(Fraction(9000), Fraction(9600)),
                shown=same("20 lb"),
                needed_for=(COLLARDS,),
                note="43 % of the weight is stems",
            ),
            Item(
                name="juniper berries",
                place="woods",
                grams=None,
                shown=same("1 tbsp"),
                needed_for=(SHANK,),
            ),
            Item(
                name="smoked elk shanks",
                place="smokehouse shelf",
                grams=None,
                shown=same("2"),
                needed_for=(BEANS, STOCK),
            ),
            Item(
                name="curing salt no. 1",
                place="shop",
                grams=Span.of(Fraction(149, 10)),
                shown=same("14.9 g"),
                needed_for=(SHANK,),
            ),
        ),
        steps=STEPS,
        problems=(
            Problem(
                slug="out-of-range",
                message="The brine of Smoked elk shank is 2 days short.",
                hint="Begin by Fri 27 Nov 17:20, take two shanks from the freezer, or cook another dish.",
                position=AT,
            ),
            Problem(
                slug="below-120",
                message="Two pots are wanted at 16:00 and one holds the greens.",
                hint="Wilt the greens in three rounds.",
                position=AT,
            ),
        ),
        notes=("¼ of one batch of smoked elk shank is left over.",),
    )


def sample_sheet(theme: Theme, units: str = "us") -> Context:
    """What the document of the plan is made from."""
    plans = (sample_plan(),)
    return make_context(sample_book(), tables=load_tables(), theme=theme, plans=plans, sheet_units=units)
