"""Dishes that need components that need components: batches, weights and green meat, worked by hand."""

from __future__ import annotations

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from generator.cli import main

BOOK = {
    "recipes/shank.md": (
        "---\nname: Smoked shank\nmakes: 4 shanks (3 lb)\nchapter: Pots\n"
        "meat:\n  animal: elk\n  cut: fore shank\n  weight: 5 lb\n---\n\nSmoke the [meat](#meat).\n"
    ),
    "recipes/stock.md": (
        "---\nname: Smoked stock\nmakes: 3 qt\nchapter: Pots\ningredients:\n"
        "  - 2 [smoked shanks](shank.md)\n---\n\nSimmer.\n"
    ),
    "recipes/greens.md": (
        "---\nname: Greens\nserves: 6\nchapter: Pots\ningredients:\n"
        "  - 1 1/2 qt [smoked stock](stock.md)\n  - 12 oz [picked shank](shank.md)\n---\n\nCook.\n"
    ),
}


def sheet(folder: Path, slug: str, *words: str) -> Any:
    result = CliRunner().invoke(main, ["sheet", str(folder / f"recipes/{slug}.md"), *words, "--json"])
    assert result.exit_code == 0, result.output
    return json.loads(result.stdout)


def test_chain_of_two_gives_batches_weights_and_green_meat(make_book: Callable[..., Path]) -> None:
    """By hand: 1.5 of 3 qt is 1/2 batch of stock; that takes 2 of 4 shanks x 1/2 = 1/4 batch of shanks, 0.75 lb
    smoked from 1.25 lb raw. 12 oz of the 3 lb is another 1/4 batch."""
    components = {tuple(c["path"]): c for c in sheet(make_book(BOOK), "greens")["components"]}
    pound = 453.59237
    assert components["greens", "stock"]["batches"] == 0.5
    assert components["greens", "stock"]["amount_g"] is None, "stock says its volume, not its weight"
    through = components["greens", "stock", "shank"]
    assert through["batches"] == 0.25
    assert through["amount_g"] == pytest.approx(0.75 * pound, abs=0.01)
    assert through["green_weight_g"] == pytest.approx(1.25 * pound, abs=0.01)
    assert components["greens", "shank"]["batches"] == 0.25


def test_needs_scale_with_the_dish(make_book: Callable[..., Path]) -> None:
    once = sheet(make_book(BOOK), "greens")["components"]
    many = sheet(make_book(BOOK), "greens", "--serves", "36")["components"]
    assert [c["batches"] * 6 for c in once] == [c["batches"] for c in many]


def test_component_of_a_range_has_enough(make_book: Callable[..., Path]) -> None:
    """Used 1-2, made 4: the high end is what must be there."""
    book = {**BOOK, "recipes/greens.md": BOOK["recipes/greens.md"].replace("12 oz", "1–2")}
    direct = next(
        c
        for c in sheet(make_book(book), "greens")["components"]
        if len(c["path"]) == 2 and c["recipe"] == "shank"
    )
    assert direct["batches"] == 0.5


def test_sheet_fails_only_on_its_own_and_its_components_errors(make_book: Callable[..., Path]) -> None:
    broken = "---\nname: Broken\nserves: 2\nchapter: Pots\ningredients:\n  - 2 cupps flour\n---\n\nBake.\n"
    folder = make_book({**BOOK, "recipes/broken.md": broken})
    assert sheet(folder, "greens")["name"] == "Greens"
    result = CliRunner().invoke(main, ["sheet", str(folder / "recipes/broken.md"), "--json"])
    assert result.exit_code == 1
    assert [p["slug"] for p in json.loads(result.stdout)["problems"]] == ["unknown-unit"]
