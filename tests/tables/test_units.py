"""Units against print (NIST SP 811 and the laws behind it) and against two programs that know units."""

from __future__ import annotations

import csv
import subprocess
from fractions import Fraction
from pathlib import Path

import pint
import pytest

from generator.model.quantity import Dimension
from generator.tables import AmbiguousUnit, load_tables
from generator.tables.load import FOLDER
from generator.tables.measures import BASES
from tests.tables.gaps import UnitPlaces, unit_gaps

PUBLISHED = Path(__file__).parent.parent / "published" / "units.csv"
TABLES = load_tables()

PINT = {
    **{key: key for key in ("gram", "milligram", "kilogram", "pound", "ounce", "inch", "foot")},
    "millimetre": "millimeter",
    "centimetre": "centimeter",
    "metre": "meter",
    "millilitre": "milliliter",
    "centilitre": "centiliter",
    "decilitre": "deciliter",
    "litre": "liter",
    "us_gallon": "gallon",
    "us_quart": "quart",
    "us_pint": "pint",
    "us_cup": "cup",
    "us_gill": "gill",
    "us_fl_oz": "fluid_ounce",
    "us_tbsp": "tablespoon",
    "us_tsp": "teaspoon",
    "bushel": "bushel",
    "peck": "peck",
    "imp_gallon": "imperial_gallon",
    "imp_quart": "imperial_quart",
    "imp_pint": "imperial_pint",
    "imp_gill": "imperial_gill",
    "imp_fl_oz": "imperial_fluid_ounce",
    "imp_cup": "imperial_cup",
    "minute": "minute",
    "hour": "hour",
    "day": "day",
    "week": "week",
}
"Names in pint's own registry."

GNU = {
    **{key: key for key in ("gram", "milligram", "kilogram", "pound", "ounce", "inch", "foot")},
    **{key: key for key in ("millimetre", "centimetre", "metre")},
    **{key: key for key in ("millilitre", "centilitre", "decilitre", "litre")},
    **{key: key for key in ("minute", "hour", "day", "week")},
    "us_gallon": "usgallon",
    "us_quart": "usquart",
    "us_pint": "uspint",
    "us_cup": "uscup",
    "us_gill": "usgill",
    "us_fl_oz": "usfloz",
    "us_tbsp": "ustbsp",
    "us_tsp": "ustsp",
    "bushel": "usbushel",
    "peck": "uspeck",
    "imp_gallon": "brgallon",
    "imp_quart": "brquart",
    "imp_pint": "brpint",
    "imp_gill": "brgill",
    "imp_fl_oz": "brfloz",
    "imp_cup": "brcup",
    "metric_cup": "metriccup",
    "au_tbsp": "australiatablespoon",
}
"Names in GNU units."

OWN = {"metric_tsp", "metric_tbsp", "month", "year"}
"Units that neither program has: 5 mL, 15 mL and 30 days by the chart, by practice and by house choice; 365 days by NIST."


def rows() -> list[dict[str, str]]:
    with PUBLISHED.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['unit']}-{row['source']}")
def test_unit_has_its_published_size(row: dict[str, str]) -> None:
    factor = TABLES.units[row["unit"]].factor
    printed = Fraction(row["base_value"])
    decimals = len(row["base_value"].partition(".")[2])
    slack = Fraction(1, 2 * 10**decimals) if row["agreement"] == "last digit" else Fraction(0)
    assert row["agreement"] in ("exact", "last digit")
    assert row["source"]
    assert row["locator"]
    assert abs(factor - printed) <= slack


def test_every_unit_stands_wherever_it_is_needed() -> None:
    published = {row["unit"] for row in rows()}
    assert unit_gaps(UnitPlaces(folder=FOLDER, published=published, opinions={*PINT, *GNU, *OWN})) == []


@pytest.fixture(scope="module")
def registry() -> pint.UnitRegistry[Fraction]:
    return pint.UnitRegistry(non_int_type=Fraction)


@pytest.mark.parametrize("key", sorted(PINT))
def test_pint_has_the_same_size(key: str, registry: pint.UnitRegistry[Fraction]) -> None:
    base = {"gram": "gram", "millilitre": "milliliter", "millimetre": "millimeter", "minute": "minute"}
    unit = TABLES.units[key]
    theirs = registry.convert(Fraction(1), PINT[key], base[BASES[unit.dimension]])
    assert Fraction(theirs) == unit.factor


@pytest.mark.parametrize("key", sorted(GNU))
def test_gnu_units_has_the_same_size(key: str) -> None:
    unit = TABLES.units[key]
    command = ["units", "--terse", "--output-format", "%.15g", f"1 {GNU[key]}", BASES[unit.dimension]]
    answer = subprocess.run(command, capture_output=True, text=True, check=True).stdout
    theirs = Fraction(answer.split()[0])
    assert abs(theirs / unit.factor - 1) < Fraction(1, 10**12)


def test_steps_between_us_measures() -> None:
    # NIST Handbook 44, Appendix C: 1 gal = 4 qt = 8 pt = 16 cups = 256 tbsp = 768 tsp = 32 gills.
    gallon = TABLES.units["us_gallon"].factor
    steps = {"us_quart": 4, "us_pint": 8, "us_cup": 16, "us_gill": 32, "us_tbsp": 256, "us_tsp": 768}
    assert {key: gallon / TABLES.units[key].factor for key in steps} == steps


