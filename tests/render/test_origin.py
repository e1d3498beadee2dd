"""When a recipe is made and whose it is, on its page, on the terminal and in JSON."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from generator.build import kitchen
from generator.model.page import Site
from generator.model.recipe import Question
from generator.model.results import ComputedBook
from generator.model.shown import Shower
from generator.problems import Position
from generator.render.data import sheet_data
from generator.render.season import season_words
from generator.render.text import sheet_text
from tests.render import sample
from tests.render.helpers import BEANS, one, parse, words

OLD = sample.beans(recipe=replace(sample.BEANS, season=(10, 11, 12, 1, 3), origin="Aunt Orla, 1938"))


@pytest.mark.parametrize(
    ("months", "told"),
    [
        ((), ""),
        ((5,), "May"),
        ((5, 6), "May, June"),
        ((5, 6, 7), "May to July"),
        ((10, 11, 12, 1, 3), "October to January, March"),
        ((3, 1), "March, January"),
    ],
)
def test_months_in_a_row_are_told_by_their_ends(months: tuple[int, ...], told: str) -> None:
    assert season_words(months) == told


def test_the_page_says_when_and_whose(render: Callable[[ComputedBook], Site]) -> None:
    head = one(parse(render(sample.book(sample.shank(), OLD)), BEANS), "main header")
    assert "SeasonOctober to January, March" in words(head)
    assert "FromAunt Orla, 1938" in words(head)
    plain = one(parse(render(sample.book(sample.shank(), sample.beans())), BEANS), "main header")
    assert "Season" not in words(plain)
    assert "From" not in words(plain)


def test_the_index_of_tags_has_seasons_and_people_behind_its_letters(
    render: Callable[[ComputedBook], Site],
) -> None:
    site = render(sample.book(sample.shank(), OLD))
    tree = parse(site, "by-tag/index.html")
    titles = [words(tag) for tag in tree.select("main h2")]
    assert titles[-2:] == ["By season", "From"]
    terms = {str(tag["id"]): words(tag) for tag in tree.select("main [id]")}
    months = [id for id in terms if id.startswith("season-")]
    assert months == [
        "season-january",
        "season-march",
        "season-october",
        "season-november",
        "season-december",
    ]
    name = OLD.recipe.name
    assert terms["season-march"] == f"March {name}"
    assert terms["from-aunt-orla-1938"] == f"Aunt Orla, 1938 {name}"
    (link,) = [
        a for a in one(parse(site, BEANS), "main header").find_all("a") if words(a) == "Aunt Orla, 1938"
    ]
    assert link["href"] == "../../by-tag/index.html#from-aunt-orla-1938"
    plain = parse(render(sample.book(sample.shank(), sample.beans())), "by-tag/index.html")
    assert not {"By season", "From"} & {words(tag) for tag in plain.select("main h2")}


def test_terminal_and_json_say_it_too() -> None:
    tables = kitchen().tables
    book = sample.book(sample.shank(), OLD)
    told = sheet_text(OLD, book, "us", Shower(tables.rounding, tables.units))
    assert "\nSeason: October to January, March\nFrom: Aunt Orla, 1938\n" in told
    data = sheet_data(OLD, "us")
    assert (data["season"], data["from"]) == ([10, 11, 12, 1, 3], "Aunt Orla, 1938")
    assert sheet_data(sample.beans(), "us")["from"] is None


def test_what_is_not_answered_yet_stands_on_every_sheet(render: Callable[[ComputedBook], Site]) -> None:
    asked = Question(words="Which spices?", position=Position("recipes/beans.md", 3, 1))
    old = sample.beans(recipe=replace(sample.BEANS, questions=(asked,)))
    tables, book = kitchen().tables, sample.book(sample.shank(), old)
    assert "\n\nNot answered yet\n  Which spices?\n\n" in sheet_text(
        old, book, "us", Shower(tables.rounding, tables.units)
    )
    assert sheet_data(old, "us")["questions"] == [
        {"words": "Which spices?", "file": "recipes/beans.md", "line": 3, "column": 1}
    ]
    assert "Not answered yet Which spices?" in words(parse(render(book), BEANS))


def test_a_range_of_eaters_is_shown_and_counted_by_its_lower_end(
    render: Callable[[ComputedBook], Site],
) -> None:
    tables = kitchen().tables
    ranged = sample.beans(recipe=replace(sample.BEANS, serves_most=sample.BEANS.serves + 2))
    book = sample.book(sample.shank(), ranged)
    head = one(parse(render(book), BEANS), "main header")
    least = sample.BEANS.serves
    assert f"Written for{least}–{least + 2}, counted as {least}" in words(head)
    assert f"written for {least}–{least + 2}" in sheet_text(
        ranged, book, "us", Shower(tables.rounding, tables.units)
    )
    assert "Written for" not in words(
        one(parse(render(sample.book(sample.shank(), sample.beans())), BEANS), "main header")
    )
