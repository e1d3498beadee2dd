"""The solver from inside: cells, one implicit step, what lies between steps, and how the parts of a course add up.

Expected values are exact series (Crank 1975, by scipy's functions), linear algebra by numpy, or hand arithmetic.
"""

from __future__ import annotations

from dataclasses import replace
from math import cosh, exp, inf, pi, tanh

import numpy as np
import pytest

from generator.compute.transfer import diffuse as diffuse_module
from generator.compute.transfer.balance import Balance
from generator.compute.transfer.cells import CELLS, at_middle, between, factor, grid, mean_of, solve
from generator.compute.transfer.course import (
    Movement,
    _rest_of_one,
    _stitch_cell,
    course_of,
    edge_of_stitches,
    profile_of,
)
from generator.compute.transfer.diffuse import (
    Boundary,
    Closed,
    Constant,
    Limited,
    Reservoir,
    _longest_step,
    diffuse,
)
from generator.compute.transfer.geometry import Way
from generator.problems import OutOfRange
from tests.compute.transfer import exact_series as exact

SHAPES = (1, 2, 3)

# --- cells


@pytest.mark.parametrize("shape", SHAPES)
def test_cells_fill_the_shape(shape: int) -> None:
    """Faces at s + 0.8 s (1 - s), s in even parts; volumes and areas of a slab, cylinder, sphere per area at x = 1."""
    s = np.linspace(0, 1, CELLS + 1)
    faces = s + 0.8 * s * (1 - s)
    centres = (faces[1:] + faces[:-1]) / 2
    cells = grid(shape)
    assert cells.centres == pytest.approx(centres)
    assert cells.volumes == pytest.approx(np.diff(faces**shape) / shape)
    assert cells.conductances[:-1] == pytest.approx(faces[1:-1] ** (shape - 1) / np.diff(centres))
    assert cells.conductances[-1] == pytest.approx(1 / (1 - centres[-1]))
    assert mean_of(shape, (2.0,) * CELLS) == pytest.approx(2)


def test_one_implicit_stage_is_the_solution_of_its_matrix() -> None:
    """(V (1 + tau k) + tau sum of g) c - tau g of neighbours = V c before; no loss in the last cell, the bath."""
    volumes, conductances, tau, loss = [1.0, 2.0, 3.0, 5.0], [7.0, 11.0, 13.0], 0.3, 0.7
    matrix = np.diag([v * (1 + tau * loss) for v in volumes[:-1]] + [volumes[-1]])
    for i, conductance in enumerate(conductances):
        matrix[i : i + 2, i : i + 2] += tau * conductance * np.array([[1, -1], [-1, 1]])
    levels = [0.5, -1.0, 2.0, 4.0]
    found = solve(volumes, levels, *factor(volumes, conductances, tau, loss))
    assert found == pytest.approx(np.linalg.solve(matrix, np.array(volumes) * levels))


def test_the_middle_of_a_parabola_is_exact() -> None:
    cells = grid(2)
    assert at_middle(cells, [3 + 5 * x**2 for x in cells.centres]) == pytest.approx(3)


def test_between_two_steps_a_cubic_is_exact() -> None:
    """x^3 - 2 x^2 + 3 through its values and slopes 3 x^2 - 4 x at 1, 3, 4; before and after them it stays."""

    def cubic(x: float) -> float:
        return x**3 - 2 * x**2 + 3

    times = (1.0, 3.0, 4.0)
    values, slopes = tuple(map(cubic, times)), tuple(3 * x**2 - 4 * x for x in times)
    for x in (1.0, 1.7, 2.9, 3.0, 3.4, 4.0):
        assert between(times, values, slopes, x) == pytest.approx(cubic(x))
    assert (between(times, values, slopes, 0.5), between(times, values, slopes, 9.0)) == (cubic(1), cubic(4))


# --- steps in time


def test_slowest_falls_are_the_first_roots_of_the_series() -> None:
    assert [diffuse_module.SLOWEST[shape] for shape in SHAPES] == pytest.approx(
        [(pi / 2) ** 2, exact.J0_ZEROS[0] ** 2, pi**2], abs=6e-4
    )
    assert (
        pytest.approx(1 - 2**-0.5) == diffuse_module.GAMMA
    )  # Hairer and Wanner (from memory): 1 - 1 / sqrt 2


