"""`keep:` with a length and a temperature in, the record out; what cannot be read is a problem at its place."""

from __future__ import annotations

import pytest

from generator.model.quantity import Temperature, TemperatureRange
from tests.read.conftest import ReadRecipe

DISH = "---\nname: Dish\nserves: 4\nkeep:\n  fridge: {text}\n---\n\nEat.\n"


def degrees(low: int, high: int, scale: str = "F") -> TemperatureRange:
    return TemperatureRange(Temperature(low, scale), Temperature(high, scale))


@pytest.mark.parametrize(
    ("text", "days", "at"),
    [
        ("5 days", 5, None),
        ("5 days at 38 °F", 5, degrees(38, 38)),
        ("2 weeks at 34–36 °F", 14, degrees(34, 36)),
        ("3–4 days at 2 °C", 4, degrees(2, 2, "C")),
        ("1 month at -18 °C", 30, degrees(-18, -18, "C")),
        ("1 year", 365, None),
        ("1–2 yrs", 730, None),
    ],
)
def test_days_and_degrees_are_read(
    read_text_of_recipe: ReadRecipe, text: str, days: int, at: TemperatureRange | None
) -> None:
    recipe, log = read_text_of_recipe(DISH.format(text=text))
    assert not log.has_errors
    assert recipe is not None
    (keep,) = recipe.keep
    assert keep.at == at
    assert keep.written == text
    assert round(keep.days.high) == days


@pytest.mark.parametrize(
    ("text", "slug", "column"),
    [
        ("5 days at 38", "unreadable-temperature", 21),
        ("5 days at 38 °F inside", "unreadable-temperature", 26),
        ("a while at 38 °F", "unreadable-time", 11),
        ("5 days at cold", "unreadable-time", 18),
    ],
)
def test_what_cannot_be_read_is_told_where_it_stands(
    read_text_of_recipe: ReadRecipe, text: str, slug: str, column: int
) -> None:
    recipe, log = read_text_of_recipe(DISH.format(text=text))
    assert recipe is not None
    assert log.has_errors, "no site is written"
    (problem,) = log
    assert problem.slug == slug
    assert problem.position is not None
    assert (problem.position.line, problem.position.column) == (5, column)
