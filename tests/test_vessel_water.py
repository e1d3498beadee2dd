"""`potherb sheet --water`: the brine in one's own vessel. Weights are worked by hand from the formulas of the trade."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from generator.cli import main

RECIPE = """---
name: Shank
serves: 4
meat: {{animal: elk, cut: fore shank, weight: 5 lb, pieces: 4}}
cure:
  method: {method}
  {cure}
course:
  - cure: 5 days in the fridge
  - hot smoke: 6 h at 200 °F to 165 °F inside
---

Stir.
"""
TARGETS = "water: 4 qt\n  salt: 3 %\n  curing salt: 150 ppm"
AMOUNTS = "water: 4 qt\n  salt: 180 g\n  curing salt: 14 g"
POUND = 453.59237
QUART = 946.352946


def sheet(folder: Path, cure: str, *options: str, method: str = "brine") -> Result:
    (folder / "recipes").mkdir(exist_ok=True)
    (folder / "book.yaml").write_text("title: Book\n", encoding="utf-8")
    recipe = folder / "recipes" / "shank.md"
    recipe.write_text(RECIPE.format(cure=cure, method=method), encoding="utf-8")
    return CliRunner().invoke(main, ["sheet", str(recipe), *options])


def data(result: Result) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(result.stdout)
    return found


def test_salt_follows_meat_and_the_water_in_the_vessel(tmp_path: Path) -> None:
    cure = data(sheet(tmp_path, TARGETS, "--meat", "7.5lb", "--water", "8qt", "--json"))["cure"]
    base = 7.5 * POUND + 8 * QUART
    # S = 3 % of meat and water; c = k (1+s)(m+w) / (n - k (1-h)); salt to weigh = S - h c
    curing_salt = 0.00015 * 1.03 * base / (0.0625 - 0.00015 * 0.0625)
    assert cure["weigh"]["curing_salt_g"] == pytest.approx(curing_salt, abs=0.01)
    assert cure["weigh"]["salt_g"] == pytest.approx(0.03 * base - 0.9375 * curing_salt, abs=0.01)
    assert cure["water_g"] == pytest.approx(8 * QUART, abs=0.01)


def test_too_little_water_for_the_same_curing_salt_gives_no_weights_and_says_why(tmp_path: Path) -> None:
    fine = sheet(tmp_path, AMOUNTS, "--json")
    assert fine.exit_code == 0
    result = sheet(tmp_path, AMOUNTS, "--water", "1 qt", "--json")
    assert result.exit_code == 1
    found = data(result)
    assert found["cure"]["weigh"] is None
    # 14 g x 6.25 % on 5 lb + 1 qt + 180 g + 14 g
    ppm = 14 * 0.0625 * 1e6 / (5 * POUND + QUART + 194)
    (problem,) = found["problems"]
    assert (
        f"{ppm:.2f} ppm ingoing nitrite on meat and brine together is above the limit" in problem["message"]
    )
    assert "g of water with the same salt and sugar" in problem["hint"]


def test_less_than_a_scale_shows_is_no_weight(tmp_path: Path) -> None:
    result = sheet(tmp_path, TARGETS, "--meat", "1 g", "--water", "1 g", "--json")
    assert result.exit_code == 1
    found = data(result)
    assert found["cure"]["weigh"] is None
    assert found["problems"][0]["slug"] == "too-little-to-weigh"
    assert "less than 0.01 g" in found["problems"][0]["message"]
    assert "Make more of it" in found["problems"][0]["hint"]


def test_a_recipe_without_a_brine_has_no_water_to_tell(tmp_path: Path) -> None:
    result = sheet(tmp_path, "salt: 3 %\n  curing salt: 150 ppm", "--water", "4 qt", method="dry")
    assert result.exit_code == 1
    assert "Shank has no brine, so no water can be given for it." in result.stderr
    assert "Leave --water out." in result.stderr


@pytest.mark.parametrize(
    ("option", "text"), [("--meat", "2,750 g"), ("--meat", "1,250 kg"), ("--batches", "1,500")]
)
def test_a_comma_that_could_be_a_thousand_is_refused(tmp_path: Path, option: str, text: str) -> None:
    result = sheet(tmp_path, TARGETS, option, text)
    assert result.exit_code == 2
    assert "cannot be read for certain" in result.stderr


@pytest.mark.parametrize("text", ["0 qt", "2-3 qt", "4 in", "some"])
def test_water_that_is_no_amount_of_water(tmp_path: Path, text: str) -> None:
    result = sheet(tmp_path, TARGETS, "--water", text)
    assert result.exit_code == 2
    assert "--water" in result.stderr
