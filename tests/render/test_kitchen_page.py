"""What the page gives the script of the kitchen: lengths for timers, kinds of paper, the page's address."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest
from bs4 import BeautifulSoup

from generator.model.page import Site
from generator.model.quantity import Span
from generator.model.results import ComputedBook
from generator.render import Theme, render_sheet
from generator.render.course import timer_minutes
from tests.render import sample
from tests.render.helpers import BEANS, SHANK, one, parse

Read = Callable[[str], BeautifulSoup]
Render = Callable[[ComputedBook], Site]


@pytest.mark.parametrize(
    ("span", "expected"),
    [
        (None, ""),
        (Span.of(60), "60"),
        (Span(Fraction(300), Fraction(360)), "300-360"),
        (Span.of(Fraction(3, 2)), "1.5"),
        (Span.of(Fraction(1, 6)), "0.17"),
        (Span.of(1440), "1440"),
        (Span.of(1441), ""),
        (Span(Fraction(720), Fraction(2880)), ""),
        (Span.of(0), ""),
    ],
)
def test_timer_is_for_lengths_up_to_a_day(span: Span | None, expected: str) -> None:
    assert timer_minutes(span) == expected


def test_length_of_a_stage_carries_its_minutes(read: Read) -> None:
    lengths = read(SHANK).select(".stages .length")
    assert [(tag.get_text(), tag.get("data-minutes")) for tag in lengths] == [
        ("6 days", None),
        ("2 h", "120"),
        ("5–6 h", "300-360"),
    ]


def test_small_card_is_not_offered_for_a_cure(read: Read) -> None:
    papers = {
        path: [tag["value"] for tag in read(path).select("select.paper option")] for path in (SHANK, BEANS)
    }
    assert papers == {SHANK: ["page", "a5"], BEANS: ["page", "a5", "card"]}


def test_controls_are_hidden_until_the_script_runs(site: Site) -> None:
    for page in site.pages:
        tree = BeautifulSoup(page.html, "html.parser")
        is_recipe = page.path.startswith("recipes/")
        scripts = tree.select('script[src$="/kitchen.js"][defer]')
        assert len(scripts) == len(tree.select(".kitchen[hidden]")) == is_recipe, page.path
        assert not tree.select(".tick, .timer"), page.path
        assert not [tag for tag in tree.find_all(["button", "select"]) if not tag.find_parent(hidden=True)]


def test_print_names_the_address_of_the_page_where_the_book_has_one(render: Render, read: Read) -> None:
    assert one(read(SHANK), ".printed").get_text() == ""
    site = render(sample.book(address="https://example.org/book/"))
    assert one(parse(site, SHANK), ".printed").get_text() == f"https://example.org/book/{SHANK}"


def test_sheet_that_stands_alone_has_no_controls(theme: Theme) -> None:
    html = render_sheet(sample.sheet(theme), sample.shank())
    assert not BeautifulSoup(html, "html.parser").select("script, .kitchen, .printed, button, select")


@pytest.mark.parametrize(("paper", "layout", "chosen"), [("letter", None, []), ("a5", "a5", ["a5"])])
def test_a_book_on_half_a_page_begins_with_that_choice(
    render: Render, paper: str, layout: str | None, chosen: list[str]
) -> None:
    """The pages of the site take the paper that is in the printer, unless the book asks for half of it."""
    tree = parse(render(sample.book(paper=paper)), BEANS)
    assert one(tree, "html").get("data-paper") == layout
    assert [tag["value"] for tag in tree.select("select.paper option[selected]")] == chosen
    assert not tree.select("style")
