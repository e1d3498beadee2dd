"""Worked-out times: thawing, heating, cooling; formulas against published examples, and the lines and rules of a page.

Expected values are published, or derived by a solver of its own that shares no line with the program (transfer notes,
sections 5 and 6), and the tolerance is the one printed there.
"""

from __future__ import annotations

from itertools import pairwise
from math import cos, inf, sin
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.special import j0, j1, jn_zeros

from generator.compute.safety.words import span_words
from generator.compute.transfer.frozen import minutes_from_frozen
from generator.compute.transfer.heat import Body, Surround, middle_c, minutes_to
from generator.compute.transfer.series import bessel, roots, theta, weights
from generator.compute.transfer.thaw import (
    FRIDGE,
    fridge_hours_by_weight,
    thawing_hours,
    thawing_range_hours,
    water_hours_by_weight,
)
from generator.problems import OutOfRange
from tests.compute.safety.course import check, facts, recipe
from tests.compute.transfer.exact_series import constant

SHAPES = ("slab", "round", "lump")
SHANK = "animal: elk; cut: shank; weight: 6 lb; pieces: 4; thickness: 3 in; shape: round"

# Derived: independent enthalpy solver, lean meat -18 to 0 °C [h]; slab, cylinder, sphere by thickness [mm].
SOLVER = {
    ("fridge", 25): (17, 8.6, 5.7),
    ("fridge", 50): (37, 18, 12),
    ("fridge", 75): (58, 29, 19),
    ("fridge", 100): (82, 40, 27),
    ("fridge", 150): (136, 67, 44),
    ("fridge", 200): (199, 97, 65),
    ("water", 25): (1.3, 0.7, 0.4),
    ("water", 50): (4.0, 2.0, 1.3),
    ("water", 75): (8.0, 4.0, 2.7),
    ("water", 100): (13.5, 6.7, 4.4),
    ("water", 150): (29, 14, 9.4),
    ("water", 200): (49, 24, 16),
}
MEDIA = {"fridge": (4.0, 8.0), "water": (10.0, 100.0)}


@pytest.mark.parametrize(("shape", "hours"), [("slab", 83.7), ("round", 41.8), ("lump", 27.9)])
def test_thawing_vectors(shape: str, hours: float) -> None:
    """Cleland and others 1986 (coefficients from memory), worked by hand: 100 mm, air of 4 °C, h 8."""
    assert thawing_hours(thickness_mm=100, shape=shape, medium_c=4, h=8) == pytest.approx(hours, abs=0.06)


@pytest.mark.parametrize(("medium", "thickness"), SOLVER)
def test_thawing_formula_is_within_its_tenth_of_the_solver(medium: str, thickness: int) -> None:
    """Cleland and others: within 10 % of 104 tests. Solver values are printed to two figures."""
    celsius, h = MEDIA[medium]
    for shape, hours in zip(SHAPES, SOLVER[medium, thickness], strict=True):
        found = thawing_hours(thickness_mm=thickness, shape=shape, medium_c=celsius, h=h)
        assert found == pytest.approx(hours, rel=0.10, abs=0.06)


@pytest.mark.parametrize(("medium", "thickness"), [("fridge", 150), ("water", 50), ("water", 100)])
def test_the_melting_cells_agree_with_the_independent_solver(medium: str, thickness: int) -> None:
    celsius, h = MEDIA[medium]
    for shape, hours in zip(SHAPES, SOLVER[medium, thickness], strict=True):
        around = Surround(outside_c=celsius, h=h, diffusivity_mm2_s=0.1326)
        found = minutes_from_frozen(Body(thickness_mm=thickness, shape=shape), around, target_c=0)
        assert found is not None
        assert found / 60 == pytest.approx(hours, rel=0.03, abs=0.06)


@pytest.mark.parametrize(("lb", "low", "high"), [(10, 48, 60), (1, 24, 24), (5, 24, 30), (20, 96, 120)])
def test_published_rule_of_the_fridge(lb: float, low: float, high: float) -> None:
    """USDA FSIS, The Big Thaw: about 24 hours for each 4 to 5 lb; small packs about a day."""
    assert fridge_hours_by_weight(piece_lb=lb) == (low, high)


@pytest.mark.parametrize(("lb", "hours"), [(1, 0.5), (3.5, 1.75), (12, 6)])
def test_published_rule_of_cold_water(lb: float, hours: float) -> None:
    """USDA FSIS, The Big Thaw: 30 minutes a pound; 3 to 4 lb take 2 to 3 hours there, a little longer."""
    assert water_hours_by_weight(piece_lb=lb) == hours


