"""A small book and a gathering of it for the tests of a plan; what is made is counted here, not by the program."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from fractions import Fraction
from pathlib import Path

from generator.build import load_book
from generator.compute import Kitchen, Wish, compute_recipe
from generator.compute.gathering.plan import Schedule, schedule
from generator.model.book import Book
from generator.model.gathering import Capacity, Dish, Gathering, Guests, Invited, OnHand
from generator.model.moment import Moment
from generator.model.plan import Making, Step
from generator.model.recipe import Body, Ingredient, Link
from generator.problems import Position, ProblemLog

AT = Position("gatherings/supper.md")
SATURDAY = datetime(2026, 12, 5, 18)
"Serving."
POUND, QUART = Fraction("453.59237"), Fraction("946.352946")
"[g], [mL] Source: NIST Handbook 44, Appendix C; US liquid quart."
NOTHING_TOLD = Capacity()
MakeBook = Callable[..., Path]


def recipe(name: str, *, course: str, makes: str = "", uses: str = "", extra: str = "") -> str:
    """A recipe's text; a course as `simmer: 3 h; rest: 20 min`."""
    lines = [f"name: {name}", f"makes: {makes}" if makes else "serves: 10", "chapter: Pots"]
    lines += [extra.strip("\n")] if extra else []
    lines += ["ingredients:", *(f"  - {use}" for use in uses.split("; "))] if uses else []
    lines += ["course:", *(f"  - {stage}" for stage in course.split("; "))]
    return "---\n" + "\n".join(lines) + "\n---\n\nDo it.\n"


def read(
    make_book: MakeBook, kitchen: Kitchen, recipes: dict[str, str], capacity: Capacity = NOTHING_TOLD
) -> Book:
    """The book of some recipes, through the program's own reader."""
    files = {f"recipes/{slug}.md": text for slug, text in recipes.items()}
    log = ProblemLog()
    book = load_book(make_book(files), kitchen, log)
    assert book is not None
    assert not log.has_errors, [problem.message for problem in log]
    return replace(book, config=replace(book.config, capacity=capacity))


def smoker(pounds: int) -> Capacity:
    """A kitchen with a smoker."""
    return Capacity(smoker_g=pounds * POUND)


def pots(*quarts: int) -> Capacity:
    """A kitchen with pots."""
    return Capacity(pots_ml=tuple(each * QUART for each in quarts))


def on_hand(slug: str, batches: Fraction | int, place: str) -> tuple[OnHand, str, Fraction]:
    """So many batches of a component."""
    line = Ingredient(id=slug, name=slug, quantity=None, written=slug, position=AT)
    return OnHand(line=line, place=place), slug, Fraction(batches)


def invite(
    *dishes: str,
    at: Moment = SATURDAY,
    work_from: Moment | None = None,
    there: tuple[tuple[OnHand, str, Fraction], ...] = (),
) -> Invited:
    """Twenty guests who eat of every dish."""
    listed = tuple(
        Dish(
            link=Link(text=slug, target=f"../recipes/{slug}.md", position=AT),
            servings=Fraction(20),
            share=None,
        )
        for slug in dishes
    )
    gathering = Gathering(
        slug="supper",
        file=AT.file,
        name="Supper",
        summary="",
        serve_at=at,
        work_from=work_from,
        guests=Guests(adults=20),
        dishes=listed,
        on_hand=tuple(one for one, _, _ in there),
        whole_batches=False,
        body=Body(text="", first_line=1),
        position=AT,
    )
    return Invited(
        gathering=gathering,
        dishes=tuple(zip(listed, dishes, strict=True)),
        components=there,
        ingredients=(),
    )


def makings(book: Book, invited: Invited, kitchen: Kitchen) -> tuple[Making, ...]:
    """Every dish for twenty, every component as often as it is taken, less what is there."""
    made: dict[str, Making] = {}
    dishes = {slug for _, slug in invited.dishes}
    for slug in reversed(book.order):
        one = book.recipes[slug]
        takers = tuple(use for use in book.used_by(slug) if use.dish in made and made[use.dish].batches)
        needed = sum((made[use.dish].batches * use.batches for use in takers), Fraction(0))
        servings = Fraction(20) if slug in dishes else None
        if servings is not None and one.serves is not None:
            needed += servings / one.serves
        if not needed:
            continue
        there = min(needed, sum((b for _, what, b in invited.components if what == slug), Fraction(0)))
        batches = needed - there
        computed = compute_recipe(book, slug, kitchen, Wish(batches=batches or Fraction(1)))
        made[slug] = Making(
            recipe=computed,
            slug=slug,
            servings=servings,
            needed=needed,
            on_hand=there,
            batches=batches,
            amount_g=None,
            green_weight_g=computed.green_weight_g,
            used_by=tuple(dict.fromkeys(use.dish for use in takers)),
        )
    return tuple(made.values())


def plan(book: Book, invited: Invited, kitchen: Kitchen) -> Schedule:
    """The schedule of what is made."""
    return schedule(book, invited, makings(book, invited, kitchen), kitchen)


def steps(planned: Schedule, slug: str) -> list[tuple[str, str, str]]:
    """Stage, start and end of one recipe, by the clock of the place."""
    return [
        (step.stage, f"{step.start:%a %d %H:%M}", f"{step.end:%a %d %H:%M}")
        for step in planned.steps
        if step.slug == slug
    ]


def step(planned: Schedule, slug: str, stage: str) -> Step:
    """The first step of that name."""
    return next(one for one in planned.steps if (one.slug, one.stage) == (slug, stage))


def told(planned: Schedule, slug: str) -> list[tuple[str, str]]:
    """Message and hint of each problem of a slug."""
    return [(one.message, one.hint) for one in planned.problems if one.slug == slug]


__all__ = [
    "SATURDAY",
    "MakeBook",
    "invite",
    "makings",
    "on_hand",
    "plan",
    "pots",
    "read",
    "recipe",
    "smoker",
    "step",
    "steps",
    "told",
]
