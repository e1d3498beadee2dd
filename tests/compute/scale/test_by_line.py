"""Scaled to so much of a line, of the meat, or of a whole: worked by hand; and what cannot be scaled by."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.build import load_book
from generator.cli import main
from generator.compute import Kitchen, LineWish, Wish, compute_recipe
from generator.model.quantity import COUNT, Measure, Quantity, Span
from generator.problems import ProblemLog

MakeBook = Callable[..., Path]
KRAUT = (
    "---\nname: Kraut\nmakes: 4 qt\nmeat:\n  animal: elk\n  weight: 2 lb\ningredients:\n  Vegetables:\n    - 10 lb green cabbage\n"
    "    - 3 carrots\n    - 1 cup all-purpose flour\n  Salt, of the cabbage:\n    - 2.25 % pickling salt\n    - 1 % dill\n"
    "    - dill seed, to taste\n  Rub, of 12 oz:\n    - 3 parts paprika\n    - 1 part sweet paprika\n    - 2 bay leaves (fixed)\n"
    "---\n\nMix.\n"
)


def sheet(make_book: MakeBook, line: str) -> tuple[int, Any]:
    folder = make_book({"recipes/kraut.md": KRAUT})
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/kraut.md"), "--line", line, "--json"])
    return result.exit_code, json.loads(result.stdout) if result.stdout.startswith("{") else result.output


@pytest.mark.parametrize(
    ("line", "batches"),
    [
        ("green-cabbage=8 lb", 0.8),
        ("green cabbage = 8lb", 0.8),
        ("cabbage=128 oz", 0.8),
        ("Pickling salt=0.45 lb", 2),
        ("carrots=9", 3),
        ("meat=3 lb", 1.5),
        ("rub=1 lb 8 oz", 2),
        ("total=6 oz", 0.5),
        ("flour=2 cups", 2),
        # SR28: a cup of all-purpose flour weighs 125 g.
        ("flour=250 g", 2),
    ],
)
def test_batches_by_hand(make_book: MakeBook, line: str, batches: float) -> None:
    code, told = sheet(make_book, line)
    assert code == 0, told
    assert told["batches"] == batches


def test_shares_hold_at_every_scale(make_book: MakeBook) -> None:
    """By hand: 2.25 % of 20 lb are 0.45 lb, 204.1 g; nothing beyond twice the recipe says to hold back the salt."""
    _, told = sheet(make_book, "cabbage=20 lb")
    (salt,) = [line for line in told["ingredients"] if line["id"] == "pickling-salt"]
    assert salt["grams"] == pytest.approx(204.12, abs=0.01)
    assert salt["share"] == {"written": "2.25 %", "of": "cabbage", "percent": 2.25}
    _, told = sheet(make_book, "cabbage=40 lb")
    (salt,) = [line for line in told["ingredients"] if line["id"] == "pickling-salt"]
    assert salt["check"] is None


@pytest.mark.parametrize(
    ("line", "says", "hint"),
    [
        ("leeks=2 lb", "'leeks' is no line of Kraut that has an amount", "Known are green-cabbage, carrots"),
        ("paprica=2 lb", "'paprica' is no line", "'paprika'"),
        ("dill-seed=2 oz", "'dill seed, to taste' does not scale", "Known are"),
        ("bay-leaves=3", "'2 bay leaves (fixed)' does not scale", "Known are"),
        ("carrots=1 lb", "'1 lb' cannot be compared with '3 carrots'", "as it is written there"),
        (
            "cabbage=2 cups",
            "'2 cups' cannot be compared with '10 lb green cabbage'",
            "as it is written there",
        ),
    ],
)
def test_what_nothing_scales_by_is_told(make_book: MakeBook, line: str, says: str, hint: str) -> None:
    code, told = sheet(make_book, line)
    assert code == 1
    (problem,) = told["problems"]
    assert problem["slug"] == "not-scalable"
    assert says in problem["message"]
    assert hint in problem["hint"]


def test_line_goes_before_the_whole_of_its_name(make_book: MakeBook) -> None:
    """By hand: 0.225 lb of salt are in 10 lb; twice that, and half of all."""
    text = "---\nname: Salt\nmakes: 4 qt\ningredients:\n  Salt, of 10 lb:\n    - 2.25 % salt\n---\n\nMix.\n"
    folder = make_book({"recipes/salt.md": text})
    for line, batches in (("salt=0.45 lb", 2), ("salt-total=5 lb", 0.5), ("total=5 lb", 0.5)):
        words = ["sheet", str(folder / "recipes/salt.md"), "--line", line, "--json"]
        assert json.loads(CliRunner().invoke(main, words).stdout)["batches"] == batches


def test_one_of_several_meats(make_book: MakeBook) -> None:
    """By hand: 9 lb for 6 lb of deer are one and a half batches, of pork shoulder 1 lb for 2 lb half of one."""
    text = (
        "---\nname: Sausage\nmakes: 10 lb\nmeat:\n  - 6 lb deer trim\n  - 2 lb pork shoulder\n  - 2 lb pork back fat\n"
        "ingredients:\n  Spices, of the meat:\n    - 1.6 % salt\n---\n\nMix.\n"
    )
    folder = make_book({"recipes/sausage.md": text})
    for line, batches in (
        ("deer trim=9 lb", 1.5),
        ("shoulder=1 lb", 0.5),
        ("meat=30 lb", 3),
        ("salt=0.32 lb", 2),
    ):
        words = ["sheet", str(folder / "recipes/sausage.md"), "--line", line, "--json"]
        assert json.loads(CliRunner().invoke(main, words).stdout)["batches"] == batches
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/sausage.md"), "--line", "pork=1 lb"])
    assert "Known are salt, deer-trim, pork-shoulder, pork-back-fat." in result.output


def test_name_of_two_lines_is_asked(make_book: MakeBook) -> None:
    code, told = sheet(make_book, "sweet paprika=1 oz")
    assert code == 0, told
    folder = make_book(
        {"recipes/two.md": KRAUT.replace("3 carrots", "5 lb red cabbage").replace("the cabbage", "10 lb")}
    )
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/two.md"), "--line", "cabbage=1 lb"])
    assert "'cabbage' could be green-cabbage or red-cabbage. [not-scalable]" in result.output
    assert "Write one of them: green-cabbage=2 lb." in result.output


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--line", "cabbage"), "--line takes a line and so much of it, such as cabbage=8lb, not 'cabbage'."),
        (("--line", "=8lb"), "--line takes a line and so much of it, such as cabbage=8lb, not '=8lb'."),
        (("--line", "cabbage=heaps"), "'heaps' is not an amount"),
        (("--line", "cabbage=8lb", "--batches", "2"), "scale one way at a time"),
    ],
)
def test_option_says_what_it_takes(make_book: MakeBook, words: tuple[str, ...], says: str) -> None:
    folder = make_book({"recipes/kraut.md": KRAUT})
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/kraut.md"), *words])
    assert result.exit_code == 2
    assert says in " ".join(result.output.split())


@pytest.mark.parametrize("asked", [Fraction(1, 50), Fraction(2, 3), Fraction(3), Fraction(173, 7)])
def test_as_much_as_is_asked_for_is_what_the_line_is(
    make_book: MakeBook, kitchen: Kitchen, asked: Fraction
) -> None:
    book = load_book(make_book({"recipes/kraut.md": KRAUT}), kitchen, ProblemLog())
    assert book is not None
    one = compute_recipe(book, "kraut", kitchen, Wish(line=LineWish(name="carrots", amount=_count(asked))))
    (line,) = [line for line in one.lines if line.ingredient.id == "carrots"]
    assert line.scaled is not None
    assert line.scaled.measures[0].span == Span.of(asked)


def _count(number: Fraction) -> Quantity:
    return Quantity(measures=(Measure(Span.of(number), COUNT),), written=str(number))
