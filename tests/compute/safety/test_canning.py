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
BRINE = "cure:\n  method: brine\n  water: 1 gal\n  salt: 3 %\n  curing salt: 100 ppm\n"
PRESSURE = "in the pressure canner"


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


# food, pints, quarts: USDA AIB 539, Guide 5, and MSU Extension 01600849, -482, -478, -886, -053
TIMES = [
    ("4 lb venison, diced", 75, 90),
    ("4 lb beef, diced", 75, 90),
    ("4 lb ground beef", 75, 90),
    ("4 lb rabbit", 75, 90),  # the same without bones as meat
    ("6 lb kale", 70, 90),
    ("2 lb beef, diced; 2 lb carrots", 60, 75),
]


@pytest.mark.parametrize(("lines", "pints", "quarts"), TIMES)
def test_tested_times_are_met_and_a_minute_less_is_refused(
    make_book: Make, kitchen: Kitchen, lines: str, pints: int, quarts: int
) -> None:
    for makes, minutes in (("4 pt", pints), ("4 qt", quarts)):
        found = jars(make_book, kitchen, lines, f"jar: {minutes} min {PRESSURE}", makes=makes)
        assert found.errors == ()
        box = found.boxes["canning"]
        assert box.missing == ()
        assert f"{pints} min in pints, {quarts} min in quarts" in box.because
        short = jars(make_book, kitchen, lines, f"jar: {minutes - 1} min {PRESSURE}", makes=makes)
        assert "is too short" in short.words
        assert "Or keep it in the fridge or the freezer." in short.words


def test_stock_poultry_with_bones_and_fish(make_book: Make, kitchen: Kitchen) -> None:
    """MSU 01600478 (20 and 25), 01600482 (65 and 75 with bones); AIB 539 (fish 100 in pints, no quarts)."""
    stock = jars(
        make_book,
        kitchen,
        "4 lb beef bones; 1 gal water",
        f"jar: 25 min {PRESSURE}",
        makes="4 qt",
        name="Beef stock",
    )
    assert "20 min in pints, 25 min in quarts" in stock.boxes["canning"].because
    rabbit = jars(
        make_book, kitchen, "", f"jar: 65 min {PRESSURE}", meat="animal: rabbit; weight: 4 lb; bone: in"
    )
    assert "with bones: 65 min in pints, 75 min in quarts" in rabbit.boxes["canning"].because
    trout = jars(make_book, kitchen, "4 lb trout", f"jar: 100 min {PRESSURE}")
    assert "100 min in pints, no quarts" in trout.boxes["canning"].because
    assert (
        "No time was tested in quarts"
        in jars(make_book, kitchen, "4 lb trout", f"jar: 100 min {PRESSURE}", makes="4 qt").words
    )


def test_smoked_fish_is_the_one_smoked_food_with_a_time(make_book: Make, kitchen: Kitchen) -> None:
    """NCHFP, Smoked Fish: 110 minutes in pints."""
    trout = "animal: trout; cut: fillet; weight: 3 lb"
    course = ("hot smoke: 2 h at 180 °F to 160 °F inside", f"jar: 110 min {PRESSURE}")
    found = cook(make_book, kitchen, of("", *course, meat=trout), HOME)
    assert "110 min in pints" in found.boxes["canning"].because
    assert "canning-cured" not in found.boxes


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
    found = jars(make_book, kitchen, "4 lb venison", f"jar: 75 min {PRESSURE}", book="altitude: 8500 ft\n")
    assert "ask the extension office" in found.boxes["canning"].because


@pytest.mark.parametrize(
    ("stage", "makes", "book", "missing"),
    [
        (f"jar: 75 min {PRESSURE}", "4 pt", "", ("altitude in book.yaml",)),
        (f"jar: 75 min {PRESSURE}", "9 lb", HOME, ("makes",)),
        (f"jar: {PRESSURE}", "4 pt", HOME, ("course",)),
        ("jar: 75 min", "4 pt", HOME, ("course",)),
    ],
)
def test_what_a_jar_does_not_tell(
    make_book: Make, kitchen: Kitchen, stage: str, makes: str, book: str, missing: tuple[str, ...]
) -> None:
    found = jars(make_book, kitchen, "4 lb beef", stage, makes=makes, book=book)
    assert found.boxes["canning"].missing == missing
    assert found.errors == ()


CURED = [
    (
        "",
        "jar: 90 min in the pressure canner",
        "animal: elk; cut: shank; weight: 6 lb; thickness: 3 in; bone: out",
        BRINE,
    ),
    ("2 lb corned beef", "jar: 90 min in the pressure canner", "", ""),
    ("2 lb smoked turkey; 1 lb dry beans", "jar: 90 min in the pressure canner", "", ""),
]


@pytest.mark.parametrize(("lines", "stage", "meat", "more"), CURED)
def test_cured_meat_in_a_jar_is_refused(
    make_book: Make, kitchen: Kitchen, lines: str, stage: str, meat: str, more: str
) -> None:
    """Clemson Extension, canning tip 55, citing NCHFP: no tested process for cured, brined or corned meat."""
    course = (
        ("cure: 6 days in the fridge", "simmer: 2 h to 165 °F inside", stage)
        if more
        else ("simmer: 2 h to 165 °F inside", stage)
    )
    found = cook(make_book, kitchen, of(lines, *course, meat=meat, more=more), HOME)
    assert "No canning time was tested for cured, brined or smoked meat" in found.words
    assert "(rule canning-cured)" in found.words


