"""Sealed jars and blanching: published times and pressures, refusals, and what cannot be told."""

from __future__ import annotations

import csv
from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from generator.compute import Kitchen
from generator.compute.safety.facts.altitude import FEET_M, boiling_point_c
from generator.compute.safety.rules.canning import pressure_told
from generator.model.quantity import Temperature
from generator.problems import OutOfRange
from generator.tables import Tables
from tests.compute.safety.garden import Found, cook, of

Make = Callable[..., Path]
HERE = Path(__file__).parent
HOME = "altitude: 2100 ft\n"
PRESSURE = "at 12 lb on the dial gauge in the pressure canner"


def jars(
    make_book: Make,
    kitchen: Kitchen,
    lines: str,
    stage: str,
    *,
    makes: str = "4 pt",
    book: str = HOME,
    **more: str,
) -> Found:
    return cook(make_book, kitchen, of(lines, stage, makes=makes, **more), book)


BANDS = ((1000, "1000"), (3000, "3000"), (6000, "6000"), (10**6, "above"))


def boiling() -> list[dict[str, str]]:
    with (HERE / "boiling_water.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


# food, pints, quarts: USDA AIB 539, Guide 5, and MSU Extension 01600849, -482, -478, -886, -053
TIMES = [
    ("4 lb venison, diced", 75, 90),
    ("4 lb beef, diced", 75, 90),
    ("4 lb ground beef", 75, 90),
    ("4 lb rabbit", 75, 90),  # the same without bones as meat
    ("6 lb kale", 70, 90),
    ("2 lb beef, diced; 2 lb carrots; 2 qt water", 60, 75),
    ("2 lb beef, diced; 2 lb carrots", 75, 90),  # no liquid, no soup: the longest of any part
    # MSU 01600883 (Guide 4:9), 01600045, 01600235; AIB 539
    ("6 lb green beans", 20, 25),
    ("6 lb corn", 55, 85),
    ("6 lb beets", 30, 35),
    ("6 lb carrots", 25, 30),
    ("4 lb dried beans", 75, 90),
    ("4 lb pumpkin, cubed", 55, 90),
    ("2 lb corn; 2 lb beets", 55, 85),
    # from memory
    ("4 lb potatoes", 35, 40),
    ("4 lb okra", 25, 40),
    ("4 lb asparagus", 30, 40),
]
PINTS_ONLY = [("4 lb mushrooms", 45), ("4 lb peppers", 35), ("4 lb creamed corn", 85)]


@pytest.mark.parametrize(("lines", "pints", "quarts"), TIMES)
def test_tested_times_are_met_and_a_minute_less_is_refused(
    make_book: Make, kitchen: Kitchen, lines: str, pints: int, quarts: int
) -> None:
    for makes, minutes in (("4 pt", pints), ("4 qt", quarts)):
        found = jars(make_book, kitchen, lines, f"jar: hot pack, {minutes} min {PRESSURE}", makes=makes)
        assert found.errors == ()
        box = found.boxes["canning"]
        assert box.missing == ()
        assert f"{pints} min in pints, {quarts} min in quarts" in box.because
        short = jars(make_book, kitchen, lines, f"jar: hot pack, {minutes - 1} min {PRESSURE}", makes=makes)
        assert "is too short" in short.words
        assert "Or keep it in the fridge or the freezer." in short.words


@pytest.mark.parametrize(("lines", "pints"), PINTS_ONLY)
def test_what_has_a_time_in_pints_alone(make_book: Make, kitchen: Kitchen, lines: str, pints: int) -> None:
    found = jars(make_book, kitchen, lines, f"jar: half-pints, hot pack, {pints} min {PRESSURE}")
    assert found.errors == ()
    assert found.boxes["canning"].missing == ()
    large = jars(make_book, kitchen, lines, f"jar: quarts, hot pack, {pints} min {PRESSURE}")
    assert "No time was tested in quarts" in large.words


@pytest.mark.parametrize("row", boiling(), ids=lambda row: f"{row['food']} {row['size']}")
def test_minutes_in_boiling_water_by_height(tables: Tables, row: dict[str, str]) -> None:
    """USDA AIB 539, as printed in the MSU sheets: 0 to 1,000, to 3,000, to 6,000, above 6,000 ft."""
    found = next(one for one in tables.garden.boiling if (one.food, one.size) == (row["food"], row["size"]))
    for feet in (0, 1000, 1001, 3000, 3001, 6000, 6001, 9000):
        band = next(column for top, column in BANDS if feet <= top)
        assert found.minutes(Fraction(feet)) == int(row[band])


# altitude [ft], dial gauge, weighted gauge [lb]: USDA AIB 539, as printed in the MSU sheets
PRESSURES = [
    (0, 11, 10),
    (1000, 11, 10),
    (1001, 11, 15),
    (2000, 11, 15),
    (2001, 12, 15),
    (4000, 12, 15),
    (4001, 13, 15),
    (6000, 13, 15),
    (6001, 14, 15),
    (8000, 14, 15),
]


@pytest.mark.parametrize(("height", "dial", "weighted"), PRESSURES)
def test_pressure_by_altitude(tables: Tables, height: int, dial: int, weighted: int) -> None:
    told = pressure_told(height * FEET_M, tables)
    assert told is not None
    assert f"{dial} lb on a dial gauge or {weighted} lb on a weighted gauge" in told


def test_above_8000_feet_the_extension_office_is_asked(
    make_book: Make, kitchen: Kitchen, tables: Tables
) -> None:
    assert pressure_told(8001 * FEET_M, tables) is None
    found = jars(
        make_book, kitchen, "4 lb venison", f"jar: hot pack, 75 min {PRESSURE}", book="altitude: 8500 ft\n"
    )
    assert "ask the extension office" in found.boxes["canning"].because


@pytest.mark.parametrize("stage", ["jar: in the fridge", "pack: in jars", "boil: 10 min"])
def test_a_jar_in_the_cold_is_not_canned(make_book: Make, kitchen: Kitchen, stage: str) -> None:
    found = jars(make_book, kitchen, "5 lb kale", stage, keep="fridge: 3 days")
    assert not {"canning", "canning-untested"} & set(found.boxes)


# vegetable, minutes: MSU 01600049 and NCHFP on asparagus (seen), the others second-hand or from memory
BLANCHED = [
    ("4 lb collards", 3),
    ("4 lb turnip greens", 2),
    ("4 lb kale", 2),
    ("4 lb small asparagus", 2),
    ("4 lb large asparagus", 4),
    ("4 lb green beans", 3),
    ("4 lb carrots, sliced", 2),
    ("4 lb okra, large", 4),
    ("4 lb nettles", 2),
]


@pytest.mark.parametrize(("line", "minutes"), BLANCHED)
def test_blanching_for_the_published_minutes(
    make_book: Make, kitchen: Kitchen, line: str, minutes: int
) -> None:
    def blanched(length: str, book: str = HOME) -> Found:
        return cook(make_book, kitchen, of(line, f"blanch: {length}", "freeze: in the freezer"), book)

    met = blanched(f"{minutes} min")
    assert "blanch-time" not in met.boxes
    (fact,) = met.facts("Blanching: ")
    assert f" {minutes} min" in fact
    short = blanched(f"{minutes - 1} min")
    assert short.boxes["blanch-time"].missing == ()
    assert f"{minutes} min" in short.boxes["blanch-time"].because
    high = blanched(f"{minutes} min", "altitude: 5200 ft\n")
    assert f"{minutes + 1} min" in high.boxes["blanch-time"].because


def points() -> list[dict[str, str]]:
    with (HERE / "boiling_points.csv").open(encoding="utf-8", newline="") as stream:
        return list(csv.DictReader(stream))


@pytest.mark.parametrize("row", points(), ids=lambda row: row["feet"])
def test_boiling_point_against_published_figures(row: dict[str, str]) -> None:
    celsius = boiling_point_c(altitude_m=Fraction(row["feet"]) * FEET_M)
    fahrenheit = Temperature(celsius, "C").fahrenheit
    assert row["source"]
    assert abs(fahrenheit - Fraction(row["boil_f"])) <= Fraction(row["tolerance"])


def test_boiling_point_refuses_what_it_is_not_valid_for() -> None:
    for height in (-1, 4001):
        with pytest.raises(OutOfRange, match="from 0 to 4000"):
            boiling_point_c(altitude_m=Fraction(height))
