"""Scaling: linear, exact, and honest about what does not scale."""

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

from generator.build import load_book
from generator.cli import main
from generator.compute import Kitchen, Wish, compute_recipe
from generator.model.quantity import Dimension, Quantity
from generator.problems import ProblemLog
from generator.read import Grammar, parse_amount

STEW = """---
name: Stew
serves: 4
makes: 3 qt
chapter: Pots
meat:
  animal: elk
  cut: neck
  weight: 2 lb
ingredients:
  - 1 1/2 cups dry pinto beans
  - 1 tsp table salt
  - 4 bay leaves (fixed)
  - a pinch of cayenne
  - 2 bunches kale
  - 1–2 tbsp honey
  - salt, to taste
course:
  - simmer: 2 h to 165 °F inside
---

Cook the [meat](#meat).
"""


def sheet(folder: Path, *words: str) -> tuple[int, Any]:
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/stew.md"), *words, "--json"])
    return result.exit_code, json.loads(result.stdout)


@pytest.fixture
def stew(make_book: Callable[..., Path]) -> Path:
    return make_book({"recipes/stew.md": STEW})


@pytest.mark.parametrize(
    ("words", "batches"),
    [
        (("--serves", "10"), 2.5),
        (("--makes", "6 qt"), 2),
        (("--makes", "1.5 gal"), 2),
        (("--batches", "1 1/2"), 1.5),
        (("--meat", "5 lb"), 2.5),
        (("--meat", "907.18474g"), 1),
        ((), 1),
    ],
)
def test_each_way_of_asking_gives_its_batches(stew: Path, words: tuple[str, ...], batches: float) -> None:
    code, data = sheet(stew, *words)
    assert code == 0
    assert data["batches"] == batches
    assert data["serves"] == 4 * batches
    beans = next(line for line in data["ingredients"] if line["id"] == "dry-pinto-beans")
    # 1 1/2 cups at 193 g (USDA SR28, NDB 16042)
    assert beans["grams"] == pytest.approx(1.5 * 193 * batches)


def test_fixed_and_vague_lines_stay_and_are_marked(stew: Path) -> None:
    _, data = sheet(stew, "--batches", "3")
    lines = {line["id"]: line for line in data["ingredients"]}
    assert lines["bay-leaves"]["shown"] == "4"
    assert lines["cayenne"]["shown"] == "a pinch"
    assert lines["salt"]["shown"] == "to taste"
    assert lines["kale"]["shown"] == "6 bunches"
    assert lines["honey"]["shown"] == "3–6 tbsp"
    assert "Seasoning" in lines["table-salt"]["check"]
    assert lines["bay-leaves"]["check"]
    assert lines["dry-pinto-beans"]["check"] is None


def test_nothing_is_marked_up_to_twice_the_recipe(stew: Path) -> None:
    _, data = sheet(stew, "--batches", "2")
    assert [line["check"] for line in data["ingredients"]] == [None] * len(data["ingredients"])


@given(
    a=st.fractions(min_value=Fraction(1, 9), max_value=40, max_denominator=97),
    b=st.fractions(min_value=Fraction(1, 9), max_value=40, max_denominator=97),
    text=st.sampled_from(["1 1/2 cups", "2 lb 3 oz", "1–2 tsp", "3", "2 lb (900 g)", "1 cup + 2 tbsp"]),
)
def test_scaling_by_a_then_b_is_scaling_by_their_product(
    kitchen: Kitchen, a: Fraction, b: Fraction, text: str
) -> None:
    amount = parse_amount(text, Grammar(system="us", language="en", tables=kitchen.tables))
    assert amount.times(a).times(b).measures == amount.times(a * b).measures
    assert amount.times(a).times(1 / a).measures == amount.measures


@given(factor=st.fractions(min_value=Fraction(1, 7), max_value=30, max_denominator=61))
def test_every_line_scales_by_the_same_factor(
    make_book_once: Path, kitchen: Kitchen, factor: Fraction
) -> None:
    book = load_book(make_book_once, kitchen, ProblemLog())
    assert book is not None
    once = compute_recipe(book, "stew", kitchen)
    scaled = compute_recipe(book, "stew", kitchen, Wish(batches=factor))
    for before, after in zip(once.lines, scaled.lines, strict=True):
        assert before.scaled is not None
        assert after.scaled is not None
        for kind in Dimension:
            one, other = before.scaled.total(kind), after.scaled.total(kind)
            stays = before.ingredient.fixed
            assert other == (one if one is None or stays else one.times(factor))


