"""How often the rules look at a recipe whose course was read from its method: once, and again only where they refuse it."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from generator.build import kitchen, load_book
from generator.compute import compute_book
from generator.compute.safety import check
from generator.compute.safety.facts.gather import Facts
from generator.problems import ProblemLog
from generator.tables import Tables

MakeBook = Callable[..., Path]
DISH = "---\nname: Dish\nserves: 4\nchapter: Pots\ningredients:\n  - 2 lb {}\n---\n\n{}\n"


def looks(make_book: MakeBook, monkeypatch: pytest.MonkeyPatch, meat: str, method: str) -> tuple[int, int]:
    """Second looks of the rules, and errors."""
    seen: list[Facts] = []
    plain = check._refused

    def counted(facts: Facts, tables: Tables) -> frozenset[str]:
        seen.append(facts)
        return plain(facts, tables)

    monkeypatch.setattr(check, "_refused", counted)
    book = load_book(make_book({"recipes/dish.md": DISH.format(meat, method)}), kitchen(), ProblemLog())
    assert book is not None
    (dish,) = compute_book(book, kitchen()).recipes.values()
    assert dish.recipe.course_read
    assert all(not facts.recipe.stages for facts in seen)
    return len(seen), sum(problem.is_error for problem in dish.problems)


def test_where_nothing_is_refused_they_look_once(
    make_book: MakeBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert looks(make_book, monkeypatch, "beef, diced", "Simmer the beef for 2 hours.") == (0, 0)


def test_where_only_the_method_is_refused_they_look_again_and_make_no_error(
    make_book: MakeBook, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert looks(make_book, monkeypatch, "ground venison", "Roast it to 130 °F inside.") == (1, 0)
