"""Gatherings with their links followed: recipes by slug, batches that are there, order, links from and to them."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from generator.model.book import Book
from generator.problems import ProblemLog
from generator.read import read_book
from generator.resolve import resolve_book
from generator.tables import Tables

Make = Callable[..., Path]
BEANS = "---\nname: Beans\nserves: 8\nchapter: Pots\n---\n\nFor [the supper](../gatherings/b-supper.md).\n"
SHANK = "---\nname: Shank\nmakes: 4–5 shanks (3 lb)\nchapter: Pots\n---\n\nSmoke it.\n"
RECIPES = {"recipes/beans.md": BEANS, "recipes/shank.md": SHANK}


def supper(date: str = "2026-12-05 17:30", rest: str = "", body: str = "") -> str:
    dishes = "dishes:\n  - all guests [Beans](../recipes/beans.md)\n"
    return f"---\nname: Supper\ndate: {date}\nguests: 8\n{dishes}{rest}---\n\n{body}"


def resolve(folder: Path, tables: Tables) -> tuple[Book, ProblemLog]:
    log = ProblemLog()
    manuscript = read_book(folder, tables, log)
    assert manuscript is not None
    return resolve_book(manuscript, log), log


@pytest.fixture
def book(make_book: Make, tables: Tables) -> Callable[..., Book]:
    """The book of some files, in which nothing is wrong."""

    def make(files: dict[str, str]) -> Book:
        found, log = resolve(make_book({**RECIPES, "gatherings/b-supper.md": supper(), **files}), tables)
        assert log.sorted() == ()
        return found

    return make


def test_dishes_and_what_is_on_hand_are_followed(book: Callable[..., Book]) -> None:
    there = "on hand:\n  - 2 [shanks](../recipes/shank.md), in the freezer\n  - 2 lb beans\n"
    (invited,) = book({"gatherings/b-supper.md": supper(rest=there)}).gatherings
    assert [(dish.link.text, slug) for dish, slug in invited.dishes] == [("Beans", "beans")]
    ((one, slug, batches),) = invited.components
    assert (one.place, slug) == ("freezer", "shank")
    assert batches == Fraction(
        1, 2
    )  # 2 of the 4 that a batch makes at least, as a dish that takes 2 counts them
    assert [one.line.name for one in invited.ingredients] == ["beans"]


@pytest.mark.parametrize(
    ("line", "batches"),
    [
        ("1–3 [shanks](../recipes/shank.md)", Fraction(1, 4)),  # no more than one is sure to be there
        ("24 oz [shank](../recipes/shank.md)", Fraction(1, 2)),  # 16 oz are 1 lb
    ],
)
def test_only_what_is_sure_is_on_hand(book: Callable[..., Book], line: str, batches: Fraction) -> None:
    (invited,) = book({"gatherings/b-supper.md": supper(rest=f"on hand:\n  - {line}\n")}).gatherings
    assert [found for _, _, found in invited.components] == [batches]


def test_gatherings_stand_by_date_then_slug(book: Callable[..., Book]) -> None:
    found = book(
        {
            "gatherings/a.md": supper("2026-12-06 12:00 Europe/Berlin"),
            "gatherings/z.md": supper("2026-11-01 12:00"),
            "gatherings/c.md": supper("2026-12-05 17:30"),
        }
    )
    assert [invited.gathering.slug for invited in found.gatherings] == ["z", "b-supper", "c", "a"]


def test_recipes_pages_and_gatherings_link_to_a_gathering(book: Callable[..., Book]) -> None:
    page = "---\nname: News\n---\n\nCome to [it](../gatherings/b-supper.md).\n"
    lunch = supper(
        body="After [the supper](b-supper.md), with [beans](../recipes/beans.md) and [news](../pages/news.md).\n"
    )
    assert len(book({"pages/news.md": page, "gatherings/lunch.md": lunch}).gatherings) == 2


def test_a_draft_may_invite_a_draft(book: Callable[..., Book]) -> None:
    draft = SHANK.replace("makes", "draft: true\nserves: 4\nmakes")
    there = "  - 2 servings [Shank](../recipes/shank.md)\ndraft: true\n"
    (invited,) = book({"recipes/shank.md": draft, "gatherings/b-supper.md": supper(rest=there)}).gatherings
    assert [slug for _, slug in invited.dishes] == ["beans", "shank"]


def test_a_gathering_with_a_wrong_link_is_left_out_and_the_others_stay(
    make_book: Make, tables: Tables
) -> None:
    wrong = supper(rest="on hand:\n  - 1 [shank](../recipes/shnk.md)\n")
    files = {**RECIPES, "gatherings/b-supper.md": supper(), "gatherings/a.md": wrong}
    found, log = resolve(make_book(files), tables)
    assert [problem.slug for problem in log] == ["unknown-link"]
    assert [invited.gathering.slug for invited in found.gatherings] == ["b-supper"]
    assert set(found.recipes) == {"beans", "shank"}