def test_sizes_across_the_ocean() -> None:
    # Computed from the legal gallons (quantities by law): imperial pint in US pints, fluid ounce in fluid ounces.
    units = TABLES.units
    pints = units["imp_pint"].factor / units["us_pint"].factor
    assert abs(pints - Fraction("1.20095")) < Fraction(1, 10**5)
    ounces = units["imp_fl_oz"].factor / units["us_fl_oz"].factor
    assert abs(ounces - Fraction("0.960760")) < Fraction(1, 10**6)
    spoon = units["au_tbsp"].factor / units["us_tsp"].factor
    assert abs(spoon - Fraction("4.0577")) < Fraction(1, 10**4)


@pytest.mark.parametrize(
    ("spelling", "us", "metric", "imperial"),
    [
        ("cup", "us_cup", "metric_cup", "imp_cup"),
        ("c", "us_cup", "metric_cup", "imp_cup"),
        ("C", "us_cup", "metric_cup", "imp_cup"),
        ("T", "us_tbsp", "metric_tbsp", "metric_tbsp"),
        ("t", "us_tsp", "metric_tsp", "metric_tsp"),
        ("Tbsp", "us_tbsp", "metric_tbsp", "metric_tbsp"),
        ("teaspoonful", "us_tsp", "metric_tsp", "metric_tsp"),
        ("lb.", "pound", "pound", "pound"),
        ("#", "pound", "pound", "pound"),
        ("Ozs", "ounce", "ounce", "ounce"),
        ("mL", "millilitre", "millilitre", "millilitre"),
        ("cc", "millilitre", "millilitre", "millilitre"),
        ('"', "inch", "inch", "inch"),
        ("hrs", "hour", "hour", "hour"),
        ("US  pint", "us_pint", "us_pint", "us_pint"),
        ("imp gal", "imp_gallon", "imp_gallon", "imp_gallon"),
        ("metric cup", "metric_cup", "metric_cup", "metric_cup"),
        ("Australian tbsp", "au_tbsp", "au_tbsp", "au_tbsp"),
    ],
)
def test_spelling_means_a_unit_by_system(spelling: str, us: str, metric: str, imperial: str) -> None:
    for system, key in (("us", us), ("metric", metric), ("imperial", imperial)):
        unit = TABLES.find_unit(spelling, system)
        assert unit is not None
        assert unit.key == key


@pytest.mark.parametrize("spelling", ["pint", "pt", "Quart", "qt", "gallon", "gal", "fl oz", "gill"])
def test_what_a_metric_book_leaves_open_is_refused(spelling: str) -> None:
    us, imperial = TABLES.find_unit(spelling, "us"), TABLES.find_unit(spelling, "imperial")
    assert us is not None
    assert imperial is not None
    assert us.factor != imperial.factor
    with pytest.raises(AmbiguousUnit) as caught:
        TABLES.find_unit(spelling, "metric")
    assert {TABLES.find_unit(choice, "metric") for choice in caught.value.choices} == {us, imperial}


def test_refusal_says_what_to_write() -> None:
    with pytest.raises(AmbiguousUnit, match="'pint' is not one unit; write US pint or imperial pint"):
        TABLES.find_unit("pint", "metric")


@pytest.mark.parametrize("spelling", ["gr", "pk"])
def test_spelling_of_two_units_is_refused_everywhere(spelling: str) -> None:
    # gr: gram or grain; pk: peck or pack.
    for system in ("us", "metric", "imperial"):
        with pytest.raises(AmbiguousUnit):
            TABLES.find_unit(spelling, system)


@pytest.mark.parametrize("spelling", ["", "cupps", "Mg", "MG", "femtogallon", "pinch", "clove", "stone"])
def test_unknown_spelling_gives_no_unit(spelling: str) -> None:
    assert TABLES.find_unit(spelling, "us") is None


def test_choices_are_spellings_or_counted_things() -> None:
    for name in (*TABLES.unit_names.exact.values(), *TABLES.unit_names.folded.values()):
        for choice in name.choices:
            assert TABLES.find_unit(choice, "metric") or TABLES.counted(choice), choice


def test_spellings_stand_longest_first() -> None:
    for spellings in (TABLES.unit_names.spellings, TABLES.vague):
        lengths = [len(spelling) for spelling in spellings]
        assert lengths == sorted(lengths, reverse=True)
        assert len(set(spellings)) == len(spellings) > 0


def test_counted_things() -> None:
    dozen, cloves, heads = TABLES.counted("doz"), TABLES.counted("Cloves"), TABLES.counted("heads")
    assert dozen is not None
    assert cloves is not None
    assert heads is not None
    assert (dozen.factor, dozen.dimension) == (Fraction(12), Dimension.COUNT)
    assert (cloves.singular, cloves.plural, cloves.factor) == ("clove", "cloves", Fraction(1))
    assert TABLES.counted("cup") is None


def test_vague_words_are_no_units() -> None:
    assert {"pinch", "pinches", "to taste"} <= set(TABLES.vague)
    for spelling in TABLES.vague:
        assert TABLES.find_unit(spelling, "us") is None
        assert TABLES.counted(spelling) is None


def test_no_spelling_is_both_a_unit_and_a_counted_thing() -> None:
    assert not set(TABLES.counted_names) & {spelling.lower() for spelling in TABLES.unit_names.spellings}
