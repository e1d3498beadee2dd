"""`accept:`: a WARNING rule by its slug with a reason; a DANGER rule never."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from generator.model.book import BookConfig
from generator.model.recipe import Recipe
from generator.problems import Position, ProblemLog
from generator.read.book import read_book_file
from generator.read.recipe import read_recipe
from generator.read.record import Reading
from generator.read.source import split_front_matter
from generator.tables import Tables

ACCEPT = "accept:\n  wild-game-165: whole loins,\n    cooked to 160 °F # by thermometer\n"
DISH = "---\nname: Dish\nserves: 4\n{accept}---\n\nCook it.\n"


@pytest.fixture
def with_danger(tables: Tables) -> Tables:
    """The published rules, one of them made a DANGER."""
    sealed = replace(tables.cautions["cure-cold"], slug="sealed-smoke", signal="DANGER")
    return replace(tables, cautions={**tables.cautions, sealed.slug: sealed})


def read(text: str, tables: Tables) -> tuple[Recipe | None, ProblemLog]:
    log = ProblemLog()
    context = Reading(config=BookConfig(title="A"), tables=tables)
    source = split_front_matter(text, "recipes/dish.md", log)
    assert source is not None
    return read_recipe(source, "dish", context, log), log


def test_reason_is_taken_as_one_line(tables: Tables) -> None:
    accept = "accept:\n  wild-game-165: whole loins,\n    cooked to 160 °F\n  cure-cold: a cellar at 39 °F\n"
    recipe, log = read(DISH.format(accept=accept), tables)
    assert log.sorted() == ()
    assert recipe is not None
    assert recipe.accept == {
        "wild-game-165": "whole loins, cooked to 160 °F",
        "cure-cold": "a cellar at 39 °F",
    }


def test_recipe_without_it_accepts_nothing(tables: Tables) -> None:
    recipe, _ = read(DISH.format(accept=""), tables)
    assert recipe is not None
    assert recipe.accept == {}


def test_reason_that_yaml_would_cut_off_is_a_problem(tables: Tables) -> None:
    _, log = read(DISH.format(accept=ACCEPT), tables)
    assert "yaml-comment" in {problem.slug for problem in log}


def test_danger_is_never_accepted_and_the_hint_says_so(with_danger: Tables) -> None:
    accept = "accept:\n  sealed-smoke: we always have\n"
    recipe, log = read(DISH.format(accept=accept), with_danger)
    (problem,) = log
    assert recipe is not None
    assert log.has_errors, "no site is written"
    assert problem.slug == "unknown-rule"
    assert problem.is_error
    assert problem.position == Position("recipes/dish.md", 5, 3)
    assert "'sealed-smoke' cannot be accepted" in problem.message
    assert "DANGER rule, which nobody can accept" in problem.hint


def test_book_accepts_for_every_recipe(make_book: Callable[..., Path], tables: Tables) -> None:
    book = "title: A\naccept:\n  wild-game-165: deer only, by thermometer\n"
    log = ProblemLog()
    config = read_book_file(make_book({"book.yaml": book}), tables, log)
    assert log.sorted() == ()
    assert config is not None
    assert config.accept == {"wild-game-165": "deer only, by thermometer"}


def test_book_that_accepts_a_danger_is_an_error(make_book: Callable[..., Path], with_danger: Tables) -> None:
    log = ProblemLog()
    config = read_book_file(
        make_book({"book.yaml": "title: A\naccept:\n  sealed-smoke: x\n"}), with_danger, log
    )
    (problem,) = log
    assert problem.position == Position("book.yaml", 3, 3)
    assert "nobody can accept" in problem.hint
    assert config is not None
    assert config.accept == {}