@pytest.fixture(scope="module")
def make_book_once(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("stew")
    (folder / "recipes").mkdir()
    (folder / "book.yaml").write_text("title: Stews\nchapters: [Pots]\n", encoding="utf-8")
    (folder / "recipes/stew.md").write_text(STEW, encoding="utf-8")
    return folder


PUBLISHED = [
    # TM 10-412 (2003), card A-1: quantity, factor, exact result. 1.25 lb x 3.48 = 4.35 lb; 2 lb x 2.61 = 5.22 lb.
    ("1.25 lb", "3.48", "4.35 lb"),
    ("2 lb", "2.61", "5.22 lb"),
    # NAVEDTRA 14163: 6 gal x 3.33 = 19.98 gal.
    ("6 gal", "3.33", "19.98 gal"),
    # USDA factor method, 50 to 100 portions: 6 lb 6 oz and 12 lb 12 oz; 1 gal 1 qt and 2 gal 2 qt.
    ("6 lb 6 oz", "2", "12 lb 12 oz"),
    ("1 gal 1 qt", "2", "2 gal 2 qt"),
    # exact fractions: half of a third of a cup is 2 tbsp 2 tsp; 3/4 cup by 1.5 is 1 cup 2 tbsp.
    ("1/3 cup", "0.5", "2 tbsp 2 tsp"),
    ("3/4 cup", "1.5", "1 cup 2 tbsp"),
]


@pytest.mark.parametrize(("text", "factor", "result"), PUBLISHED)
def test_published_worked_scaling(kitchen: Kitchen, text: str, factor: str, result: str) -> None:
    def amount(words: str) -> Quantity:
        return parse_amount(words, Grammar(system="us", language="en", tables=kitchen.tables))

    scaled, expected = amount(text).times(Fraction(factor)), amount(result)
    kind = expected.dimension
    assert kind is not None
    assert scaled.total(kind) == expected.total(kind)


def test_nineteen_gallons_in_parts(kitchen: Kitchen) -> None:
    # NAVEDTRA 14163: 19.98 gal is 19 gal 3 qt 1 pt 1 c 10 tbsp 2.64 tsp, published.
    parts = parse_amount(
        "19 gal + 3 qt + 1 pt + 1 c + 10 tbsp + 2.64 tsp",
        Grammar(system="us", language="en", tables=kitchen.tables),
    )
    whole = parse_amount("19.98 gal", Grammar(system="us", language="en", tables=kitchen.tables))
    assert parts.total(Dimension.VOLUME) == whole.total(Dimension.VOLUME)


REFUSED = [
    (("--makes", "3 lb"), "cannot be compared"),
    (("--batches", "0"), "above 0"),
    (("--meat", "2 qt"), "one weight above 0"),
    (("--serves", "4", "--batches", "2"), "cannot go together"),
]


@pytest.mark.parametrize(("words", "said"), REFUSED)
def test_impossible_scalings_are_refused_with_words(stew: Path, words: tuple[str, ...], said: str) -> None:
    result = CliRunner().invoke(main, ["sheet", str(stew / "recipes/stew.md"), *words])
    assert result.exit_code in (1, 2)
    assert said in result.stderr


def test_recipe_without_servings_cannot_be_scaled_by_them(make_book: Callable[..., Path]) -> None:
    text = STEW.replace("serves: 4\n", "")
    folder = make_book({"recipes/stew.md": text})
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/stew.md"), "--serves", "8", "--json"])
    assert result.exit_code == 1
    (problem,) = json.loads(result.stdout)["problems"]
    assert problem["slug"] == "not-scalable"
    assert "does not say how many it serves" in problem["message"]


@pytest.mark.parametrize(
    ("makes", "method", "shown"),
    [
        # By hand: twice seven jars.
        ("7 quarts", "Process 90 minutes in a pressure canner.", "makes 14 qt"),
        ("5 pt", "Process 75 minutes in a pressure canner.", "makes 10 pints"),
        # HB 44, Appendix C: 14 quarts are 3½ gallons; a soup fills no jars.
        ("7 quarts", "Simmer it for 3 hours.", "makes 3½ gal"),
    ],
)
def test_quarts_that_are_jars_stay_quarts(
    make_book: Callable[..., Path], makes: str, method: str, shown: str
) -> None:
    front = f"name: Venison\nmakes: {makes}\ningredients:\n  - 14 lb venison, cubed\n"
    book = make_book({"recipes/jars.md": f"---\n{front}---\n\n{method}\n"})
    result = CliRunner().invoke(main, ["sheet", str(book / "recipes/jars.md"), "--batches", "2"])
    assert shown in result.stdout


def test_a_jar_is_no_litre(make_book: Callable[..., Path]) -> None:
    method = "Process 90 minutes in a pressure canner."
    front = "name: Venison\nmakes: 7 quarts\ningredients:\n  - 14 lb venison, cubed\n"
    book = make_book({"recipes/jars.md": f"---\n{front}---\n\n{method}\n"})
    words = ["sheet", str(book / "recipes/jars.md"), "--units", "metric"]
    assert "makes 7 qt\n" in CliRunner().invoke(main, words).stdout
