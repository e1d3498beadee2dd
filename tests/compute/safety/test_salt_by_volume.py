"""Salt by the spoon: refused where its grams keep the food, a volume everywhere else, counted as its range."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

import pytest

from generator.compute import Kitchen
from generator.model.quantity import Span
from tests.compute.safety.garden import cook, of

Make = Callable[..., Path]
BREAD = "3 cups flour; 1 tsp yeast; 1 tsp salt"
PORK = "meat:\n  animal: pork\n  cut: loin\n  weight: 5 lb\ncure:\n  method: dry\n  salt: 3 %\n"


def test_refused_beside_a_cure(make_book: Make, kitchen: Kitchen) -> None:
    text = of("1 tbsp kosher salt", "cure: 5 days in the fridge").replace(
        "ingredients:", f"{PORK}ingredients:"
    )
    assert [error.slug for error in cook(make_book, kitchen, text).errors] == ["unknown-crystal"]


@pytest.mark.parametrize(
    ("lines", "course", "book"),
    [
        (BREAD, "bake: 40 min", ""),
        (BREAD, "ferment: 2 h", ""),
        ("2 onions; 1 cup cider vinegar, 5 %; 1 tsp salt", "pickle: 1 h", ""),
        ("5 lb cabbage; 3 tbsp table salt", "ferment: 4 weeks at 70 °F", ""),
        ("5 lb cabbage; 57 g salt", "ferment: 4 weeks at 70 °F", ""),
        ("5 lb cabbage; 3 tbsp (57 g) salt", "ferment: 4 weeks at 70 °F", ""),
        ("5 lb cabbage; salt, to taste", "ferment: 4 weeks at 70 °F", ""),
        ("5 lb cabbage; 3 tbsp sea salt", "ferment: 4 weeks at 70 °F", "weighings:\n  sea salt: 19 g per tbsp\n"),
    ],
)  # fmt: skip
def test_read_where_grams_do_not_decide_or_are_known(
    make_book: Make, kitchen: Kitchen, lines: str, course: str, book: str
) -> None:
    assert "unknown-crystal" not in {
        error.slug for error in cook(make_book, kitchen, of(lines, course), book).errors
    }


def test_in_bread_it_scales_as_a_volume_and_counts_as_its_range(make_book: Make, kitchen: Kitchen) -> None:
    """A teaspoon: 2.8 g hollow flake (package label) to 6.1 g table salt (FDC, Foundation Foods)."""
    found = cook(make_book, kitchen, of(BREAD, "bake: 40 min")).recipe
    line = next(line for line in found.lines if line.ingredient.name == "salt")
    assert line.shown is not None
    assert (line.shown.us, line.shown.metric) == ("1 tsp", "5 mL")
    assert found.salt is not None
    assert found.salt.own_g == Span(Fraction("2.8"), Fraction("6.1"))
    assert found.salt.not_counted == ()
