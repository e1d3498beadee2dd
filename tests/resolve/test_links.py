"""Percent escapes of an address are read once, and once only: of a picture, of a page and of an ingredient."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.build import check_recipes

Make = Callable[..., Path]
FILES = {
    "photos/half%25.jpg": "x",
    "photos/a b.jpg": "x",
    "recipes/kürbis.md": "---\nname: Mus\nmakes: 2 cups\nchapter: Pots\n---\n\nCook it.\n",
}


def check(make_book: Make, body: str, line: str = "1 onion") -> list[str]:
    """Slugs of all problems of a dish with a picture or link in its method."""
    head = f"---\nname: Dish\nserves: 2\nchapter: Pots\ningredients:\n  - {line}\n---\n\n"
    problems = check_recipes(make_book({**FILES, "recipes/dish.md": f"{head}{body}\n"})).problems
    return [problem.slug for problem in problems]


@pytest.mark.parametrize(
    "body",
    [
        # RFC 3986, 2.4: a percent sign itself is written %25, and nothing is decoded twice
        "![It](../photos/half%2525.jpg)",
        "![It](../photos/a%20b.jpg)",
        "See [it](k%C3%BCrbis.md).",
    ],
)
def test_an_escape_in_the_method_is_read_once(make_book: Make, body: str) -> None:
    assert check(make_book, body) == []


def test_an_escape_that_names_no_file_is_told(make_book: Make) -> None:
    assert check(make_book, "![It](../photos/half%25.jpg)") == ["missing-photo"]


def test_an_escape_in_an_ingredient_is_read(make_book: Make) -> None:
    assert check(make_book, "Cook it.", "1 cup [mus](k%C3%BCrbis.md)") == []


@pytest.mark.parametrize(
    ("makes", "line", "slugs"),
    [
        # A bare count takes the pieces that a batch makes, however its weight is written beside them.
        ("2 heads (2 lb 3 oz)", "1", []),
        ("2 lb 3 oz (2 heads)", "1", []),
        ("2 heads", "1 head", []),
        ("2 heads", "1 clove", ["wrong-dimension"]),
        ("2 cups", "1", ["wrong-dimension"]),
    ],
)
def test_a_count_is_compared_with_what_a_batch_makes(
    make_book: Make, makes: str, line: str, slugs: list[str]
) -> None:
    component = f"---\nname: Kraut\nmakes: {makes}\nchapter: Pots\n---\n\nCook it.\n"
    head = f"---\nname: Dish\nserves: 2\nchapter: Pots\ningredients:\n  - {line} [kraut](kraut.md)\n---\n\n"
    files = {"recipes/kraut.md": component, "recipes/dish.md": f"{head}Cook it.\n"}
    assert [problem.slug for problem in check_recipes(make_book(files)).problems] == slugs
