"""The brine table: its columns against each other and against other published tables, and its refusals."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from generator.model.published import BrineRow
from generator.tables import TableError, load_tables, read_tables
from tests.tables.conftest import spoil

TABLES = load_tables()
GALLON = Fraction("8.328")
"lb of water in a US gallon at 60 F, 0 degrees of the US table."

WATER_IN_BRINE = {
    # degrees: lb of water in a US gallon of brine, US table at 60 F as copied (second-hand)
    5: "8.292", 10: "8.262", 15: "8.222", 20: "8.188", 25: "8.152",
    30: "8.113", 35: "8.073", 40: "8.030", 45: "7.985", 49: "7.947",
}  # fmt: skip
GRAMS_PER_LITRE = {
    # degrees: g in a litre of brine, UK training material on smoking fish (seafoodacademy.org)
    10: "1016.8", 20: "1035.6", 30: "1055.6", 40: "1075.5", 50: "1095.5",
    60: "1115.7", 70: "1136.0", 80: "1157.4", 90: "1179.1", 100: "1201.2",
}  # fmt: skip


def row_of(degrees: int) -> BrineRow:
    return next(row for row in TABLES.brine if row.degrees == degrees)


@pytest.mark.parametrize("row", TABLES.brine, ids=lambda row: f"{row.degrees} degrees")
def test_pounds_of_salt_follow_from_the_strength(row: BrineRow) -> None:
    # The identity that the printed rows hold to 0.001: lb of salt = 8.328 p / (100 - p).
    salt = GALLON * row.percent / (100 - row.percent)
    assert abs(salt - row.lb_salt_per_us_gal_water) <= Fraction("0.001")


@pytest.mark.parametrize("row", TABLES.brine, ids=lambda row: f"{row.degrees} degrees")
def test_degrees_are_per_cent_of_saturation(row: BrineRow) -> None:
    # 100 degrees at 60 F is 26.395 % (salometer sheet of the industry).
    assert abs(row.percent - row.degrees * Fraction("0.26395")) <= Fraction("0.001")


@pytest.mark.parametrize("degrees", WATER_IN_BRINE)
def test_specific_gravity_follows_from_the_printed_water(degrees: int) -> None:
    row = row_of(degrees)
    brine = Fraction(WATER_IN_BRINE[degrees]) / (1 - row.percent / 100)
    assert abs(brine / GALLON - row.specific_gravity) <= Fraction("0.001")


@pytest.mark.parametrize("degrees", GRAMS_PER_LITRE)
def test_specific_gravity_agrees_with_the_metric_table(degrees: int) -> None:
    metric = Fraction(GRAMS_PER_LITRE[degrees]) / Fraction("998.3")
    assert abs(metric - row_of(degrees).specific_gravity) <= Fraction("0.0015")


def test_worked_out_figures_are_marked() -> None:
    for row in TABLES.brine:
        assert "specific_gravity" not in row.published, "none is printed"
        assert ("percent" in row.published) is (row.degrees < 50 or row.degrees == 100)


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("10,2.640,0.226", "10,1.2,0.226", "percent is not above that of the row before"),
        ("45,11.878,1.123,1.088", "45,11.878,1.123,1.078", "specific_gravity is not above"),
        ("100,26.395,2.986,1.203,percent", "100,26.395,2.986,1.203,degrees", "published names 'degrees'"),
        ('oregon-brine-table,"49', 'oregon,"49', "unknown source 'oregon'"),
    ],
)
def test_a_wrong_row_is_refused(folder: Path, old: str, new: str, said: str) -> None:
    spoil(folder, "brine.csv", old, new)
    with pytest.raises(TableError, match=said):
        read_tables(folder)
