"""A step of temperature in a piece: the series against published tables, the minutes against worked examples.

Expected values are published, or derived by a series of its own that shares no line with the program (transfer notes,
section 6), and the tolerance is the one printed there.
"""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import cos, exp, inf, nan, pi, sin

import pytest
from scipy.special import j0, j1, jn_zeros
from scipy.special import jv as scipy_bessel

from generator.compute.transfer import heat, series
from generator.compute.transfer.heat import (
    Body,
    Surround,
    from_fahrenheit,
    middle_c,
    minutes_to,
    unchanged_share,
)
from generator.compute.transfer.series import bessel, roots, theta, weights
from generator.problems import OutOfRange
from tests.compute.transfer.exact_series import constant

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

    monkeypatch.setattr("generator.compute.transfer.series.bessel", counted)
    found = roots(2, 3.21)
    assert 0 < len(asked) < 40 * len(found)
    assert len(found) == series.TERMS


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


def test_bessel_functions_of_scipy() -> None:
    for order in (0, 1):
        for x in (0.0, 0.5, 3.2, 20.0, 77.7):
            assert bessel(order, x) == pytest.approx(scipy_bessel(order, x), abs=1e-13)


@pytest.mark.parametrize("shape", [1, 2, 3])
def test_first_move_of_the_middle(shape: int) -> None:
    """The series at its earliest and before: 1e-6 of the step at Fo 0.003, where the middle has not moved by 1e-4."""
    assert theta(shape=shape, bi=inf, fo=0.003) == pytest.approx(1 - constant(shape, 0.003)[0], abs=1e-6)
    assert theta(shape=shape, bi=inf, fo=0.003) == pytest.approx(1, abs=1e-4)
    assert (theta(shape=shape, bi=inf, fo=0.0029), theta(shape=shape, bi=inf, fo=0.0)) == (1, 1)


@pytest.mark.parametrize("shape", [1, 2, 3])
def test_a_small_biot_number_cools_as_one_lump(shape: int) -> None:
    """Carslaw and Jaeger: without resistance inside, theta = exp(-m Bi Fo), m = 1, 2, 3 (face / volume of the shape)."""
    assert theta(shape=shape, bi=1e-4, fo=2000.0) == pytest.approx(exp(-shape * 1e-4 * 2000), abs=1e-4)


@pytest.mark.parametrize("shape", [1, 2, 3])
def test_weights_make_one_at_the_start(shape: int) -> None:
    """At Bi 1 the middle stands at its start until Fo 0.01: the weights, each with its root, add up to 1."""
    pairs = zip(weights(shape, 1.0), roots(shape, 1.0), strict=True)
    assert sum(weight * exp(-x * x * 0.01) for weight, x in pairs) == pytest.approx(1, abs=1e-4)


def test_a_sphere_of_biot_one_by_hand() -> None:
    """1 - x cot x = 1 has the roots (n - 1/2) pi; 4 (sin x - x cos x) / (2 x - sin 2 x) is then 2 sin x / x, +-."""
    odd = [(n + 0.5) * pi for n in range(5)]
    assert roots(3, 1.0)[:5] == pytest.approx(odd, rel=1e-12)
    assert weights(3, 1.0)[:3] == pytest.approx((4 / pi, -4 / (3 * pi), 4 / (5 * pi)), rel=1e-12)


SLAB_50, HALF_FO = Body(thickness_mm=50, shape="slab"), 0.3787
"Crank 1975, ch. 4: the middle of a slab without resistance has made half the step at Fo 0.3787."


def test_minutes_of_half_a_step_by_hand() -> None:
    """0.3787 x 25^2 mm2 / 0.13 mm2/s = 1820.7 s = 30.344 min; of 4 mm: 0.3787 x 4 / 0.13 = 11.652 s = 0.1942 min."""
    around = Surround(outside_c=90, h=inf, diffusivity_mm2_s=0.13)
    assert minutes_to(SLAB_50, around, start_c=10, target_c=50) == pytest.approx(30.344, rel=4e-4)
    cold = Surround(outside_c=0, h=inf, diffusivity_mm2_s=0.13)
    assert minutes_to(SLAB_50, cold, start_c=80, target_c=40) == pytest.approx(30.344, rel=4e-4)
    thin = Body(thickness_mm=4, shape="slab")
    assert minutes_to(thin, around, start_c=10, target_c=50) == pytest.approx(0.1942, rel=5e-4)


