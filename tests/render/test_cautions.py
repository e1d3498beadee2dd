"""Boxes of a recipe: DANGER and WARNING stand alone, NOTICEs are one box; what made a box has its place (ANSI Z535)."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.build import check_recipes
from generator.cli import main
from generator.model.results import ComputedRecipe
from generator.render.cautions import box_views, boxes_of, caution_lines
from generator.render.data import caution_data

MakeBook = Callable[..., Path]

DUCK = """---
name: Ducks and nettles
serves: 4
chapter: Pots
meat:
  animal: mallard
  weight: 4 lb
ingredients:
  - 2 cups nettle tops
course:
  - roast: 1 h at 325 °F to 165 °F inside
---

Roast them.
"""


@pytest.fixture
def duck(make_book: MakeBook) -> ComputedRecipe:
    (computed,) = check_recipes(make_book({"recipes/duck.md": DUCK})).recipes
    return computed


def test_notices_are_one_box_and_warnings_never_are(duck: ComputedRecipe) -> None:
    boxes = boxes_of(duck)
    signals = [box[0].signal for box in boxes]
    assert signals.count("NOTICE") == 1
    assert {one.slug for one in boxes[-1]} >= {"waterfowl-advice", "nettle"}
    assert all(len(box) == 1 for box in boxes if box[0].signal != "NOTICE")
    assert [one.slug for box in boxes for one in box] == [one.slug for one in duck.cautions]


def test_each_rule_of_the_one_box_keeps_its_words_and_reason(duck: ComputedRecipe) -> None:
    shown = [rule for stage in (None, 0) for box in box_views(duck, stage) for rule in box.rules]
    assert sorted(rule.caution.slug for rule in shown) == sorted(one.slug for one in duck.cautions)
    assert all(rule.reason for rule in shown)


def test_what_made_a_box_is_told_with_file_line_and_column(duck: ComputedRecipe) -> None:
    lines = list(caution_lines([duck]))
    at = next(number for number, line in enumerate(lines) if "[nettle]" in line)
    assert lines[at + 1] == "  recipes/duck.md:9:5: line: 2 cups nettle tops"
    for one in duck.cautions:
        assert caution_data(one)["causes"], one.slug
    (nettle,) = (caution_data(one) for one in duck.cautions if one.slug == "nettle")
    assert nettle["causes"][0] == {
        "kind": "line",
        "words": "2 cups nettle tops",
        "file": "recipes/duck.md",
        "line": 9,
        "column": 5,
    }


def test_the_terminal_prints_notices_under_one_signal_word(make_book: MakeBook) -> None:
    book = make_book({"recipes/duck.md": DUCK})
    said = CliRunner().invoke(main, ["sheet", str(book / "recipes/duck.md")]).stdout
    assert said.count("[NOTICE]") == 1
    assert "Look up the advisory for wild waterfowl" in said
    assert "Heat takes the sting away" in said
