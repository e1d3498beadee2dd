"""The published rules of time, of brine and of the salometer refuse what they were not written for."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from functools import partial

import pytest

from generator.compute.cure import days, formulas
from generator.problems import OutOfRange
from tests import second_opinion

OUTSIDE: list[tuple[Callable[..., Fraction], dict[str, str], str]] = [
    (days.days_by_weight, {"days_per_lb": "2", "piece_lb": "0", "least_days": "0"}, "piece_lb"),
    (days.days_by_weight, {"days_per_lb": "-2", "piece_lb": "5", "least_days": "0"}, "days_per_lb"),
    (days.days_by_weight, {"days_per_lb": "2", "piece_lb": "5", "least_days": "-1"}, "least_days"),
    (days.days_by_thickness, {"days_per_inch": "7", "thickness_in": "0"}, "thickness_in"),
    (days.days_by_thickness, {"days_per_inch": "-7", "thickness_in": "2"}, "days_per_inch"),
    (second_opinion.drying_time_added_percent, {"salt_percent": "3.4"}, "in no row"),
    (second_opinion.drying_time_added_percent, {"salt_percent": "1.99"}, "in no row"),
    (second_opinion.drying_days_with_low_salt, {"drying_days": "-1", "added_percent": "10"}, "drying_days"),
    (second_opinion.drying_days_with_low_salt, {"drying_days": "20", "added_percent": "-1"}, "added_percent"),
    (
        second_opinion.drying_days_after_holding,
        {"drying_days": "20", "reduced_percent": "101"},
        "from 0 to 100",
    ),
    (second_opinion.drying_days_after_holding, {"drying_days": "-1", "reduced_percent": "10"}, "drying_days"),
    (days.percent_brine, {"salt_g": "0", "water_g": "0"}, "neither salt nor water"),
    (days.percent_brine, {"salt_g": "-1", "water_g": "70"}, "salt_g"),
    (days.soak_minutes, {"days_in_cure": "-1"}, "days_in_cure"),
]


@pytest.mark.parametrize(("formula", "given", "words"), OUTSIDE)
def test_outside_its_range_a_formula_gives_no_number(
    formula: Callable[..., Fraction], given: dict[str, str], words: str
) -> None:
    with pytest.raises(OutOfRange, match=words):
        formula(**{name: Fraction(value) for name, value in given.items()})


@pytest.mark.parametrize(
    ("formula", "within", "beyond"),
    [
        (partial(formulas.salt_for_water_g, water_g=Fraction(1)), ["0", "99.9"], ["-0.1", "100"]),
        (
            partial(formulas.salt_in_brine, specific_gravity=Fraction(1), water=Fraction(1)),
            ["0", "99.9"],
            ["-0.1", "100"],
        ),
    ],
)
def test_a_strength_is_from_nothing_to_below_100_percent(
    formula: Callable[..., Fraction], within: list[str], beyond: list[str]
) -> None:
    """Of nothing but salt there is no brine. Source: the definition of a strength."""
    for percent in within:
        assert formula(strength_percent=Fraction(percent)) >= 0
    for percent in beyond:
        with pytest.raises(OutOfRange, match="is no brine"):
            formula(strength_percent=Fraction(percent))


def test_a_salometer_is_read_from_60_to_100_f_and_on_its_scale() -> None:
    """Both ends of the rule, and a reading of nothing, are within. Source: Fish Safety Notes (Canada); the scale."""
    for fahrenheit in (60, 100):
        assert (
            formulas.degrees_at_60_f(reading_degrees=Fraction(50), temperature_f=Fraction(fahrenheit)) >= 50
        )
    for fahrenheit in ("59.9", "100.1"):
        with pytest.raises(OutOfRange, match="from 60 to 100 °F"):
            formulas.degrees_at_60_f(reading_degrees=Fraction(50), temperature_f=Fraction(fahrenheit))
    assert formulas.salometer_reading(degrees=Fraction(4), temperature_f=Fraction(100)) == 0
    with pytest.raises(OutOfRange, match="too weak and too warm"):
        formulas.salometer_reading(degrees=Fraction("3.9"), temperature_f=Fraction(100))


def test_bounds_of_brine_water_and_ice_are_within() -> None:
    """Where a formula still means something it gives a number, and not a step beyond. Source: the definitions."""
    half, hundred, none = Fraction(1, 2), Fraction(100), Fraction(0)
    assert formulas.brine_strength_percent(salt_g=none, brine_g=half) == 0
    with pytest.raises(OutOfRange, match="brine_g"):
        formulas.brine_strength_percent(salt_g=none, brine_g=none)
    for formula, low in ((formulas.salt_to_add_g, "is"), (formulas.water_to_add_g, "want")):
        ends = {"is_percent": hundred, "want_percent": hundred, "brine_g": half}
        with pytest.raises(OutOfRange):
            formula(**ends)
        ends |= {"is_percent": Fraction(10), "want_percent": Fraction(10), f"{low}_percent": none}
        if low == "want":
            with pytest.raises(OutOfRange):
                formula(**ends)
        else:
            assert formula(**ends) > 0
    # all the cold water taken as ice: hot x c x Th = rest x L, with c x 100 = 418.6 J/g and L = 334 J/g
    rest = Fraction("418.6") / 334
    just = {"total_g": 1 + rest, "hot_g": Fraction(1), "hot_c": hundred, "cold_c": none, "target_c": none}
    assert formulas.ice_within(**just) == rest
    with pytest.raises(OutOfRange, match="from 0 to 100"):
        formulas.ice_within(**(just | {"hot_c": Fraction("100.5")}))


def test_a_piece_of_less_than_one_is_a_piece() -> None:
    """Half a pound at 4 days a pound, half an inch at 7 days an inch: 2 days and 3.5, by the rules' own arithmetic."""
    half = Fraction(1, 2)
    assert days.days_by_weight(days_per_lb=Fraction(4), piece_lb=half, least_days=Fraction(0)) == 2
    assert days.days_by_thickness(days_per_inch=Fraction(7), thickness_in=half) == Fraction(7, 2)
