"""The one rounding table: no gap, no overlap, the published guide's steps, and never over a limit."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise

import pytest

from generator.model.quantity import Temperature
from generator.model.rounding import RoundingRow, find_row, round_by_row
from generator.tables import load_tables
from generator.tables.measures import USES

TABLES = load_tables()
ROWS = TABLES.rounding
SYSTEMS = ("us", "metric", "imperial")
ABSOLUTE_ZERO = {"degF": Fraction("-459.67"), "degC": Fraction("-273.15")}


def ladder(use: str, system: str) -> list[RoundingRow]:
    return sorted((row for row in ROWS if (row.use, row.system) == (use, system)), key=lambda row: row.low)


@pytest.mark.parametrize("use", USES)
@pytest.mark.parametrize("system", SYSTEMS)
def test_no_gap_and_no_overlap_from_nothing_up(use: str, system: str) -> None:
    rows = ladder(use, system)
    assert rows
    no_less = {} if use == "temperature change" else ABSOLUTE_ZERO
    assert rows[0].low == no_less.get(rows[0].units[0], 0)
    assert rows[-1].high is None
    for lower, upper in pairwise(rows):
        assert lower.high == upper.low


@pytest.mark.parametrize("use", USES)
@pytest.mark.parametrize("system", SYSTEMS)
def test_larger_amounts_never_have_finer_steps(use: str, system: str) -> None:
    sizes = [row.step * factor(row) for row in ladder(use, system)]
    assert sizes == sorted(sizes)


def factor(row: RoundingRow) -> Fraction:
    unit = TABLES.units.get(row.units[-1])
    return Fraction(1) if unit is None else unit.factor


def rounded(use: str, system: str, amount: str, unit: str) -> Fraction:
    """An amount in the last unit of its row, after rounding."""
    base = Fraction(amount) * TABLES.units[unit].factor
    row = find_row(ROWS, use=use, system=system, value=base)
    return round_by_row(row, base / factor(row))


@pytest.mark.parametrize(
    ("amount", "unit", "expected"),
    [
        # Guide for rounding off weights and measures (USDA and NFSMI), worked by hand.
        ("5.37", "ounce", "5.25"),
        ("5.38", "ounce", "5.5"),
        ("7.4", "ounce", "7.5"),
        ("13.3", "ounce", "13.5"),
        ("52.4", "ounce", "52"),  # 3 lb 4.4 oz
        ("7.6", "pound", "7.5"),
        ("10", "ounce", "10"),  # an end point belongs to the row that starts there
        ("10.2", "ounce", "10"),
        ("40.4", "ounce", "40"),
        ("80", "ounce", "5"),  # in pounds
    ],
)
def test_weights_of_the_published_guide(amount: str, unit: str, expected: str) -> None:
    for system in ("us", "imperial"):
        assert rounded("ingredient weight", system, amount, unit) == Fraction(expected)


@pytest.mark.parametrize(
    ("amount", "unit", "expected", "last"),
    [
        # The same guide, worked by hand; the step stands in the last unit.
        ("2.3", "us_tsp", "2.25", "us_tsp"),
        ("2.4", "us_tbsp", "7.25", "us_tsp"),  # 2 tbsp 1 1/4 tsp
        ("2.6", "us_cup", "2.5", "us_cup"),
        ("2.8", "us_quart", "11", "us_cup"),  # 2 qt 3 cups
        ("1.55", "us_gallon", "25", "us_cup"),  # 1 gal 9 cups
        ("1.125", "us_cup", "18", "us_tbsp"),  # 3/4 cup x 1 1/2: 1 cup 2 tbsp
        ("1/6", "us_cup", "8", "us_tsp"),  # half of 1/3 cup: 2 tbsp 2 tsp
        ("1", "us_tbsp", "3", "us_tsp"),
        ("12.3", "us_gallon", "12.5", "us_gallon"),
        ("23.4", "us_gallon", "23", "us_gallon"),
    ],
)
def test_measures_of_the_published_guide(amount: str, unit: str, expected: str, last: str) -> None:
    row = find_row(
        ROWS,
        use="ingredient volume",
        system="us",
        value=Fraction(amount) * TABLES.units[unit].factor,
    )
    assert row.units[-1] == last
    assert rounded("ingredient volume", "us", amount, unit) == Fraction(expected)


def test_a_us_tablespoon_is_a_tablespoon_in_britain() -> None:
    # 14.79 mL is nearest to three teaspoons of 5 mL, which is one tablespoon of 15 mL.
    row = find_row(ROWS, use="ingredient volume", system="imperial", value=TABLES.units["us_tbsp"].factor)
    assert row.units == ("metric_tbsp", "metric_tsp")
    assert rounded("ingredient volume", "imperial", "1", "us_tbsp") == 3


@pytest.mark.parametrize(
    ("amount", "expected"),
    [("1.24", "1.2"), ("2.3", "2.5"), ("4.2", "4"), ("7.4", "7"), ("99.4", "99")],
)
def test_millilitres_of_the_label_rule(amount: str, expected: str) -> None:
    # 21 CFR 101.9(b)(7), from memory: 0.1 mL below 2, 0.5 from 2 to 5, whole from 5.
    assert rounded("ingredient volume", "metric", amount, "millilitre") == Fraction(expected)


@pytest.mark.parametrize("system", SYSTEMS)
def test_salt_of_a_cure_is_moved_by_one_per_cent_at_most(system: str) -> None:
    from_g = Fraction(10) if system == "metric" else TABLES.units["ounce"].factor / 2
    tested = 0
    for row in ladder("cure weight", system):
        least = max(row.low, from_g)
        if row.high is None or row.high > from_g:
            tested += 1
            assert row.step * factor(row) / 2 <= least / 100, row
    assert tested >= 2


@pytest.mark.parametrize("use", ["curing salt", "weigh curing salt"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_curing_salt_is_in_grams_and_goes_down(use: str, system: str) -> None:
    for row in ladder(use, system):
        assert row.units == ("gram",)
        assert row.direction == "down"
    for grams in ("0.009", "0.999", "1.09", "99.99", "100.9", "1234.5"):
        assert rounded(use, system, grams, "gram") <= Fraction(grams)
    assert rounded("curing salt", system, "22.68", "gram") == Fraction("22.6")
    assert rounded("weigh curing salt", system, "22.689", "gram") == Fraction("22.68")


@pytest.mark.parametrize("use", ["ingredient weight", "ingredient volume", "count"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_below_the_finest_measure_nothing_goes_up(use: str, system: str) -> None:
    least = ladder(use, system)[0]
    assert least.direction == "down"
    assert least.style in ("pinch", "trace")


@pytest.mark.parametrize("system", SYSTEMS)
def test_the_base_of_a_cure_goes_up(system: str) -> None:
    for row in ladder("cure base", system):
        assert row.direction == "up"
    for grams in ("0.5", "999.1", "2267.96185", "12345.6"):
        base = Fraction(grams)
        row = find_row(ROWS, use="cure base", system=system, value=base)
        shown = round_by_row(row, base / factor(row)) * factor(row)
        assert base <= shown <= base + row.step * factor(row)


@pytest.mark.parametrize("use", ["bought weight", "bought volume", "bought count", "bought curing salt"])
@pytest.mark.parametrize("system", SYSTEMS)
def test_what_is_bought_goes_up(use: str, system: str) -> None:
    for row in ladder(use, system):
        assert row.direction == "up"
        assert row.source == "house"


@pytest.mark.parametrize("system", SYSTEMS)
def test_curing_salt_is_bought_in_grams_and_never_a_gram_too_much(system: str) -> None:
    for row in ladder("bought curing salt", system):
        assert row.units == ("gram",)
        assert row.step <= 1


@pytest.mark.parametrize(
    ("use", "system", "amount", "unit", "expected"),
    [
        # By hand, in the last unit of the row: up to the next 1/4 oz, 1/2 oz, oz, 1/4 lb, 1/2 lb ...
        ("bought weight", "us", "0.08", "ounce", "1/4"),
        ("bought weight", "us", "3.1", "ounce", "3.25"),
        ("bought weight", "us", "8.54", "ounce", "9"),
        ("bought weight", "us", "28.07", "ounce", "29"),
        ("bought weight", "us", "7.716", "pound", "7.75"),
        ("bought weight", "us", "20.1", "pound", "20.5"),
        ("bought weight", "metric", "6", "gram", "6"),
        ("bought weight", "metric", "87.5", "gram", "90"),
        ("bought weight", "metric", "242", "gram", "250"),
        ("bought weight", "metric", "3039", "gram", "3.05"),
        ("bought volume", "us", "6", "us_tbsp", "0.5"),
        ("bought volume", "metric", "118.3", "millilitre", "150"),
        ("bought volume", "imperial", "26.1", "imp_fl_oz", "27"),
    ],
)
def test_steps_of_what_can_be_bought(use: str, system: str, amount: str, unit: str, expected: str) -> None:
    assert rounded(use, system, amount, unit) == Fraction(expected)


@pytest.mark.parametrize(
    ("use", "fahrenheit", "celsius"),
    [
        # (F - 32) x 5/9 by hand: 62.78, 68.33, 71.11, 73.89, 35.00, 4.44, 176.67, 93.33, -17.78.
        ("minimum temperature", 145, 63),
        ("minimum temperature", 155, 69),
        ("minimum temperature", 160, 72),
        ("minimum temperature", 165, 74),
        ("maximum temperature", 95, 35),
        ("maximum temperature", 40, 4),
        ("temperature", 350, 177),
        ("temperature", 200, 93),
        ("temperature", 0, -18),
    ],
)
def test_temperatures(use: str, fahrenheit: int, celsius: int) -> None:
    exact = Temperature(Fraction(fahrenheit), "F").celsius
    row = find_row(ROWS, use=use, system="metric", value=exact)
    assert row.units == ("degC",)
    assert round_by_row(row, exact) == celsius


def test_minimum_goes_up_and_maximum_down_in_every_system() -> None:
    directions = {"temperature": "nearest", "minimum temperature": "up", "maximum temperature": "down"}
    for use, direction in directions.items():
        for system in SYSTEMS:
            assert {row.direction for row in ladder(use, system)} == {direction}


def test_an_amount_below_the_table_is_a_bug() -> None:
    with pytest.raises(LookupError, match="no rounding row"):
        find_row(ROWS, use="ingredient weight", system="us", value=Fraction(-1))