@pytest.mark.parametrize(
    "call",
    [
        lambda: thawing_hours(thickness_mm=0, shape="slab", medium_c=4, h=8),
        lambda: thawing_hours(thickness_mm=301, shape="slab", medium_c=4, h=8),
        lambda: thawing_hours(thickness_mm=50, shape="cube", medium_c=4, h=8),
        lambda: thawing_hours(thickness_mm=50, shape="slab", medium_c=-1, h=8),
        lambda: thawing_hours(thickness_mm=50, shape="slab", medium_c=60, h=8),
        lambda: thawing_hours(thickness_mm=50, shape="slab", medium_c=4, h=0),
        lambda: fridge_hours_by_weight(piece_lb=0),
        lambda: water_hours_by_weight(piece_lb=-1),
        lambda: Body(thickness_mm=50, shape="cube"),
        lambda: Body(thickness_mm=500, shape="slab"),
        lambda: Body(thickness_mm=50, shape="slab", length_mm=100),
        lambda: theta(shape=1, bi=1, fo=-1),
        lambda: roots(4, 1),
        lambda: roots(1, 0),
        lambda: minutes_from_frozen(
            Body(thickness_mm=50, shape="slab"), Surround(outside_c=50, h=100, diffusivity_mm2_s=0.13), target_c=60
        ),
    ],
)  # fmt: skip
def test_out_of_range_gives_no_number(call: object) -> None:
    assert callable(call)
    with pytest.raises(OutOfRange):
        call()


# Published: table of first terms in heat transfer textbooks (Incropera, Table 5.1; from memory), root and coefficient.
FIRST_TERMS = {
    (1, 0.1): (0.3111, 1.0161),
    (1, 1.0): (0.8603, 1.1191),
    (1, 100.0): (1.5552, 1.2731),
    (2, 0.1): (0.4417, 1.0246),
    (2, 1.0): (1.2558, 1.2071),
    (2, 100.0): (2.3809, 1.6015),
    (3, 0.1): (0.5423, 1.0298),
    (3, 1.0): (1.5708, 1.2732),
    (3, 100.0): (3.1102, 1.9990),
}


@pytest.mark.parametrize(("shape", "bi"), FIRST_TERMS)
def test_first_terms_of_the_textbook_table(shape: int, bi: float) -> None:
    root, weight = FIRST_TERMS[shape, bi]
    assert roots(shape, bi)[0] == pytest.approx(root, abs=1.1e-4)
    assert weights(shape, bi)[0] == pytest.approx(weight, abs=1.1e-4)


def test_bessel_functions() -> None:
    """Zeros of J0 and J1: 2.4048, 5.5201; 3.8317 (Abramowitz and Stegun, table 9.5, from memory)."""
    for order, zero in ((0, 2.404826), (0, 5.520078), (1, 3.831706)):
        assert bessel(order, zero) == pytest.approx(0, abs=1e-6)
    assert bessel(0, 1.0) == pytest.approx(0.765198, abs=1e-6)


def test_every_root_of_a_cylinder_without_resistance_is_a_zero_of_j0() -> None:
    assert roots(2, inf) == pytest.approx(jn_zeros(0, len(roots(2, inf))), rel=1e-8)


@pytest.mark.parametrize("shape", [1, 2, 3])
@pytest.mark.parametrize("bi", [1e-3, 0.1, 3.7, 50.0, 1e6])
def test_every_root_solves_its_equation(shape: int, bi: float) -> None:
    """Carslaw and Jaeger: x tan x = Bi, x J1 = Bi J0, 1 - x cot x = Bi, by scipy's functions; one in each bracket."""
    functions = {1: lambda x: x * sin(x) - bi * cos(x), 2: lambda x: x * j1(x) - bi * j0(x)}
    function = functions.get(shape, lambda x: (1 - bi) * sin(x) - x * cos(x))
    found = roots(shape, bi)
    assert sorted(set(found)) == list(found)
    assert all(2 < after - before < 4.8 for before, after in pairwise(found))
    for x in found:
        assert function(x * (1 - 1e-7)) * function(x * (1 + 1e-7)) < 0, x


def test_a_root_takes_few_steps(monkeypatch: pytest.MonkeyPatch) -> None:
    """Halving alone, 80 times for each of 24 roots, asks 3,840 times; every process pays for it anew."""
    asked: list[float] = []

    def counted(order: int, x: float) -> float:
        asked.append(x)
        return bessel(order, x)

    roots(2, 1.0)  # the zeros between which roots lie are found once
    monkeypatch.setattr("generator.compute.transfer.series.bessel", counted)
    found = roots(2, 3.21)
    assert len(asked) < 40 * len(found)


@pytest.mark.parametrize("shape", [1, 2, 3])
@pytest.mark.parametrize("fo", [0.02, 0.1, 0.3])
def test_series_without_resistance_is_that_of_crank(shape: int, fo: float) -> None:
    """Crank 1975, ch. 4 to 6, by scipy's functions."""
    assert 1 - theta(shape=shape, bi=inf, fo=fo) == pytest.approx(constant(shape, fo)[0], abs=1e-4)


