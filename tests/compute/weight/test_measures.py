"""Amounts of lines as cooks write them, weighed and measured, against published weights and factors."""

from __future__ import annotations

import csv
import json
import re
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.compute import Kitchen
from generator.compute.weight.measures import weigh_measures
from generator.model.quantity import Dimension, Span, Temperature
from generator.read import Grammar, parse_amount

PUBLISHED = Path(__file__).parents[2] / "published" / "kitchen_cases.csv"
CASES = list(csv.DictReader(PUBLISHED.read_text(encoding="utf-8").splitlines()))


@pytest.mark.parametrize("row", CASES, ids=lambda row: row["case"])
def test_line_weighs_what_is_published(make_book: Callable[..., Path], row: dict[str, str]) -> None:
    line = row["line"] if ":" not in row["line"] else f"'{row['line']}'"
    book = f"title: Cases\nunits: {row['system']}\nchapters: [Pots]\n"
    text = f"---\nname: Case\nserves: 1\nchapter: Pots\ningredients:\n  - {line}\n---\n\nCook.\n"
    folder = make_book({"book.yaml": book, "recipes/case.md": text})
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/case.md"), "--json"])
    assert result.exit_code == 0, result.output
    (ingredient,) = json.loads(result.stdout)["ingredients"]
    # JSON is to 0.01: a half of that is added to the tolerance of the source.
    tolerance = Fraction(row["tolerance"]) + Fraction(1, 200)
    assert abs(Fraction(str(ingredient[row["want"]])) - Fraction(row["expected"])) <= tolerance, ingredient


def test_unknown_food_has_no_weight(kitchen: Kitchen) -> None:
    quantity = parse_amount("1 cup", Grammar(system="us", language="en", tables=kitchen.tables))
    assert weigh_measures(quantity, "moonberries", kitchen.tables) is None
    assert weigh_measures(quantity, "hony", kitchen.tables) is None, "a near name is never taken"


ROUNDED = [
    # Guide for rounding off weights and measures (USDA/NFSMI 2002 and its reprint); quantities in and out by the guide.
    ("ingredient weight", "7.4 oz", "7½ oz"),
    ("ingredient weight", "13.3 oz", "13½ oz"),
    ("ingredient weight", "52.4 oz", "3 lb 4 oz"),
    ("ingredient weight", "7.6 lb", "7½ lb"),
    ("ingredient volume", "2.3 tsp", "2¼ tsp"),
    ("ingredient volume", "2.4 tbsp", "2 tbsp 1¼ tsp"),
    ("ingredient volume", "2.6 cups", "2½ cups"),
    ("ingredient volume", "2.8 qt", "2¾ qt"),  # 11 cups
    ("ingredient volume", "1.55 gal", "6¼ qt"),  # 25 cups
    # end points, settled: they belong to the row that starts there
    ("ingredient weight", "10 oz", "10 oz"),
    ("ingredient weight", "5 lb", "5 lb"),
    ("ingredient volume", "1 tbsp", "1 tbsp"),
    ("ingredient volume", "3/4 cup", "¾ cup"),
    # exact kitchen fractions: 1/3 of a cup, 3/4 cup x 1.5 = 1 1/8 cups = 1 cup 2 tbsp
    ("ingredient volume", "1/3 cup", "⅓ cup"),
    ("ingredient volume", "1 1/8 cup", "1 cup 2 tbsp"),
]


@pytest.mark.parametrize(("use", "text", "shown"), ROUNDED)
def test_rounding_follows_the_published_guide(kitchen: Kitchen, use: str, text: str, shown: str) -> None:
    quantity = parse_amount(text, Grammar(system="us", language="en", tables=kitchen.tables))
    kind = Dimension.WEIGHT if use.endswith("weight") else Dimension.VOLUME
    total = quantity.total(kind)
    assert total is not None
    assert kitchen.shower.base(total, use=use, system="us") == shown


def test_a_range_stays_a_range(kitchen: Kitchen) -> None:
    # 1-2 tsp three times is 3-6 tsp, which is 1-2 tbsp (arithmetic).
    quantity = parse_amount("1–2 tsp", Grammar(system="us", language="en", tables=kitchen.tables)).times(3)
    assert kitchen.shower.quantity(quantity, "us") == "1–2 tbsp"


def test_something_is_never_shown_as_nothing(kitchen: Kitchen) -> None:
    for system in ("us", "metric", "imperial"):
        tiny = Span.of(Fraction(1, 10_000))
        assert not kitchen.shower.base(tiny, use="ingredient weight", system=system).startswith("0 ")


