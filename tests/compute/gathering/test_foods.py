"""One food under its many names, never under a near one; and the number of a name."""

from __future__ import annotations

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from generator.compute.gathering.foods import (
    Amount,
    amount_of,
    food_of,
    less,
    name_for,
    plural,
    singular,
    weighed,
)
from generator.model.quantity import COUNT, Dimension, Measure, Quantity, Span, Unit
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


LITRE = Unit(
    key="litre", dimension=Dimension.VOLUME, factor=Fraction(1000), system="metric", singular="L", plural="L"
)
SIZES = st.fractions(min_value=0, max_value=1000, max_denominator=20)


def measured(value: Fraction, unit: Unit, grams: Fraction | None = None) -> Amount:
    quantity = Quantity(measures=(Measure(Span.of(value), unit),))
    return amount_of(quantity, None if grams is None else Span.of(grams))


TO_TASTE = amount_of(Quantity(vague="to taste"), None)
AMOUNTS = st.one_of(
    SIZES.map(lambda value: weighed(Span.of(value))),
    SIZES.map(lambda value: measured(value, COUNT)),
    SIZES.map(lambda value: measured(value, LITRE, grams=value * 900)),
    st.just(TO_TASTE),
)


@given(parts=st.lists(AMOUNTS, max_size=6), order=st.randoms(use_true_random=False))
def test_a_sum_is_the_same_in_any_order(parts: list[Amount], order: Random) -> None:
    def total(amounts: list[Amount]) -> Amount:
        whole = Amount()
        for one in amounts:
            whole = whole.plus(one)
        return whole

    mixed = list(parts)
    order.shuffle(mixed)
    assert total(mixed) == total(parts)


def test_a_part_of_unknown_weight_leaves_no_weight() -> None:
    both = weighed(Span.of(500)).plus(measured(Fraction(2), COUNT))
    assert both.grams is None
    assert both.sizes == {"weight": Span.of(500), "count": Span.of(2)}


def test_words_leave_the_weight() -> None:
    both = weighed(Span.of(500)).plus(TO_TASTE)
    assert both.grams == Span.of(500)
    assert both.vague == ("to taste",)


@given(need=SIZES, have=SIZES)
def test_never_below_nothing_and_nothing_is_lost(need: Fraction, have: Fraction) -> None:
    for make in (
        lambda value: weighed(Span.of(value)),
        lambda value: measured(value, COUNT),
        lambda value: measured(value, LITRE, grams=value * 900),
    ):
        found = less(make(need), make(have))
        if need and have:
            assert found is not None
            still, rest = found
            (key,) = make(need).sizes
            whole, there = make(need).sizes[key].high, make(have).sizes[key].high
            left = still.sizes.get(key, Span.of(0)).high
            over = rest.sizes.get(key, Span.of(0)).high
            assert left == max(whole - there, 0)
            assert over == max(there - whole, 0)


def test_litres_are_taken_off_pounds_by_their_weight() -> None:
    """By hand: 2 kg are needed, 1 L of 900 g is there."""
    found = less(weighed(Span.of(2000)), measured(Fraction(1), LITRE, grams=Fraction(900)))
    assert found is not None
    assert found[0].grams == Span.of(1100)
    assert found[0].sizes == {"weight": Span.of(1100)}
    assert found[1].is_nothing


def test_things_and_weights_cannot_be_compared() -> None:
    assert less(weighed(Span.of(2000)), measured(Fraction(1), COUNT)) is None
    assert less(weighed(Span.of(2000)), TO_TASTE) is None


def test_of_a_range_that_is_there_the_low_end_counts() -> None:
    found = less(weighed(Span(Fraction(300), Fraction(500))), weighed(Span(Fraction(200), Fraction(400))))
    assert found is not None
    assert found[0].grams == Span(Fraction(100), Fraction(300))