def test_sausage_in_the_autoclave() -> None:
    """Earle, Unit Operations, ch. 5: chart answer about 100 °C (from memory); exact series 99.1 °C."""
    sausage = Body(thickness_mm=100, shape="round", length_mm=300)
    around = Surround(outside_c=116, h=1200, diffusivity_mm2_s=0.1339, conductivity=0.48)
    found = middle_c(sausage, around, start_c=21, minutes=120)
    assert found == pytest.approx(99.1, abs=0.1)
    assert found == pytest.approx(100, abs=1.5)


def test_can_in_boiling_water() -> None:
    """Singh and Heldman: chart answer about 48 °C (from memory); exact series 49.6 °C."""
    can = Body(thickness_mm=81, shape="round", length_mm=111)
    around = Surround(outside_c=100, h=2000, diffusivity_mm2_s=0.34 / 900 / 3500 * 1e6, conductivity=0.34)
    found = middle_c(can, around, start_c=35, minutes=30)
    assert found == pytest.approx(49.6, abs=0.1)
    assert found == pytest.approx(48, abs=2)


def test_steaks_in_the_freezer() -> None:
    """Çengel: middle 8 °C when the surface is 2 °C in air of -15 °C: cos of the first root 17/23; h 20 W/m2K."""
    half_m, conductivity = 0.015, 0.45
    assert cos(roots(1, 20.2 * half_m / conductivity)[0]) == pytest.approx(17 / 23, abs=1e-3)


@pytest.mark.parametrize(
    ("h", "middles"),
    [
        (20, (17.6, 39.8, 54.3, 63.0, 68.2, 71.1)),
        (10, (12.4, 28.6, 41.7, 51.4, 58.4, 63.3)),
        (inf, (36.8, 62.5, 71.1, 73.8)),
    ],
)
def test_cylinder_in_warm_air_by_the_hour(h: float, middles: tuple[float, ...]) -> None:
    """Derived by an independent series: 10 x 20 cm, 4 °C, air of 75 °C, alpha 0.13 mm2/s, k 0.48."""
    body = Body(thickness_mm=100, shape="round", length_mm=200)
    around = Surround(outside_c=75, h=h, diffusivity_mm2_s=0.13, conductivity=0.48)
    for hour, middle in enumerate(middles, start=1):
        assert middle_c(body, around, start_c=4, minutes=60 * hour) == pytest.approx(middle, abs=0.06)


def test_minutes_to_are_those_that_bring_it_there() -> None:
    body, around = (
        Body(thickness_mm=76, shape="round"),
        Surround(outside_c=100, h=500, diffusivity_mm2_s=0.13),
    )
    minutes = minutes_to(body, around, start_c=4, target_c=74)
    assert minutes is not None
    assert middle_c(body, around, start_c=4, minutes=minutes) == pytest.approx(74, abs=1e-3)
    assert minutes_to(body, around, start_c=4, target_c=100) is None
    assert minutes_to(body, around, start_c=4, target_c=2) is None


@pytest.mark.parametrize("shape", SHAPES)
def test_from_frozen_takes_about_half_as_long_again(shape: str) -> None:
    """USDA FSIS, The Big Thaw: cooking frozen meat takes about 50 per cent longer (from memory)."""
    body, around = Body(thickness_mm=76, shape=shape), Surround(outside_c=95, h=500, diffusivity_mm2_s=0.13)
    thawed = minutes_to(body, around, start_c=4, target_c=73.9)
    frozen = minutes_from_frozen(body, around, target_c=73.9)
    assert thawed is not None
    assert frozen is not None
    assert frozen / thawed == pytest.approx(1.5, abs=0.2)


@settings(max_examples=30, deadline=None)
@given(thickness=st.floats(15, 200), shape=st.sampled_from((*SHAPES, None)))
def test_thawing_range_is_in_order_and_grows_with_thickness(thickness: float, shape: str | None) -> None:
    low, high = thawing_range_hours(thickness_mm=thickness, shape=shape, medium=FRIDGE)
    assert 0 < low < high
    thicker = thawing_range_hours(thickness_mm=thickness * 1.2, shape=shape, medium=FRIDGE)
    assert thicker[0] > low
    assert thicker[1] > high


@pytest.mark.parametrize(
    ("low", "high", "words"),
    [
        (48, 93, "45 min to 1 h 35 min"),
        (130, 250, "2 to 4 1/2 h"),
        (17 * 60, 69.5 * 60, "17 to 70 h"),
        (48 * 60, 60 * 60, "2 to 2 1/2 days"),
        (24 * 60, 24 * 60, "24 h"),
        (60, 60, "1 h"),
    ],
)
def test_spans_are_rounded_outwards(low: float, high: float, words: str) -> None:
    assert span_words(low, high) == words