SMALL = [
    # scaled amount, by how much, us, metric (no weight known), imperial: arithmetic, with a spoon of ⅛ tsp the smallest.
    ("1/4 tsp", "1/8", "a pinch, ¼ of ⅛ tsp", "0.15 mL", "a pinch, ⅛ of ⅛ tsp"),  # 1/32 tsp; 0.154 mL
    ("1/4 tsp", "1/4", "a pinch, ½ of ⅛ tsp", "0.3 mL", "a pinch, ⅜ of ⅛ tsp"),  # 1/16 tsp; 0.308 mL
    ("1 tsp", "0.017", "a pinch, ⅛ of ⅛ tsp", "0.08 mL", "a pinch, ⅛ of ⅛ tsp"),  # 0.136 of ⅛ tsp; 0.0838 mL
    ("1 tsp", "0.124", "a pinch, ⅞ of ⅛ tsp", "0.6 mL", "⅛ tsp"),  # 0.992 of ⅛ tsp; 0.611 mL
    ("1 tsp", "1/8", "⅛ tsp", "0.6 mL", "⅛ tsp"),  # 0.616 mL
    ("1 tsp", "1/1000", "a pinch, under ⅛ of ⅛ tsp", "under 0.01 mL", "a pinch, under ⅛ of ⅛ tsp"),
    ("1 oz", "1/80", "0.012 oz", "0.35 g", "0.012 oz"),  # 0.0125 oz; 0.354 g
    ("1 g", "1/1000", "under 0.001 oz", "under 0.01 g", "under 0.001 oz"),
    ("1", "1/4", "¼", "¼", "¼"),
    ("1", "1/8", "⅛", "⅛", "⅛"),
    ("1", "0.23", "0.23", "0.23", "0.23"),
    ("1", "1/7", "0.14", "0.14", "0.14"),
    ("1", "1/10000", "under 0.01", "under 0.01", "under 0.01"),
    ("1–2 cloves", "1/10000", "under 0.01 clove", "under 0.01 clove", "under 0.01 clove"),
    ("1/8–1/4 tsp", "1/2", "a pinch, ½ of ⅛ tsp – ⅛ tsp", "0.3–0.6 mL", "a pinch, ⅜ of ⅛ tsp – ⅛ tsp"),
]


@pytest.mark.parametrize(("written", "factor", "us", "metric", "imperial"), SMALL)
def test_less_than_the_smallest_spoon_is_never_a_whole_one(
    kitchen: Kitchen, written: str, factor: str, us: str, metric: str, imperial: str
) -> None:
    quantity = parse_amount(written, Grammar(system="us", language="en", tables=kitchen.tables))
    shown = kitchen.shower.everywhere(quantity.times(Fraction(factor)))
    assert (shown.us, shown.metric, shown.imperial) == (us, metric, imperial)


@pytest.mark.parametrize("use", ["ingredient weight", "ingredient volume"])
@pytest.mark.parametrize("system", ["us", "metric", "imperial"])
def test_no_small_dose_is_rounded_up_by_more_than_a_kitchen_can_tell(
    kitchen: Kitchen, use: str, system: str
) -> None:
    # From 0.001 to 1 g or mL. House choice: nearest half of the step that a spoon or a scale has is as near as it gets.
    for thousandths in range(1, 1001, 7):
        exact = Fraction(thousandths, 1000)
        rounded = kitchen.shower.rounded(exact, use=use, system=system)
        most = exact if exact < Fraction(1, 2) else exact * Fraction(3, 2)
        assert rounded <= most, (exact, rounded)


def test_eight_servings_to_one(make_book: Callable[..., Path]) -> None:
    text = "---\nname: Stew\nserves: 8\nchapter: Pots\ningredients:\n  - 1/4 tsp ground cloves\n  - 1 egg\n---\n\nStew.\n"
    sheet = str(make_book({"recipes/stew.md": text}) / "recipes/stew.md")
    said = CliRunner().invoke(main, ["sheet", sheet, "--serves", "1"]).output
    assert "a pinch, ¼ of ⅛ tsp ground cloves" in said
    least = CliRunner().invoke(main, ["sheet", sheet, "--batches", "0.0001"]).output
    assert re.search(r"^  under 0\.01 +egg$", least, re.M), least


TEMPERATURES = [
    # scale written, value, scale wanted, use, shown: quantities of the consumer charts, exact 5/9.
    ("F", "350", "C", "temperature", "177 °C"),
    ("F", "-40", "C", "temperature", "-40 °C"),
    ("C", "-40", "F", "temperature", "-40 °F"),
    ("F", "145", "C", "minimum temperature", "63 °C"),
    ("F", "155", "C", "minimum temperature", "69 °C"),
    ("F", "160", "C", "minimum temperature", "72 °C"),
    ("F", "165", "C", "minimum temperature", "74 °C"),
    ("F", "95", "C", "maximum temperature", "35 °C"),
    ("F", "40", "C", "maximum temperature", "4 °C"),
    ("F", "38", "C", "maximum temperature", "3 °C"),
]


@pytest.mark.parametrize(("written", "value", "scale", "use", "shown"), TEMPERATURES)
def test_temperatures_convert_as_points(
    kitchen: Kitchen, written: str, value: str, scale: str, use: str, shown: str
) -> None:
    assert kitchen.shower.temperature(Temperature(Fraction(value), written), scale, use=use) == shown


def test_exact_celsius_of_350_f() -> None:
    assert Temperature(Fraction(350), "F").celsius == Fraction(530, 3)