@pytest.mark.parametrize(
    ("fo", "rate", "loss", "longest"),
    [
        # slab, 2.467 per Fo: the front comes in until 1.5 / 2.467 = 0.608, it is even after 6 / 2.467 = 2.432
        (0.60, 9.0, 0.0, 0.032428),  # 0.08 / 2.467
        (0.62, 9.0, 0.0, 0.081070),  # 0.2 / 2.467
        (2.42, 0.1, 0.0, 0.081070),
        (2.44, 0.1, 0.0, 2.0),  # 0.2 / 0.1
        (2.44, 9.0, 0.0, 0.081070),
        (9.00, 0.0, 0.0, 2000.0),  # 0.2 / 1e-4
        (0.60, 9.0, 50.0, 0.004),  # 0.2 / 50
        (0.60, 9.0, 0.5, 0.032428),
        (9.00, 0.0, 0.5, 0.4),  # 0.2 / 0.5
        (9.00, 0.8, 0.5, 0.25),  # 0.2 / 0.8
    ],
)
def test_longest_step_by_hand(fo: float, rate: float, loss: float, longest: float) -> None:
    assert _longest_step(1, fo, rate, loss) == pytest.approx(longest, rel=1e-4)


@pytest.mark.parametrize("shape", SHAPES)
def test_much_closer_than_the_promise_once_the_front_is_in(shape: int) -> None:
    """Against the exact series from Fo 0.02 on: 4e-4 of the surface level in the middle, 2e-4 on the mean."""
    trace = diffuse(shape=shape, start=0.0, boundary=Constant(1.0), fo_end=2.0)
    for fo in np.geomspace(0.02, 1.9, 40):
        middle, mean = exact.constant(shape, float(fo))
        assert trace.middle_at(float(fo)) == pytest.approx(middle, abs=4e-4)
        assert trace.mean_at(float(fo)) == pytest.approx(mean, abs=2e-4)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_first_step_goes_with_the_root_of_time(shape: int) -> None:
    """Within the first step uptake goes with the root of time: half of it after a quarter (Crank 1975, 4.20)."""
    trace = diffuse(shape=shape, start=0.4, boundary=Constant(1.0), fo_end=1.0)
    assert trace.mean[1] > 0.401
    assert trace.mean_at(trace.fo[1] / 4) == pytest.approx((0.4 + trace.mean[1]) / 2)
    assert trace.mean_at(0.0) == pytest.approx(0.4)


@pytest.mark.parametrize("shape", SHAPES)
def test_slopes_are_those_of_the_exact_series(shape: int) -> None:
    trace = diffuse(shape=shape, start=0.0, boundary=Constant(1.0), fo_end=1.0)
    for i, fo in enumerate(trace.fo):
        if fo > 0.05:
            after, before = exact.constant(shape, fo + 1e-5), exact.constant(shape, fo - 1e-5)
            middle, mean = ((a - b) / 2e-5 for a, b in zip(after, before, strict=True))
            assert trace.middle_slope[i] == pytest.approx(middle, abs=0.02)
            assert trace.mean_slope[i] == pytest.approx(mean, abs=0.02)


def test_the_face_between_steps_follows_its_slope() -> None:
    """An even bath runs through the steps of a finer course within 1e-3."""
    coarse = diffuse(shape=1, start=0.0, boundary=Limited(2.0, 1.0), fo_end=1.0)
    for i in range(20, len(coarse.fo) - 1):
        fo = (coarse.fo[i] + coarse.fo[i + 1]) / 2
        fine = diffuse(shape=1, start=0.0, boundary=Limited(2.0, 1.0), fo_end=fo)
        assert coarse.face_at(fo) == pytest.approx(fine.face[-1], abs=1e-3)


