"""Weights per measure and per piece against print, and the refusals where print gives no certain weight."""

from __future__ import annotations

import csv
from fractions import Fraction
from pathlib import Path

import pytest

from generator.model.published import FoodWeight
from generator.tables import load_tables

PUBLISHED = Path(__file__).parent.parent / "published" / "food_weights.csv"
TABLES = load_tables()


def rows() -> list[dict[str, str]]:
    with PUBLISHED.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def weight(name: str, unit: str) -> FoodWeight:
    found = [row for row in TABLES.food(name) if row.unit == unit]
    assert len(found) == 1, f"{len(found)} rows of {name} by {unit}"
    return found[0]


@pytest.mark.parametrize("row", rows(), ids=lambda row: f"{row['amount']}-{row['unit']}-{row['name']}")
def test_food_has_its_published_weight(row: dict[str, str]) -> None:
    grams = weight(row["name"], row["unit"]).grams * Fraction(row["amount"])
    assert row["grade"] in ("published", "derived")
    assert row["source"]
    assert row["locator"]
    assert abs(grams - Fraction(row["grams"])) <= Fraction(row["tolerance"])


@pytest.mark.parametrize(
    ("name", "size", "pieces", "grams", "as_bought"),
    [
        # USDA SR28; as bought = edible / (1 - refuse), worked by hand from the printed refuse.
        ("onion", "medium", 1, "110", "122.2"),  # NDB 11282, refuse 10 %
        ("egg", "large", 2, "100", "113.6"),  # NDB 01123, shell 12 %
        ("cabbage head", "medium", 1, "908", "1135.0"),  # NDB 11109, 20 %
        ("carrot", "medium", 1, "61", "68.5"),  # NDB 11124, 11 %
        ("celery stalk", "medium", 1, "40", "44.9"),  # NDB 11143, 11 %
        ("leek", "", 1, "89", "202.3"),  # NDB 11246, 56 %
        ("green bell pepper", "large", 1, "164", "200.0"),  # NDB 11333, 18 %
        ("lemons", "", 1, "58", "109.4"),  # NDB 09150, 47 %
        ("apple", "medium", 1, "182", "202.2"),  # NDB 09003, 10 %
    ],
)
def test_piece_has_its_published_weight(
    name: str, size: str, pieces: int, grams: str, as_bought: str
) -> None:
    piece = TABLES.piece(name, size)
    assert piece is not None
    assert piece.refuse_percent is not None
    edible = piece.grams * pieces
    assert edible == Fraction(grams)
    bought = edible / (1 - piece.refuse_percent / 100)
    assert abs(bought - Fraction(as_bought)) <= Fraction(1, 10)


@pytest.mark.parametrize(
    ("name", "size", "pieces", "grams"),
    [
        ("garlic clove", "", 3, "9"),  # USDA SR28, NDB 11215, 3 cloves
        ("clove of garlic", "", 3, "9"),
        ("juice of 1 lemon", "", 1, "48"),  # NDB 09152, lemon yields
        ("potato", "medium", 1, "213"),  # NDB 11352
        ("stick of butter", "", 1, "113"),  # NDB 01001
        ("parsley sprig", "", 12, "12"),  # NDB 11297, 10 sprigs = 10 g
        ("shucked eastern oyster", "medium", 6, "84"),  # NDB 15167, 6 medium
        ("crayfish tail meat", "", 8, "27"),  # NDB 15145, 8 crayfish
        ("pheasant breast half", "", 2, "364"),  # NDB 05155, twice half a breast
    ],
)
def test_piece_without_refuse(name: str, size: str, pieces: int, grams: str) -> None:
    piece = TABLES.piece(name, size)
    assert piece is not None
    assert piece.grams * pieces == Fraction(grams)


@pytest.mark.parametrize(
    "name",
    [
        "flour",  # sifted, spooned and scooped differ by a quarter; kinds too
        "brown sugar",  # packed 220 g, loose 145 g
        "sugar",
        "salt",
        "kosher salt",
        "cornmeal",  # whole-grain 122 g, degermed 157 g
        "pinto beans",  # dry or boiled
        "kale",  # sources give 16 to 67 g
        "black pepper",  # ground or whole
        "vinegar",
        "onion",  # chopped or sliced
        "dock",  # a known bad row of the source
        "poke shoots",  # not to be eaten
        "",
        "hony",
        "honey syrup",
    ],
)
def test_unclear_or_unknown_name_gives_no_weight(name: str) -> None:
    assert TABLES.food(name) == ()


