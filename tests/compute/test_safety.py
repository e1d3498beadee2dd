"""Caution boxes from a recipe's own facts: met, not met, and silent where nothing applies."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main
from generator.tables import Tables

CURE = "cure:\n  method: {method}\n{water}  salt: 3 %\n{curing}"
SHANK = """---
name: Shank
makes: 4 shanks (3 lb)
chapter: Pots
meat:
  animal: elk
  cut: fore shank
  weight: 5 lb
{cure}course:
  - cure: 5 days in the fridge
  - hot smoke: 6 h at 200 °F to {inside} °F inside
{eat}---

Smoke the [meat](#meat).
"""
BRINE = CURE.format(method="brine", water="  water: 1 gal\n", curing="  curing salt: {ppm} ppm\n")


def shank(ppm: str = "150", inside: str = "165", eat: str = "") -> str:
    return SHANK.format(cure=BRINE.format(ppm=ppm), inside=inside, eat=eat)


def boxes(folder: Path, slug: str) -> dict[str, Any]:
    result = CliRunner().invoke(main, ["sheet", str(folder / f"recipes/{slug}.md"), "--json"])
    data = json.loads(result.stdout)
    return {caution["slug"]: caution for caution in data["cautions"]}


def dish(line: str, stage: str = "simmer: 2 h") -> str:
    return f"---\nname: Dish\nserves: 4\nchapter: Pots\ningredients:\n  - {line}\ncourse:\n  - {stage}\n---\n\nCook.\n"


def test_every_nitrite_recipe_has_the_handling_and_the_cold_box(make_book: Callable[..., Path]) -> None:
    """21 CFR 172.175(b): keep out of the reach of children; NCHFP 6.1: below 40 °F."""
    found = boxes(make_book({"recipes/shank.md": shank()}), "shank")
    assert {"nitrite-handling", "cure-cold", "wild-game-165"} <= set(found)
    handling = found["nitrite-handling"]
    assert handling["signal"] == "WARNING"
    for words in ("reads 0.1 g", "locked away", "labelled", "throw the whole batch away"):
        assert words in handling["text"]
    assert "40 °F (4 °C)" in found["cure-cold"]["text"]
    assert "165 °F (74 °C)" in found["wild-game-165"]["text"]
    assert "mmwr-73-20" in found["wild-game-165"]["sources"]


def test_salt_brine_without_nitrite_keeps_cold_and_says_nothing_of_nitrite(
    make_book: Callable[..., Path],
) -> None:
    cure = CURE.format(method="brine", water="  water: 1 gal\n", curing="")
    found = boxes(make_book({"recipes/shank.md": SHANK.format(cure=cure, inside="165", eat="")}), "shank")
    assert "cure-cold" in found
    assert "nitrite-handling" not in found


@pytest.mark.parametrize(
    ("ppm", "slug"),
    [("150", None), ("120", None), ("119", "below-120"), ("40", "below-120"), ("39", "below-40")],
)
def test_low_nitrite_says_what_is_lost(make_book: Callable[..., Path], ppm: str, slug: str | None) -> None:
    """FSIS Directive 7620.3 p. 12: 120 ppm policy minimum, 40 ppm some preservative effect (second-hand)."""
    found = set(boxes(make_book({"recipes/shank.md": shank(ppm=ppm)}), "shank"))
    assert found & {"below-120", "below-40"} == ({slug} if slug else set())


WILD = [
    "2 lb venison, diced",
    "1 rabbit, jointed",
    "2 lb ground elk",
    "1 wild turkey leg",
    "3 squirrels",
    "2 goose breasts",
    "1 lb low-fat elk mince",
    "2 lb venison trim for stock",
    "1 lb venison sausage with pork fat",
    "2 wild duck breasts cooked in goose fat",
]
NOT_WILD = [
    "2 tbsp duck fat",
    "1 qt chicken stock",
    "2 lb pork shoulder",
    "1 lb trout",
    "3 carrots",
    "2 duck eggs",
    "1 lb beef",
]


@pytest.mark.parametrize("line", WILD)
def test_wild_meat_in_a_line_is_seen(make_book: Callable[..., Path], line: str) -> None:
    found = boxes(make_book({"recipes/dish.md": dish(line)}), "dish")
    assert "wild-game-165" in found
    assert "is an ingredient" in found["wild-game-165"]["because"]


@pytest.mark.parametrize("line", NOT_WILD)
def test_what_is_no_wild_game_prints_no_box(make_book: Callable[..., Path], line: str) -> None:
    assert boxes(make_book({"recipes/dish.md": dish(line)}), "dish") == {}


def test_farmed_animal_is_not_wild(make_book: Callable[..., Path]) -> None:
    text = shank().replace("  animal: elk\n", "  animal: elk\n  source: farmed\n")
    assert "wild-game-165" not in boxes(make_book({"recipes/shank.md": text}), "shank")


def test_piece_to_eat_after_cooking_says_so_on_its_page_and_its_dish(make_book: Callable[..., Path]) -> None:
    folder = make_book(
        {
            "recipes/shank.md": shank(inside="150", eat="eat: after cooking\n"),
            "recipes/dish.md": dish("1 [shank](shank.md)", "simmer: 3 h to 165 °F inside"),
        }
    )
    assert "eat-after-cooking" in boxes(folder, "shank")
    assert "wild-game-165" in boxes(folder, "dish")


@pytest.mark.parametrize("stage", ["simmer: 3 h", "simmer: 3 h to 160 °F inside", "rest: 10 min"])
def test_dish_that_does_not_cook_a_raw_piece_is_an_error(make_book: Callable[..., Path], stage: str) -> None:
    folder = make_book(
        {
            "recipes/shank.md": shank(inside="150", eat="eat: after cooking\n"),
            "recipes/dish.md": dish("1 [shank](shank.md)", stage),
        }
    )
    result = CliRunner().invoke(main, ["check", str(folder), "--json"])
    assert result.exit_code == 1
    (problem,) = json.loads(result.stdout)
    assert problem["slug"] == "uncooked-component"
    assert problem["file"] == "recipes/dish.md"
    assert "to 165 °F inside" in problem["hint"]


def test_every_rule_has_words_and_sources(tables: Tables) -> None:
    for slug in (
        "eat-after-cooking",
        "wild-game-165",
        "nitrite-handling",
        "cure-cold",
        "below-120",
        "below-40",
    ):
        text = tables.cautions[slug]
        assert text.signal in ("DANGER", "WARNING", "CAUTION", "NOTICE")
        assert text.text
        assert all(source in tables.sources for source in text.sources)


def test_vegetable_dish_prints_no_box(make_book: Callable[..., Path]) -> None:
    assert boxes(make_book({"recipes/dish.md": dish("2 lb kale, chopped")}), "dish") == {}
