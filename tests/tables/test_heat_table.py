"""The tables of heat: what is printed elsewhere, and a refusal for each kind of wrong row."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from generator.tables import TableError, Tables, read_tables
from tests.tables.conftest import spoil

# Minnesota Rules 4626.0340 before 2019, minutes of the 7-log column at each second degree; at 145 °F it printed 3.
MINNESOTA = {130: 121, 132: 77, 134: 47, 136: 32, 138: 19, 140: 12, 142: 8, 144: 5}
# N.Y. Comp. Codes R. & Regs. tit. 1, 271-2.10, seconds.
NEW_YORK = {147: 144, 149: 91, 151: 58, 153: 37, 155: 23, 157: 15, 158: 0}
# FDA Food Code 2022, 3-401.11(B)(2), minutes, from a training textbook (second-hand).
FOOD_CODE = {130: 112, 131: 89, 133: 56, 135: 36, 136: 28, 138: 18, 140: 12, 142: 8, 144: 5, 145: 4}


def test_every_degree_from_130_to_158_has_both_columns(tables: Tables) -> None:
    """FSIS Appendix A, 1999."""
    assert [row.inside_f for row in tables.heat.holds] == list(range(130, 159))
    assert all(row.seven_log_s >= row.six_and_a_half_log_s for row in tables.heat.holds)


def test_the_longer_column_is_that_of_the_older_state_codes(tables: Tables) -> None:
    longer = {int(row.inside_f): row.seven_log_s for row in tables.heat.holds}
    assert {f: longer[f] / 60 for f in MINNESOTA} == MINNESOTA
    assert {f: longer[f] for f in NEW_YORK} == NEW_YORK


def test_the_shorter_column_is_that_of_the_food_code(tables: Tables) -> None:
    shorter = {int(row.inside_f): row.six_and_a_half_log_s for row in tables.heat.holds}
    assert {f: shorter[f] / 60 for f in FOOD_CODE} == FOOD_CODE


def test_the_shorter_column_has_no_slip_of_the_pen(tables: Tables) -> None:
    """112 min x 10^(-(F - 130) / 10.07), an aid worked out from the rows: it finds a wrong digit, and no more.

    Up to 145 °F the source prints whole minutes, from there on whole seconds.
    """
    for row in tables.heat.holds[:-1]:
        fitted = 112 * 60 * 10 ** (-(float(row.inside_f) - 130) / 10.07)
        step = 60 if row.inside_f <= 145 else 2
        assert float(row.six_and_a_half_log_s) == pytest.approx(fitted, rel=0.04, abs=step)


@pytest.mark.parametrize(
    ("inside", "row"), [("129.9", None), ("130", 130), ("137.5", 137), ("158", 158), ("190", 158)]
)
def test_between_two_rows_the_longer_time_is_taken(tables: Tables, inside: str, row: int | None) -> None:
    found = tables.heat.hold(Fraction(inside))
    assert (None if found is None else found.inside_f) == row


def test_minimums_are_those_of_the_chart(tables: Tables) -> None:
    """FoodSafety.gov, Safe Minimum Internal Temperatures; NCHFP 2002, 6.1.3 for cured and smoked meat."""
    found = {rule: int(row.minimum_f) for rule, row in tables.heat.minimums.items()}
    chart = {
        "poultry-165": 165,
        "ground-160": 160,
        "whole-cut-145": 145,
        "fish-145": 145,
        "egg-dish-160": 160,
    }
    assert found.items() >= {**chart, "reheat-165": 165, "cured-smoked-160": 160}.items()
    assert tables.heat.minimums["whole-cut-145"].rest_min == 3
    assert set(found) <= set(tables.cautions)
    assert found["cured-smoked-160"] == tables.constant("cured_smoked_minimum_f")


def test_every_group_of_game_says_why(tables: Tables) -> None:
    """CDC, Trichinellosis, meats at risk: bear, wild boar, wild cat, fox, wolf, seal, walrus; birds by HHS and USGS."""
    wild = {animal.group for animal in tables.animals if animal.wild} - {"fish", "shellfish"}
    assert set(tables.heat.game) == wild
    danger = {group for group, hazard in tables.heat.game.items() if hazard.is_danger}
    assert danger == {"bear", "carnivore", "wild pig", "waterfowl", "upland bird"}
    for name in ("mountain lion", "fox", "wolf", "seal", "walrus", "raccoon", "polar bear", "wild boar"):
        animal = tables.animal(name)
        assert animal is not None, name
        assert animal.group in danger, name


SPOILT = [
    ("lethality.csv", "\n131,", "\n132,", "the rows are not a degree apart"),
    ("lethality.csv", "131,5340,5820", "131,5340,7320", "a hotter roast takes longer"),
    ("lethality.csv", "131,5340,5820", "131,5340,5280", "7-log takes less time than 6.5-log"),
    ("lethality.csv", "131,5340,5820", "131,-1,5820", "hold_6_5_s is negative"),
    ("minimums.csv", "stuffed-165", "poultry-165", "poultry-165 stands twice"),
    ("minimums.csv", "145,3", "hot,3", "minimum_f 'hot' is not a number"),
    ("game_hazards.csv", "bear,yes", "dragon,yes", "unknown group 'dragon'"),
    ("game_hazards.csv", "bear,yes", "carnivore,yes", "carnivore stands twice"),
    ("game_hazards.csv", "bear,yes", "bear,perhaps", "unknown danger 'perhaps'"),
]


@pytest.mark.parametrize(("file", "old", "new", "words"), SPOILT)
def test_a_wrong_row_is_refused(folder: Path, file: str, old: str, new: str, words: str) -> None:
    spoil(folder, file, old, new)
    with pytest.raises(TableError, match=words):
        read_tables(folder)


def test_a_table_of_no_game_is_refused(folder: Path) -> None:
    (folder / "game_hazards.csv").write_text("group,danger,reason,source,locator\n", encoding="utf-8")
    with pytest.raises(TableError, match="there is no row"):
        read_tables(folder)