def test_name_is_compared_without_case_and_spaces() -> None:
    assert TABLES.food("  Brown  SUGAR, packed ") == TABLES.food("packed brown sugar") != ()
    assert TABLES.food("confectioners’ sugar, sifted") == TABLES.food("sifted powdered sugar") != ()


def test_rows_of_cup_and_spoon_are_kept_apart() -> None:
    # USDA SR28 prints 21 g for a tablespoon of honey (NDB 19296), not 339 / 16.
    assert weight("honey", "us_tbsp").grams == 21 != weight("honey", "us_cup").grams / 16
    assert {row.unit for row in TABLES.food("table salt")} == {"us_cup", "us_tbsp", "us_tsp"}


def test_a_piece_without_a_size_is_not_guessed() -> None:
    for name in ("onion", "egg", "carrot", "cabbage head", "potato"):
        assert TABLES.piece(name, "") is None
    assert TABLES.piece("potato", "small") is None  # SR28 contradicts itself: 170 g and 92 g
    assert TABLES.piece("collards bunch", "") is None


def test_enough_foods() -> None:
    foods = {row.food for rows_of_name in TABLES.food_names.values() for row in rows_of_name}
    assert len(foods) >= 90


def test_liquids_are_liquid() -> None:
    assert all(row.liquid for row in TABLES.food("water"))
    assert not any(row.liquid for row in TABLES.food("honey"))


def test_densities_are_those_of_food() -> None:
    # Bounds of common sense: dried leaves are the lightest, syrups the heaviest. No source.
    for rows_of_name in TABLES.food_names.values():
        for row in rows_of_name:
            density = row.grams / TABLES.units[row.unit].factor
            assert Fraction("0.05") < density < Fraction("1.5"), row


# salts


@pytest.mark.parametrize("name", ["salt", "Kosher salt", "sea salt", "coarse salt", "pickling salt"])
def test_salt_without_a_certain_crystal(name: str) -> None:
    assert TABLES.is_bare_salt(name)
    assert TABLES.food(name) == ()


@pytest.mark.parametrize("name", ["table salt", "dense-flake salt", "hollow-flake salt", "sugar"])
def test_salt_with_its_crystal_is_not_bare(name: str) -> None:
    assert not TABLES.is_bare_salt(name)
    assert TABLES.salt_range("us_cup", name) is None


def test_a_cup_of_unknown_salt_has_a_range() -> None:
    # Low: 2.8 g a teaspoon of hollow flake (GNU units, from a label) x 48; high: SR28, NDB 02047.
    span = TABLES.salt_range("us_cup")
    assert span is not None
    assert (span.low, span.high) == (Fraction(134), Fraction(292))


def test_every_named_crystal_lies_in_the_range() -> None:
    for name in ("table salt", "dense-flake salt", "hollow-flake salt"):
        for row in TABLES.food(name):
            span = TABLES.salt_range(row.unit)
            assert span is not None
            assert span.low <= row.grams <= span.high


def test_range_of_another_volume_goes_by_the_cup() -> None:
    # A metric cup is 250 mL, a US cup 236.5882365 mL: 134 and 292 g become 141.6 and 308.6 g.
    span = TABLES.salt_range("metric_cup")
    assert span is not None
    assert abs(span.low - Fraction("141.6")) < Fraction(1, 20)
    assert abs(span.high - Fraction("308.6")) < Fraction(1, 20)


@pytest.mark.parametrize("unit", ["gram", "day", "clove", "nothing"])
def test_what_is_no_volume_has_no_range(unit: str) -> None:
    assert TABLES.salt_range(unit) is None


# scaling


def test_seasoning_wants_a_second_look() -> None:
    assert "taste" in TABLES.scaling_check("Ground black pepper")
    assert TABLES.scaling_check("baking powder") != TABLES.scaling_check("cornstarch") != ""
    assert TABLES.scaling_check("collard greens") == ""