def test_levels_have_no_scale() -> None:
    one, small = (diffuse(shape=2, start=0.0, boundary=Limited(v, 1.0), fo_end=50.0) for v in (1.0, 1e-6))
    assert small.fo == pytest.approx(one.fo)
    assert [level * 1e6 for level in small.mean] == pytest.approx(one.mean)
    spent, little = (diffuse(shape=1, start=v, boundary=Closed(), fo_end=9.0, loss=20.0) for v in (1.0, 1e-6))
    assert little.fo == pytest.approx(spent.fo)


def test_steady_state_with_a_loss() -> None:
    """Crank 1975, ch. 14: slab, Da 4: 1 / cosh 2 in the middle, tanh 2 / 2 on the mean, and nothing moves any more."""
    trace = diffuse(shape=1, start=0.0, boundary=Constant(1.0), fo_end=30.0, loss=4.0)
    assert trace.middle[-1] == pytest.approx(1 / cosh(2), abs=2e-4)
    assert trace.mean[-1] == pytest.approx(tanh(2) / 2, abs=2e-4)
    assert trace.mean_slope[-1] == pytest.approx(0, abs=1e-3)


@pytest.mark.parametrize(
    ("loss", "over"),
    [
        (0.5, 17.034),  # 3 x 0.5 exp(-0.5 Fo) = 3e-4: ln(1e4 x 0.5) / 0.5, it moves by less than 1e-4 per Fo
        (1.0, 9.210),  # ln(1e4) / 1
        (20.0, 0.5756),  # ln(1e5) / 20: 1e-5 of it is left, before it moves so little
    ],
)
def test_a_loss_in_a_closed_piece_is_exponential_until_it_is_over(loss: float, over: float) -> None:
    trace = diffuse(shape=1, start=3.0, boundary=Closed(), fo_end=1000.0, loss=loss)
    for fo, mean, middle in zip(trace.fo, trace.mean, trace.middle, strict=True):
        assert mean == pytest.approx(3 * exp(-loss * fo), rel=0.02, abs=3e-3)
        assert middle == pytest.approx(mean)
    assert over <= trace.fo[-1] <= over * 1.03


def test_an_even_piece_is_over_soon_and_keeps_its_level() -> None:
    """Without a loss a course ends once it moves by less than 1e-4 of its highest level per Fo.

    Slab, constant: 2.467 x 4 / pi x exp(-2.467 Fo) is 1e-4 at Fo 4.2; a later step may be the first to see it.
    """
    trace = diffuse(shape=1, start=0.0, boundary=Constant(1.0), fo_end=1e5)
    assert 4.1 <= trace.fo[-1] <= 5.5
    assert (trace.middle_at(1e5), trace.mean_at(1e5)) == pytest.approx((1, 1), abs=1e-4)


def test_limits_of_fo() -> None:
    at_once = diffuse(shape=1, start=0.4, boundary=Constant(1.0), fo_end=0.0)
    assert (at_once.fo, at_once.mean_at(0.5)) == ((0.0,), pytest.approx(0.4))
    with pytest.raises(OutOfRange):
        diffuse(shape=1, start=0.0, boundary=Constant(1.0), fo_end=100_000.5)
    for ratio, saturation in ((0.0, 1.0), (-1.0, 1.0), (1.0, 0.0)):
        with pytest.raises(OutOfRange):
            diffuse(shape=1, start=0.0, boundary=Reservoir(1.0, ratio, saturation), fo_end=1.0)
    small = diffuse(shape=1, start=0.0, boundary=Limited(1.0, 0.5), fo_end=9.0)
    assert small.bath == pytest.approx(1 / 3, abs=1e-4)  # 0.5 / (1 + 0.5)


# --- a weighed dry cure


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("film", [0.05, 0.2])
def test_a_film_is_saturated_until_its_salt_is_gone_and_a_small_bath_then(shape: int, film: float) -> None:
    saturation, amount = 8.0, 1.05 + 8 * film
    trace = diffuse(shape=shape, start=0.0, boundary=Reservoir(amount, film, saturation), fo_end=3.0)
    endless = diffuse(shape=shape, start=0.0, boundary=Constant(saturation), fo_end=3.0)
    left = amount - saturation * film  # taken up by the meat when the last grain dissolves
    gone = next(i for i, mean in enumerate(trace.mean) if mean > left * (1 - 2e-3))
    assert trace.mean[gone] == pytest.approx(left, rel=2e-3)
    for i in range(1, gone + 1):
        assert trace.mean[i] == pytest.approx(endless.mean_at(trace.fo[i]), rel=5e-3)
    assert trace.mean[-1] + film * trace.bath == pytest.approx(amount, rel=1e-6)
    assert trace.mean[-1] == pytest.approx(amount / (1 + film), rel=1e-3)
    assert trace.bath == pytest.approx(amount / (1 + film), rel=1e-2)