def test_ten_minutes_do_not_cook_a_shank(tmp_path: Path) -> None:
    """Exact series, fast case: 3 in round from 20 °C in boiling water, 0.145 mm2/s: no sooner than 40 minutes."""
    rule = "simmer-too-short"
    words = check(tmp_path / "a", recipe("simmer: 10 min to 165 °F inside", meat=SHANK)).words(rule)
    assert "3 in (76 mm) thick and cooks for 10 min" in words
    assert "at the soonest" in words
    assert "cut it smaller" in words
    assert check(tmp_path / "b", recipe("simmer: 3 h to 165 °F inside", meat=SHANK)).is_quiet(rule)
    assert check(tmp_path / "c", recipe("simmer", meat=SHANK)).is_untold(rule)
    untold = check(tmp_path / "d", recipe("simmer: 10 min", meat="animal: elk; cut: shank"))
    assert untold.boxes[rule]["missing"] == ["meat.thickness"]
    assert check(tmp_path / "e", recipe("boil: 10 min", meat="animal: elk; cut: shank, diced")).is_quiet(rule)


def test_days_of_a_jar_in_the_fridge_are_no_minutes_of_a_pot(tmp_path: Path) -> None:
    rule = "simmer-too-short"
    course = ("simmer: 10 min to 165 °F inside", "jar: 3 days in the fridge")
    assert "cooks for 10 min" in check(tmp_path / "a", recipe(*course, meat=SHANK)).words(rule)
    assert check(tmp_path / "b", recipe("simmer", "jar: 3 days in the fridge", meat=SHANK)).is_untold(rule)


def test_a_dish_is_judged_by_the_piece_it_uses(tmp_path: Path) -> None:
    shank = recipe(
        "hot smoke: 3 h at 225 °F to 150 °F inside", meat=SHANK, eat=True, keep="fridge: 4 days", name="Shank"
    )

    def dish(line: str, minutes: int) -> str:
        return recipe(f"simmer: {minutes} min to 165 °F inside", meat="", lines=(line,), makes="serves: 6")

    rule = "simmer-too-short"
    assert check(tmp_path / "a", dish("1 [shank](shank.md)", 10), shank=shank).refuses(rule)
    assert check(tmp_path / "b", dish("1 [shank](shank.md), sawn in two", 10), shank=shank).refuses(rule)
    assert check(tmp_path / "c", dish("1 [shank](shank.md), diced", 10), shank=shank).is_quiet(rule)
    assert check(tmp_path / "d", dish("1 [shank](shank.md)", 120), shank=shank).is_quiet(rule)


def test_lines_of_times_on_a_page(tmp_path: Path) -> None:
    """The published rule stands beside the estimate; cooling stands on a clock; best by is worked out."""
    text = recipe(
        "thaw: in the fridge", "simmer: 3 h to 165 °F inside", "cool: 2 h in an ice bath", "pack: vacuum",
        meat=SHANK, keep="fridge: 3 days; freezer: 2 months",
    )  # fmt: skip
    said = facts(tmp_path, text)
    assert "24 h for a piece of 1.5 lb (0.68 kg) by the published rule, a day for each 4 to 5 lb" in said
    assert "by an estimate from its thickness, 3 in (76 mm)" in said
    assert "In a simmer the middle of a piece 3 in (76 mm) thick comes to 165 °F (74 °C) after about" in said
    assert ", from frozen " in said
    assert "off the heat at 18:00, at 70 °F (21 °C) by 20:00 and at 41 °F (5 °C) by 00:00" in said
    assert "made on a Saturday, eat it by Tuesday" in said
    assert "Reheat leftovers to 165 °F (74 °C)." in said
    assert "A vacuum pack does not preserve it" in said
    assert "it keeps raw for up to 5 more days" in said


def test_cold_water_has_its_own_line_and_vegetables_have_none(tmp_path: Path) -> None:
    text = recipe("thaw: 1 h in cold water", "simmer: 3 h to 165 °F inside", meat=SHANK)
    assert "45 min for a piece of 1.5 lb (0.68 kg) by the published rule, 30 minutes a pound" in facts(
        tmp_path / "a", text
    )
    plain = recipe("thaw: in the fridge", "simmer: 1 h", meat="", lines=("2 lb kale",), keep="fridge: 3 days")
    assert "Thawing" not in facts(tmp_path / "b", plain)


def test_a_dish_that_does_not_say_goes_by_the_table(tmp_path: Path) -> None:
    said = facts(tmp_path, recipe("simmer: 3 h to 165 °F inside", meat=SHANK))
    assert "eat it by Wednesday" in said
    assert "soups and stews with meat keep 4 days" in said