def test_a_middle_that_takes_more_than_a_week_is_not_told() -> None:
    """A week is 10,080 min. 0.3787 x 150^2 mm2 = 8520.75 mm2: /600,000 s (10,000 min) and /606,600 s (10,110 min)."""
    thick = Body(thickness_mm=300, shape="slab")
    within, beyond = (
        Surround(outside_c=90, h=inf, diffusivity_mm2_s=8520.75 / seconds) for seconds in (600_000, 606_600)
    )
    assert minutes_to(thick, within, start_c=10, target_c=50) == pytest.approx(10_000, rel=4e-4)
    assert minutes_to(thick, beyond, start_c=10, target_c=50) is None


def test_where_nothing_is_to_be_heated() -> None:
    around = Surround(outside_c=90, h=20, diffusivity_mm2_s=0.13)
    assert minutes_to(SLAB_50, around, start_c=10, target_c=10) == 0
    assert minutes_to(SLAB_50, around, start_c=90, target_c=90) == 0
    assert minutes_to(SLAB_50, around, start_c=90, target_c=80) is None
    assert minutes_to(SLAB_50, around, start_c=10, target_c=5) is None
    assert minutes_to(SLAB_50, around, start_c=10, target_c=90) is None
    assert minutes_to(SLAB_50, around, start_c=10, target_c=89.5) is not None
    thin = Body(thickness_mm=2, shape="slab")  # so thin that a float cannot tell it from 90 degC after a week
    assert minutes_to(thin, around, start_c=10, target_c=90) is None


def test_the_conductivity_that_is_not_told_is_that_of_lean_meat() -> None:
    """Bi 1 is h = k / l = 0.49 / 0.025 = 19.6 W/m2K (ASHRAE: 0.48 to 0.50), Fo 1 is 25^2 / 0.13 s = 80.128 min.

    One term, Incropera, Table 5.1: 1.1191 exp(-0.8603^2) = 0.5339, so 90 - 80 x 0.5339 = 47.29 degC.
    """
    around = Surround(outside_c=90, h=19.6, diffusivity_mm2_s=0.13)
    assert middle_c(SLAB_50, around, start_c=10, minutes=80.128) == pytest.approx(47.29, abs=0.02)
    whole = unchanged_share(SLAB_50, around, minutes=25**2 / 0.13 / 60)
    assert whole == pytest.approx(theta(shape=1, bi=1.0, fo=1.0), rel=1e-9)


def test_diffusivities_are_the_ends_of_the_published_table() -> None:
    """Singh and Heldman (second-hand), mm2/s: ham 0.118, chuck 0.123; round 0.133, halibut 0.147."""
    assert 0.118 <= heat.SLOW_MM2_S <= 0.123
    assert 0.133 <= heat.FAST_MM2_S <= 0.147


def test_fahrenheit() -> None:
    """(165 - 32) x 5 / 9 = 73.889."""
    assert from_fahrenheit(Fraction(165)) == pytest.approx(73.889, abs=5e-4)


@pytest.mark.parametrize(
    "call",
    [
        lambda: Body(thickness_mm=50, shape="cube"),
        lambda: Body(thickness_mm=0, shape="slab"),
        lambda: Body(thickness_mm=nan, shape="slab"),
        lambda: Body(thickness_mm=300.5, shape="slab"),
        lambda: Body(thickness_mm=50, shape="slab", length_mm=100),
        lambda: Body(thickness_mm=50, shape="round", length_mm=0),
        lambda: theta(shape=1, bi=1, fo=-1),
        lambda: theta(shape=1, bi=1, fo=inf),
        lambda: theta(shape=1, bi=1, fo=nan),
        lambda: roots(4, 1),
        lambda: roots(0, 1),
        lambda: roots(1, 0),
        lambda: roots(1, nan),
    ],
)
def test_out_of_range_gives_no_number(call: object) -> None:
    assert callable(call)
    with pytest.raises(OutOfRange):
        call()


def test_the_ends_of_the_range_are_within() -> None:
    for thickness in (0.5, 300.0):
        assert Body(thickness_mm=thickness, shape="round", length_mm=0.5).length_mm == 0.5
    assert roots(1, 0.5)[0] == pytest.approx(0.6533, abs=1e-4)  # Incropera, Table 5.1 (from memory): Bi 0.5
