"""Shares in a dish: its salt, its ferment and its curing salt are judged by their weights; a part may be another recipe."""

from __future__ import annotations

import json
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from generator.cli import main
from generator.compute import Kitchen
from generator.model.quantity import Dimension, Measure, Quantity, Span
from generator.read import Grammar, parse_amount

MakeBook = Callable[..., Path]


def recipe(name: str, text: str, body: str = "Mix.") -> str:
    return f"---\nname: {name}\nchapter: Pots\n{text}---\n\n{body}\n"


def problems(folder: Path) -> list[Any]:
    told: list[Any] = json.loads(CliRunner().invoke(main, ["check", str(folder), "--json"]).stdout)
    return told


def sheet(folder: Path, slug: str, *words: str) -> Any:
    result = CliRunner().invoke(main, ["sheet", str(folder / f"recipes/{slug}.md"), *words, "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def kraut(salt: str) -> str:
    return recipe(
        "Kraut",
        "makes: 4 qt\ningredients:\n  Cabbage:\n    - 10 lb cabbage, cored\n  Salt, of the cabbage:\n"
        f"    - {salt} pickling salt\ncourse:\n  - ferment: 4 weeks at 70–72 °F\n",
        "Keep it under the brine.",
    )


@pytest.mark.parametrize(
    ("salt", "says"), [("1.5 %", ["The salt is 1.5 % of the vegetables."]), ("2.25 %", [])]
)
def test_salt_of_a_ferment_is_judged(make_book: MakeBook, salt: str, says: list[str]) -> None:
    """USDA Complete Guide 6: 2.25 to 2.5 % by weight."""
    folder = make_book({"recipes/kraut.md": kraut(salt)})
    found = [one["message"] for one in problems(folder) if "ferment-salt" in one["message"]]
    assert [message.partition(" (rule")[0] for message in found] == says


def test_curing_salt_as_a_share_is_refused_as_in_any_line(make_book: MakeBook) -> None:
    """By hand: 0.25 % of 6.25 % nitrite is 156.25 ppm on the meat, shown rounded up."""
    text = (
        "makes: 10 lb\nmeat:\n  animal: elk\n  weight: 10 lb\n  form: ground\ningredients:\n  Spices, of the meat:\n"
        "    - 1.6 % salt\n    - 0.25 % pink curing salt\ncourse:\n  - fry: 10 min to 165 °F inside\n"
    )
    (found,) = [
        one for one in problems(make_book({"recipes/s.md": recipe("S", text)})) if one["severity"] == "error"
    ]
    assert found["slug"] == "nitrite-listed"
    assert found["line"] == 12
    assert "157 ppm nitrite" in found["message"]


def test_salt_of_the_dish_counts_shares(make_book: MakeBook) -> None:
    """By hand: 2 % of 1000 g are 20 g, for 8 servings 2.5 g each; at twice the batch as much a serving."""
    text = "serves: 8\ningredients:\n  Flour:\n    - 1000 g bread flour\n  Dough, of the flour:\n    - 70 % water\n    - 2 % salt\n"
    folder = make_book({"recipes/loaf.md": recipe("Loaf", text)})
    assert sheet(folder, "loaf")["salt"]["per_serving_g"] == [2.5, 2.5]
    assert sheet(folder, "loaf", "--line", "bread flour=2 kg")["salt"]["per_batch_g"] == [40, 40]


def test_share_may_be_another_recipe(make_book: MakeBook) -> None:
    """By hand: 5 % of 10 lb are 8 oz, of a rub that makes 16 oz half a batch; what is made by count is refused with its line."""
    dish = recipe(
        "Roast",
        "serves: 8\ningredients:\n  Meat:\n    - 10 lb pork\n  Rub, of the pork:\n    - 5 % [red rub](rub.md)\n",
    )
    rub = recipe(
        "Rub", "makes: 16 oz\ningredients:\n  Rub, of 1 lb:\n    - 3 parts paprika\n    - 1 part pepper\n"
    )
    folder = make_book({"recipes/roast.md": dish, "recipes/rub.md": rub})
    (need,) = sheet(folder, "roast")["components"]
    assert need["batches"] == 0.5
    folder = make_book({"recipes/rub.md": rub.replace("makes: 16 oz", "makes: 4 jars")})
    (found,) = [one for one in problems(folder) if one["severity"] == "error"]
    assert "'5 % [red rub](rub.md)' cannot be compared with what Rub makes (4 jars)." in found["message"]


@given(grams=st.fractions(min_value=Fraction(10), max_value=Fraction(20000), max_denominator=1000))
def test_reading_what_is_shown_gives_the_share(kitchen: Kitchen, grams: Fraction) -> None:
    """From 10 g up no step of a share moves its weight by more than 1 % (steps of this book), in grams and in ounces."""
    quantity = Quantity(measures=(Measure(Span.of(grams), kitchen.tables.units["gram"]),))
    for system in ("us", "metric", "imperial"):
        shown = kitchen.shower.weighed_out(quantity, system)
        again = parse_amount(shown, Grammar(system=system, language="en", tables=kitchen.tables))
        total = again.total(Dimension.WEIGHT)
        assert total is not None
        assert abs(total.low / grams - 1) <= Fraction(1, 100), shown
