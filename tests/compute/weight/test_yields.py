"""Trimming and losses: what the formulas refuse, and the tables of this book against cases from print."""

from __future__ import annotations

from fractions import Fraction

import pytest

from generator.compute.weight.yields import (
    finished_weight_g,
    green_weight_needed_g,
    weight_to_buy_g,
)
from generator.problems import OutOfRange
from generator.tables import load_tables
from tests.second_opinion import edible_weight_g

TABLES = load_tables()
PER_CENT = Fraction(100)


@pytest.mark.parametrize("percent", [-1, 100, 120])
def test_refuse_outside_its_range_gives_no_number(percent: int) -> None:
    for formula, what in ((edible_weight_g, "as_bought_g"), (weight_to_buy_g, "edible_g")):
        with pytest.raises(OutOfRange, match="refuse is from 0 to below 100 %"):
            formula(**{what: Fraction(100), "refuse_percent": Fraction(percent)})  # type: ignore[operator]  # one of several formulas


@pytest.mark.parametrize("percent", [0, -5])
def test_a_yield_of_nothing_gives_no_number(percent: int) -> None:
    for formula, what in ((finished_weight_g, "green_g"), (green_weight_needed_g, "finished_g")):
        with pytest.raises(OutOfRange, match="a yield is more than nothing"):
            formula(**{what: Fraction(100), "yield_percent": Fraction(percent)})  # type: ignore[operator]  # one of several formulas


@pytest.mark.parametrize(
    ("name", "as_bought", "edible"),
    [
        # USDA SR28: NDB 11161 (43 %), 11233 (28 %), 11109 (20 %); 1 lb, 1 lb, 1135 g.
        ("collards", "453.59237", "258.6"),
        ("kale", "453.59237", "326.6"),
        ("cabbage", "1135", "908"),
    ],
)
def test_the_table_of_produce_gives_the_published_cases(name: str, as_bought: str, edible: str) -> None:
    refuse = TABLES.refuse_of(name)
    assert refuse is not None
    left = edible_weight_g(as_bought_g=Fraction(as_bought), refuse_percent=refuse.percent)
    assert abs(left - Fraction(edible)) <= Fraction(1, 10)


@pytest.mark.parametrize(
    ("stages", "green_lb", "finished_lb"),
    [
        # AWI-108: 20 lb of ham dry-cured, then smoked; brined, then smoked.
        ((("cure", "dry"),), "20", "19"),
        ((("cure", "dry"), ("cold smoke", "any")), "20", "18"),
        ((("cure", "brine"),), "20", "20.6"),
        ((("cure", "brine"), ("cold smoke", "any")), "20", "19.2"),
        # SR28, boneless: venison roasted (17165), bison braised (17333), bear simmered (17147), rabbit stewed (17181).
        ((("roast", "any"),), "5", "3.75"),
        ((("braise", "any"),), "5", "3.10"),
        ((("simmer", "any"),), "4", "2.44"),
        ((("simmer", "any"),), "3", "1.98"),
    ],
)
def test_the_table_of_losses_brackets_the_published_cases(
    stages: tuple[tuple[str, str], ...], green_lb: str, finished_lb: str
) -> None:
    low = high = Fraction(green_lb)
    for stage, after in stages:
        row = TABLES.carry.loss_of(stage, after)
        assert row is not None
        low = finished_weight_g(green_g=low, yield_percent=row.low * PER_CENT)
        high = finished_weight_g(green_g=high, yield_percent=row.high * PER_CENT)
    assert low - Fraction(1, 100) <= Fraction(finished_lb) <= high + Fraction(1, 100)


def test_a_shank_from_the_bone_and_the_pot() -> None:
    """SR28 13228: 10 lb of beef shank give 3.75 lb of simmered lean; 34 % is bone (13227) and 6 % fat, which is the
    table's bone and a simmer of 61 to 66 %: 0.60 x 6.1 = 3.66 to 3.96 lb."""
    bone = TABLES.carry.refuse_of("bone", TABLES.animal("beef"), "shank")
    simmer = TABLES.carry.loss_of("simmer")
    assert bone is not None
    assert simmer is not None
    lean = edible_weight_g(as_bought_g=Fraction(10), refuse_percent=bone.high * PER_CENT + 6)
    ends = [
        finished_weight_g(green_g=lean, yield_percent=end * PER_CENT) for end in (simmer.low, simmer.high)
    ]
    assert ends[0] <= Fraction("3.75") <= ends[1]
