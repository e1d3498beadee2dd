"""Values of `cure:` as targets and amounts. What they work out to is tested in tests/compute."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.model.recipe import CureLine, TargetKind
from generator.read import AmountError, Grammar
from generator.read.cure import find_kind, parse_cure_value, parse_pump, parse_water
from generator.tables import load_tables

TABLES = load_tables()
GRAMMAR = Grammar(system="us", language="en", tables=TABLES)


def value(text: str, which: str = "salt", method: str = "brine") -> CureLine:
    return parse_cure_value(text, which, GRAMMAR, method=method)


TARGETS = [
    ("3 %", "salt", "brine", TargetKind.PERCENT, 3),
    ("3%", "salt", "brine", TargetKind.PERCENT, 3),
    ("2.75 %", "salt", "brine", TargetKind.PERCENT, Fraction(11, 4)),
    ("2,75 %", "salt", "brine", TargetKind.PERCENT, Fraction(11, 4)),
    ("2 3/4 percent", "salt", "brine", TargetKind.PERCENT, Fraction(11, 4)),
    ("3 % of meat + water", "salt", "brine", TargetKind.PERCENT, 3),
    ("3 % of the meat and the water", "salt", "brine", TargetKind.PERCENT, 3),
    ("3 %", "salt", "dry", TargetKind.PERCENT, 3),
    ("3 % of the meat", "salt", "dry", TargetKind.PERCENT, 3),
    ("10 % of the brine", "salt", "brine", TargetKind.PERCENT_OF_BRINE, 10),
    ("40 degrees salometer", "salt", "brine", TargetKind.DEGREES, 40),
    ("40 ° salometer", "salt", "brine", TargetKind.DEGREES, 40),
    ("40° salometer", "salt", "brine", TargetKind.DEGREES, 40),
    ("1.5 %", "sugar", "brine", TargetKind.PERCENT, Fraction(3, 2)),
    ("1.5 % of the brine", "sugar", "brine", TargetKind.PERCENT_OF_BRINE, Fraction(3, 2)),
    ("150 ppm", "curing salt", "brine", TargetKind.PPM, 150),
    ("156.25 ppm", "curing salt", "dry", TargetKind.PPM, Fraction(625, 4)),
    ("150 mg/kg", "curing salt", "dry", TargetKind.PPM, 150),
]


@pytest.mark.parametrize(("text", "which", "method", "kind", "number"), TARGETS)
def test_target_is_read(text: str, which: str, method: str, kind: TargetKind, number: Fraction) -> None:
    found = value(text, which, method)
    assert found.target is not None
    assert (found.target.kind, found.target.value) == (kind, number)
    assert found.amount is None
    assert found.written == text


AMOUNTS = [
    ("240 g", "salt", "240 gram", ""),
    ("240 g kosher salt", "salt", "240 gram", "kosher salt"),
    ("2 cups dense-flake salt", "salt", "2 us_cup", "dense-flake salt"),
    ("2 cups dense-flake", "salt", "2 us_cup", "dense-flake salt"),
    ("1 lb 4 oz salt", "salt", "1 pound + 4 ounce", "salt"),
    ("1 cup salt (240 g)", "salt", "1 us_cup", "salt"),
    ("1 cup (240 g) salt", "salt", "1 us_cup", "salt"),
    ("2 cups", "salt", "2 us_cup", ""),
    ("2 cups kosher salt", "salt", "2 us_cup", "kosher salt"),
    ("2 cups kosher", "salt", "2 us_cup", "kosher salt"),
    ("2 cups salt, kosher", "salt", "2 us_cup", "kosher salt"),
    ("2 cups salt (table)", "salt", "2 us_cup", "table salt"),
    ("1 cup brown sugar", "sugar", "1 us_cup", "brown sugar"),
    ("1 cup brown", "sugar", "1 us_cup", "brown sugar"),
    ("1 cup packed brown sugar", "sugar", "1 us_cup", "packed brown sugar"),
    ("60 g", "sugar", "60 gram", ""),
    ("1/2 cup", "sugar", "1/2 us_cup", ""),
    ("1/2 cup of maple syrup", "sugar", "1/2 us_cup", "maple syrup"),
    ("22 g", "curing salt", "22 gram", ""),
    ("2 tsp", "curing salt", "2 us_tsp", ""),
    ("2 tsp curing salt", "curing salt", "2 us_tsp", ""),
]


@pytest.mark.parametrize(("text", "which", "amount", "name"), AMOUNTS)
def test_amount_is_read_with_its_name(text: str, which: str, amount: str, name: str) -> None:
    found = value(text, which)
    assert found.target is None
    assert found.amount is not None
    assert " + ".join(f"{m.span.low} {m.unit.key}" for m in found.amount.measures) == amount
    assert found.name == name


# text, which, method, slug, offset, words of message or hint
REFUSED = [
    ("2 cups moon salt", "salt", "brine", "unknown-crystal", 7, "moon salt"),
    ("1 cup moon sugar", "sugar", "brine", "wrong-dimension", 6, "Weigh it"),
    ("3 % of the water", "salt", "brine", "wrong-value", 2, "3 % of the brine"),
    ("3 % of the meat", "salt", "brine", "wrong-value", 2, "brine"),
    ("3 % of the brine", "salt", "dry", "wrong-value", 2, "dry cure"),
    ("40 degrees salometer", "salt", "dry", "wrong-value", 3, "dry cure"),
    ("40 degrees salometer", "sugar", "brine", "wrong-value", 3, "sugar"),
    ("40 degrees", "salt", "brine", "wrong-value", 3, "salometer"),
    ("0.25 %", "curing salt", "brine", "wrong-value", 5, "150 ppm"),
    ("150 ppm", "salt", "brine", "wrong-value", 4, "3 %"),
    ("3–4 %", "salt", "brine", "wrong-value", 0, "one number"),
    ("0 %", "salt", "brine", "wrong-value", 0, "range"),
    ("100 %", "salt", "brine", "wrong-value", 0, "range"),
    ("101 degrees salometer", "salt", "brine", "wrong-value", 0, "range"),
    ("0 ppm", "curing salt", "brine", "wrong-value", 0, "range"),
    ("-150 ppm", "curing salt", "brine", "unreadable-amount", 0, "sign"),
    ("150", "curing salt", "brine", "wrong-dimension", 0, "150 ppm"),
    ("20–22 g", "curing salt", "brine", "unreadable-amount", 0, "range"),
    ("about 22 g", "curing salt", "brine", "unreadable-amount", 0, "not weighed"),
    ("a pinch", "curing salt", "brine", "unreadable-amount", 0, "not weighed"),
    ("1 T", "curing salt", "brine", "ambiguous-unit", 2, "1 tbsp or 1 tsp"),
    ("2 t.", "curing salt", "dry", "ambiguous-unit", 2, "2 tbsp or 2 tsp"),
    ("1 heaping tsp", "curing salt", "brine", "unreadable-amount", 2, "no certain weight"),
    ("1 scant cup table salt", "salt", "brine", "unreadable-amount", 2, "grams decide"),
    ("22 g pink salt", "curing salt", "brine", "unreadable-amount", 5, "kind of curing salt"),
    ("2 cupps dense-flake salt", "salt", "brine", "unknown-unit", 2, "'cups'"),
    ("some", "salt", "brine", "unreadable-amount", 0, "not weighed"),
    ("plenty", "salt", "brine", "unreadable-amount", 0, "not an amount"),
]


@pytest.mark.parametrize(("text", "which", "method", "slug", "offset", "words"), REFUSED)
def test_uncertain_cure_value_is_refused(
    text: str, which: str, method: str, slug: str, offset: int, words: str
) -> None:
    with pytest.raises(AmountError) as caught:
        value(text, which, method)
    error = caught.value
    assert (error.slug, error.offset) == (slug, offset)
    assert words in f"{error.message} {error.hint}"


WATER = [
    ("3 qt", [("3 us_quart", "")]),
    ("3 qt water", [("3 us_quart", "")]),
    (
        "1 qt hot + 2 1/2 qt cold + 1 lb ice",
        [("1 us_quart", "hot"), ("5/2 us_quart", "cold"), ("1 pound", "ice")],
    ),
    ("1 qt hot water + 2 kg cold water", [("1 us_quart", "hot"), ("2 kilogram", "cold")]),
    ("1 gal 1 qt cold", [("1 us_gallon", "cold"), ("1 us_quart", "cold")]),
]


@pytest.mark.parametrize(("text", "parts"), WATER)
def test_water_is_a_sum_of_hot_cold_and_ice(text: str, parts: list[tuple[str, str]]) -> None:
    found = parse_water(text, GRAMMAR)
    assert [(f"{m.span.low} {m.unit.key}", m.state) for m in found.measures] == parts
    assert found.written == text


BAD_WATER = [
    ("to make 6 lb", "wrong-dimension", 8, "not a volume"),
    ("1 gal + 2 qt ice", "wrong-dimension", 8, "Weigh it"),
    ("1 gal ice water", "unreadable-amount", 6, "ice water"),
    ("1 gal tepid", "unreadable-amount", 6, "tepid"),
    ("3–4 qt", "unreadable-amount", 0, "range"),
    ("3", "wrong-dimension", 0, "neither"),
    ("1 qt hot +", "unreadable-amount", 10, "water"),
    ("", "unreadable-amount", 0, "water"),
    ("enough", "unreadable-amount", 0, "enough"),
]


@pytest.mark.parametrize(("text", "slug", "offset", "words"), BAD_WATER)
def test_uncertain_water_is_refused(text: str, slug: str, offset: int, words: str) -> None:
    with pytest.raises(AmountError) as caught:
        parse_water(text, GRAMMAR)
    error = caught.value
    assert (error.slug, error.offset) == (slug, offset)
    assert words in f"{error.message} {error.hint}"


def test_pump_is_a_share_of_the_meat() -> None:
    assert parse_pump("8 %", "en") == 8
    assert parse_pump("7.5% of green weight", "en") == Fraction(15, 2)
    for text in ("8", "8–10 %", "0 %", "101 %", "8 % of the brine", "-8 %"):
        with pytest.raises(AmountError, match=r"share|number"):
            parse_pump(text, "en")


def test_curing_salt_is_known_by_number_or_composition() -> None:
    assert find_kind("No. 1", TABLES, ()).key == "no. 1"
    assert find_kind("6.25 %", TABLES, ()).key == "no. 1"
    with pytest.raises(AmountError, match="'pink'") as caught:
        find_kind("pink", TABLES, ())
    assert caught.value.slug == "unknown-curing-salt"
    assert "no. 1, no. 2" in caught.value.hint


@given(
    st.text(max_size=30), st.sampled_from(["salt", "sugar", "curing salt"]), st.sampled_from(["brine", "dry"])
)
def test_any_text_is_a_cure_value_or_refused(text: str, which: str, method: str) -> None:
    place = 0
    try:
        found = value(text, which, method)
    except AmountError as refused:
        place = refused.offset
    else:
        assert (found.target is None) != (found.amount is None)
    assert 0 <= place <= len(text)