def test_a_film_that_holds_all_its_salt_is_a_small_bath_at_once() -> None:
    """0.3 / 0.05 = 6 <= 6: a bath at 6. Above it, by more than one in a thousand, some salt lies undissolved."""
    film = diffuse(shape=1, start=0.0, boundary=Reservoir(0.3, 0.05, 6.0), fo_end=1.0)
    bath = diffuse(shape=1, start=0.0, boundary=Limited(0.3 / 0.05, 0.05), fo_end=1.0)
    assert film == bath
    more = diffuse(shape=1, start=0.0, boundary=Reservoir(0.36, 0.05, 6.0), fo_end=3.0)
    assert more.mean[-1] == pytest.approx(0.36 / 1.05, rel=1e-3)
    never = diffuse(shape=1, start=0.0, boundary=Reservoir(20.0, 0.05, 6.0), fo_end=9.0)
    assert (never.bath, never.mean[-1]) == pytest.approx((6, 6), rel=1e-3)


# --- a course is the sum of what comes in and what was there


def test_speed_of_a_solute_by_hand() -> None:
    """17.28 mm2/day (2e-10 m2/s) on 12 mm: Fo 0.12 a day, 0.6 in 5; a loss of 0.3 a day is 0.3 x 144 / 17.28 = 2.5."""
    movement, way = Movement(diffusivity=17.28, loss_per_day=0.3), Way(shape=1, length_mm=12)
    assert (movement.fo(way, 5), movement.loss(way)) == pytest.approx((0.6, 2.5))
    assert Movement(diffusivity=1).loss(way) == 0


WAY, SALT = Way(shape=2, length_mm=30), Movement(diffusivity=17.28)
NITRITE = Movement(diffusivity=15.0, loss_per_day=0.05)


def balance_of(boundary: Boundary, start: float) -> Balance:
    ratio = boundary.ratio if isinstance(boundary, (Limited, Reservoir)) else 1.0
    return Balance(even_level=0.05, start=start, boundary=boundary, ratio=ratio, meat_water=0.72)


@pytest.mark.parametrize("boundary", [Limited(1.4, 1.5), Reservoir(0.9, 0.05, 9.0)])
@pytest.mark.parametrize("start", [0.0, 0.35])
@pytest.mark.parametrize("movement", [SALT, NITRITE])
@pytest.mark.parametrize("is_open", [True, False])
def test_the_parts_of_a_course_add_up(
    boundary: Boundary, start: float, movement: Movement, is_open: bool
) -> None:
    """Linear: in one solution with the start and the bath as they are it comes to the same; stitches 5 mm apart."""
    way = replace(WAY, is_open=is_open)
    balance = balance_of(boundary, start)
    course = course_of(
        way=way, middle_way=way, movement=movement, balance=balance, pitch_mm=5.0, longest_days=60.0
    )
    assert (course.inside is None) == (course.middle_inside is None) == (start == 0)
    for days in (3.0, 11.0, 40.0):
        fo, loss = movement.fo(way, days), movement.loss(way)
        whole = diffuse(
            shape=2, start=start, boundary=boundary if is_open else Closed(), fo_end=fo, loss=loss
        )
        assert course.mean(days) == pytest.approx(whole.mean[-1], abs=2e-3)
        assert course.middle(days) == pytest.approx(whole.middle[-1], abs=2e-3)
        found = profile_of(way=way, movement=movement, balance=balance, days=days)
        assert found == whole.profile


