"""Temperatures and lengths of time as written. Forms: reference/quantities.md 6.2, 6.3; SI Brochure for day, hour, minute."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.read import AmountError
from generator.read.grammar import Grammar
from generator.read.temperature import find_temperature, parse_temperature
from generator.read.time import parse_length

TEMPERATURES = [
    ("165 °F", 165, 165, "F"),
    ("165°F", 165, 165, "F"),
    ("165 F", 165, 165, "F"),
    ("165ºF", 165, 165, "F"),
    ("165 ˚F", 165, 165, "F"),
    ("165 ° F", 165, 165, "F"),
    ("165 ℉", 165, 165, "F"),
    ("165 degrees F", 165, 165, "F"),
    ("165 degrees Fahrenheit", 165, 165, "F"),
    ("74 C", 74, 74, "C"),
    ("74℃", 74, 74, "C"),
    ("74 °c", 74, 74, "C"),
    ("74,5 °C", Fraction(149, 2), Fraction(149, 2), "C"),
    ("180–200 °F", 180, 200, "F"),
    ("180-200 F", 180, 200, "F"),
    ("180 °F–200 °F", 180, 200, "F"),
    ("180°–200°F", 180, 200, "F"),
    ("180 to 200 °F", 180, 200, "F"),
    ("-18 °C", -18, -18, "C"),
    ("−18 °C", -18, -18, "C"),
    ("-40 F", -40, -40, "F"),
    ("-20–-10 °C", -20, -10, "C"),
    ("0 °F", 0, 0, "F"),
]


@pytest.mark.parametrize(("text", "low", "high", "scale"), TEMPERATURES)
def test_temperature_is_read_as_written(text: str, low: Fraction, high: Fraction, scale: str) -> None:
    found = parse_temperature(text)
    assert (found.low.value, found.high.value) == (low, high)
    assert found.low.scale == found.high.scale == scale


BAD_TEMPERATURES = [
    ("165", 0),
    ("165 °", 0),
    ("warm", 0),
    ("", 0),
    ("180 °F–93 °C", 0),
    ("200–180 °F", 0),
    ("165 K", 0),
    ("165 °F or so", 6),
    ("1/0 °F", 0),
    ("-500 °F", 0),
    ("2000 °F", 0),
    ("165 Feet", 0),
]


@pytest.mark.parametrize(("text", "offset"), BAD_TEMPERATURES)
def test_temperature_without_a_certain_scale_is_refused(text: str, offset: int) -> None:
    with pytest.raises(AmountError) as caught:
        parse_temperature(text)
    assert caught.value.slug == "unreadable-temperature"
    assert caught.value.offset == offset
    assert "165 °F" in caught.value.hint


@pytest.mark.parametrize(
    ("text", "holds"),
    [("until 165 °F inside", True), ("to 74C", True), ("tacky", False), ("5 Cloves", False)],
)
def test_temperature_is_found_in_words(text: str, holds: bool) -> None:
    assert find_temperature(text) is holds


LENGTHS = [
    ("90 min", 90, 90),
    ("5 days", 7200, 7200),
    ("6–8 h", 360, 480),
    ("6 to 8 hours", 360, 480),
    ("4-5 days", 5760, 7200),
    ("1 h 30 min", 90, 90),
    ("1 1/2 hours", 90, 90),
    ("1½ hr", 90, 90),
    ("2 weeks", 20160, 20160),
    ("1,5 h", 90, 90),
    ("an hour", 60, 60),
    ("30 min to 1 h", 30, 60),
    ("1 day + 6 h", 1800, 1800),
]


@pytest.mark.parametrize(("text", "low", "high"), LENGTHS)
def test_length_is_read_in_minutes(grammar: Grammar, text: str, low: int, high: int) -> None:
    found = parse_length(text, grammar)
    assert found.low == low
    assert found.high == high


BAD_LENGTHS = [
    ("overnight", 0),
    ("", 0),
    ("5", 0),
    ("5 dayz", 0),
    ("5 lb", 0),
    ("-5 days", 0),
    ("8–6 h", 0),
    ("5 days or so", 7),
    ("a while", 0),
]


@pytest.mark.parametrize(("text", "offset"), BAD_LENGTHS)
def test_length_without_number_and_unit_is_refused(grammar: Grammar, text: str, offset: int) -> None:
    with pytest.raises(AmountError) as caught:
        parse_length(text, grammar)
    assert (caught.value.slug, caught.value.offset) == ("unreadable-time", offset)
    assert "90 min" in caught.value.hint


@given(st.text(max_size=30))
def test_any_text_is_a_temperature_or_refused(text: str) -> None:
    place = 0
    try:
        found = parse_temperature(text)
    except AmountError as refused:
        place = refused.offset
    else:
        assert found.low.value <= found.high.value
    assert 0 <= place <= len(text)


@given(st.integers(-459, 999), st.sampled_from("FC"))
def test_written_temperature_comes_back(value: int, scale: str) -> None:
    celsius = value if scale == "C" else (value - 32) * Fraction(5, 9)
    if -273 <= celsius <= 540:
        assert parse_temperature(f"{value} °{scale}").low.value == value
