"""One food under its many names, never under a near one; and the number of a name."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.compute.gathering.food_names import food_of, name_for, plural, singular
from generator.tables import Tables

PAIRS = (
    *(("onion", "onions"), ("berry", "berries"), ("potato", "potatoes"), ("peach", "peaches")),
    *(("bay leaf", "bay leaves"), ("radish", "radishes"), ("elk fore shank", "elk fore shanks")),
    *(("box", "boxes"), ("egg yolk", "egg yolks"), ("key", "keys")),
)


@pytest.mark.parametrize(("one", "many"), PAIRS)
def test_one_and_many(one: str, many: str) -> None:
    assert singular(many) == one
    assert plural(one) == many
    assert singular(one) == one
    assert plural(many) == many


@pytest.mark.parametrize("name", ["asparagus", "watercress", "molasses syrup", "couscous", "rice"])
def test_names_that_only_look_like_many(name: str) -> None:
    assert singular(name) == name


@pytest.mark.parametrize(
    ("names", "food"),
    [
        (("onion", "onions", "Onions", "large onion", "chopped onion"), "onion"),
        (("collards", "collard greens", "collard leaves"), "collards"),
        (("carrot", "medium carrots", "sliced carrots"), "carrot"),
        (("flour", "all-purpose flour"), None),
        (("dried thyme", "thyme"), None),
        (("crushed red pepper", "red pepper"), None),
        (("ground venison", "venison"), None),
        (("salt", "table salt", "dense-flake salt"), None),
        (("sweet potatoes", "potatoes"), None),
    ],
)
def test_food_of_names(names: tuple[str, ...], food: str | None, tables: Tables) -> None:
    """None: every name is a food of its own."""
    foods = [food_of(name, tables) for name in names]
    if food is None:
        assert len(set(foods)) == len(names), foods
    else:
        assert set(foods) == {food}


@pytest.mark.parametrize(
    ("names", "count", "name"),
    [
        (("onion", "onions"), Fraction(3), "onions"),
        (("onion", "onions"), Fraction(1), "onion"),
        (("onion",), Fraction(12), "onions"),
        (("onions",), Fraction(1), "onion"),
        (("chopped onions", "onion"), None, "onions"),
        (("medium carrots", "medium carrot"), Fraction(3), "medium carrots"),
        (("medium carrots", "carrots"), Fraction(3), "carrots"),
        (("large eggs", "small egg"), Fraction(3), "eggs"),
        (("honey",), None, "honey"),
        (("collards", "collard leaves"), None, "collard leaves"),
    ],
)
def test_name_for_a_count(names: tuple[str, ...], count: Fraction | None, name: str) -> None:
    assert name_for(names, count=count) == name
    assert name_for(reversed(names), count=count) == name, "whatever the order"
