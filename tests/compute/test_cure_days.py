"""The published rules of time refuse what they were not written for."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction

import pytest

from generator.compute.cure import days
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