def test_a_stew_with_a_smoked_component_is_not_canned(make_book: Make, kitchen: Kitchen) -> None:
    shank = of(
        "",
        "cure: 6 days in the fridge",
        "hot smoke: 6 h at 225 °F to 165 °F inside",
        name="Shank",
        makes="4 lb",
        meat="animal: elk; cut: shank; weight: 6 lb; thickness: 3 in; pieces: 4",
        more=BRINE,
    )
    stew = of(
        "1 lb [shank](shank.md); 1 lb carrots",
        "simmer: 2 h to 165 °F inside",
        "jar: 75 min in the pressure canner",
    )
    assert (
        "Elk shank is smoked, and is sealed in a jar"
        in cook(make_book, kitchen, stew, HOME, shank=shank).words
    )


@pytest.mark.parametrize(
    "lines",
    [
        "4 lb venison",
        "2 qt beef broth",
        "6 lb kale",
        "4 lb mushrooms",
        "4 lb green beans; 1 tbsp vinegar, 5 %",
    ],
)
def test_low_acid_in_a_water_bath_is_refused(make_book: Make, kitchen: Kitchen, lines: str) -> None:
    """USDA guide; Utah State Extension: above pH 4.6 a pressure canner only. A spoon of vinegar changes nothing."""
    found = jars(make_book, kitchen, lines, "jar: 3 h in the water bath")
    assert "a water bath does not get hot enough" in found.words


@pytest.mark.parametrize("line", ["2 tbsp flour", "1 cup noodles", "1 cup rice", "2 cups milk"])
def test_thickened_soup_is_refused(make_book: Make, kitchen: Kitchen, line: str) -> None:
    """MSU 01600886: no thickener, noodles, rice, flour, milk."""
    found = jars(make_book, kitchen, f"2 lb beef; 2 lb carrots; {line}", f"jar: 90 min {PRESSURE}")
    assert "thickens what is canned" in found.words


def test_food_without_a_tested_time_says_so(make_book: Make, kitchen: Kitchen) -> None:
    found = jars(make_book, kitchen, "4 lb pumpkin", f"jar: 90 min {PRESSURE}")
    assert "knows no tested time" in found.boxes["canning-untested"].because
    assert (
        found.boxes["canning-untested"].stage is None
    )  # before the method: it is read before the jars are bought


@pytest.mark.parametrize("stage", ["jar: in the fridge", "pack: in jars", "boil: 10 min"])
def test_a_jar_in_the_cold_is_not_canned(make_book: Make, kitchen: Kitchen, stage: str) -> None:
    found = jars(make_book, kitchen, "5 lb kale", stage, keep="fridge: 3 days")
    assert not {"canning", "canning-untested"} & set(found.boxes)


def test_jam_in_a_water_bath_is_not_low_in_acid(make_book: Make, kitchen: Kitchen) -> None:
    found = jars(make_book, kitchen, "4 lb crabapples; 4 cups white sugar", "jar: 10 min in the water bath")
    assert (found.boxes, found.errors) == ({}, ())


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


def test_blanching_without_size_or_length_cannot_be_told(make_book: Make, kitchen: Kitchen) -> None:
    freeze = "freeze: in the freezer"
    size = cook(make_book, kitchen, of("4 lb asparagus", "blanch: 3 min", freeze), HOME).boxes["blanch-time"]
    assert size.missing == ("ingredients",)
    length = cook(make_book, kitchen, of("4 lb kale", "blanch: in the pot", freeze), HOME).boxes[
        "blanch-time"
    ]
    assert length.missing == ("course",)


def test_softer_words_for_what_was_not_seen(make_book: Make, kitchen: Kitchen) -> None:
    course = ("blanch: 5 min", "freeze: in the freezer")
    (fact,) = cook(make_book, kitchen, of("4 lb rutabaga, cubed", *course), HOME).facts("Blanching: ")
    assert "by common advice" in fact
    (seen,) = cook(make_book, kitchen, of("4 lb collards", *course), HOME).facts("Blanching: ")
    assert "by common advice" not in seen
    (beets,) = cook(make_book, kitchen, of("4 lb beets", *course), HOME).facts("Blanching: ")
    assert "cooked until tender, 25 to 50 min" in beets


def test_blanching_for_the_table_is_not_judged(make_book: Make, kitchen: Kitchen) -> None:
    found = cook(make_book, kitchen, of("4 lb green beans", "blanch: 1 min", keep="fridge: 3 days"), HOME)
    assert found.boxes == {}
    assert found.facts("Blanching") == []


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


def test_altitude_is_told_where_something_boils(make_book: Make, kitchen: Kitchen) -> None:
    def lines(stage: str, book: str) -> list[str]:
        return cook(make_book, kitchen, of("2 lb potatoes", stage), book).facts("At ")

    (line,) = lines("simmer: 30 min", "altitude: 5000 ft\n")
    assert "At 5,000 ft (1,524 m) water boils near 203 °F (95 °C)" in line
    assert "Temperatures inside stay what they are" in line
    assert lines("simmer: 30 min", "altitude: 900 ft\n") == []
    assert lines("simmer: 30 min", "") == []
    assert lines("roast: 30 min", "altitude: 5000 ft\n") == []