def test_far_from_any_face_the_stitches_alone_count() -> None:
    """Edge / mean of stitches 30 mm apart, 2e-10 m2/s, after 2 and 5 days: 0.74, 0.98 (series in a cylinder)."""
    thick = Way(shape=1, length_mm=300)
    for boundary in (Limited(1.4, 1.5), Reservoir(0.9, 0.05, 9.0)):
        balance = balance_of(boundary, 0.2)
        course = course_of(way=thick, middle_way=thick, movement=SALT, balance=balance, pitch_mm=30.0)
        assert [course.middle(days) / 0.2 for days in (2, 5)] == pytest.approx([0.74, 0.98], abs=0.0065)
        bare = course_of(way=thick, middle_way=thick, movement=SALT, balance=balance, pitch_mm=None)
        assert bare.inside is None


def test_the_middle_has_a_way_of_its_own() -> None:
    """Half the way is a quarter of the time (transfer notes, 4): the middle after 4 days is the other's after 16."""
    balance = balance_of(Limited(1.4, 1.5), 0.0)
    half = replace(WAY, length_mm=15)
    short = course_of(way=WAY, middle_way=half, movement=SALT, balance=balance, pitch_mm=None)
    whole = course_of(way=WAY, middle_way=WAY, movement=SALT, balance=balance, pitch_mm=None)
    assert short.middle(4) == pytest.approx(whole.middle(16), abs=1e-3)
    assert short.mean(4) == whole.mean(4)


def test_without_a_loss_solutes_share_a_solution() -> None:
    """Up to a power of two in Fo: 17.28 x 10 / 900 = 0.192 and 15 x 10 / 900 = 0.167 both go to 0.25."""
    balance = balance_of(Limited(1.4, 1.5), 0.0)
    one, other, lost = (
        course_of(way=WAY, middle_way=WAY, movement=movement, balance=balance, pitch_mm=None, longest_days=10)
        for movement in (SALT, Movement(diffusivity=15.0), NITRITE)
    )
    assert one.outside is other.outside
    assert one.outside.fo[-1] == 0.25
    assert lost.outside.fo[-1] == pytest.approx(15 * 10 / 900)
    wide = Way(shape=1, length_mm=60)
    whole = course_of(way=wide, middle_way=wide, movement=NITRITE, balance=balance, pitch_mm=None)
    assert whole.outside.fo[-1] == pytest.approx(15 * 120 / 3600)  # the longest cure is 120 days
    thin = course_of(
        way=Way(shape=1, length_mm=0.1), middle_way=WAY, movement=SALT, balance=balance, pitch_mm=None
    )
    assert thin.mean(120) == pytest.approx(1.4 * 1.5 / 2.5, abs=1e-3)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_rest_of_one_is_what_leaves(shape: int) -> None:
    """Crank 1975, 4.3.5: without a loss a piece gives up by the same course by which it takes up."""
    taken = diffuse(shape=shape, start=0.0, boundary=Limited(1.0, 2.0), fo_end=0.4)
    given = diffuse(shape=shape, start=1.0, boundary=Limited(0.0, 2.0), fo_end=0.4)
    rest = _rest_of_one(taken)
    assert (rest.bath, rest.profile) == (pytest.approx(given.bath), pytest.approx(given.profile, abs=1e-3))
    for fo in (0.0, 0.013, 0.11, 0.35):
        assert rest.middle_at(fo) == pytest.approx(given.middle_at(fo), abs=1e-3)
        assert rest.mean_at(fo) == pytest.approx(given.mean_at(fo), abs=1e-3)
        assert rest.face_at(fo) == pytest.approx(given.face_at(fo), abs=1e-3)


def test_a_stitch_cell_holds_its_brine_in_a_core_of_half_the_radius() -> None:
    """Mean 1, so 4 in the core, which is a quarter of the area; even in the end; one cell lies across the edge."""
    cell = _stitch_cell()
    assert cell.mean[0] == pytest.approx(1)
    assert (cell.middle[0], cell.face[0]) == pytest.approx((4, 0))
    assert edge_of_stitches(0.0) == 0
    assert edge_of_stitches(1.0) == pytest.approx(1, abs=1e-3)
    assert edge_of_stitches(inf) == pytest.approx(1, abs=2e-5)
