"""The solver against printed values and against the exact series.

Values of the tables: the series of Crank, The Mathematics of Diffusion, 2nd ed., 1975, evaluated for this project
and checked by two independent programs; they agree with the printed tables of the book from memory. They are given
to four places; the solver is to meet them to 0.001.
"""

from __future__ import annotations

import pytest

from generator.compute.transfer.cells import grid
from generator.compute.transfer.course import edge_of_stitches
from generator.compute.transfer.diffuse import (
    Boundary,
    Closed,
    Constant,
    Limited,
    Reservoir,
    Trace,
    diffuse,
)
from generator.problems import OutOfRange
from tests.compute.transfer import exact_series as exact

TOLERANCE = 1e-3
SHAPES = {"slab": 1, "cylinder": 2, "sphere": 3}


def course(shape: int, boundary: Boundary, start: float = 0.0, fo: float = 3.0, loss: float = 0.0) -> Trace:
    return diffuse(shape=shape, start=start, boundary=boundary, fo_end=fo, loss=loss)


# Fo: mean and middle of slab, cylinder, sphere. Crank 1975, eqs. of sections 4.3, 5.3, 6.3.
CONSTANT = """
0.005 0.0798 0.0000 0.1545 0.0000 0.2244 0.0000
0.01  0.1128 0.0000 0.2155 0.0000 0.3085 0.0000
0.02  0.1596 0.0000 0.2986 0.0000 0.4187 0.0000
0.05  0.2523 0.0031 0.4521 0.0129 0.6069 0.0340
0.10  0.3568 0.0507 0.6058 0.1516 0.7705 0.2929
0.20  0.5041 0.2277 0.7821 0.4985 0.9155 0.7229
0.30  0.6132 0.3932 0.8780 0.7175 0.9685 0.8965
0.40  0.6979 0.5255 0.9316 0.8415 0.9883 0.9614
0.50  0.7640 0.6292 0.9616 0.9111 0.9956 0.9856
0.60  0.8156 0.7103 0.9785 0.9501 0.9984 0.9946
0.80  0.8874 0.8231 0.9932 0.9843 0.9998 0.9993
1.00  0.9313 0.8920 0.9979 0.9951 1.0000 0.9999
1.50  0.9800 0.9686 0.9999 0.9997 1.0000 1.0000
"""


def constant_rows() -> list[tuple[str, float, float, float]]:
    rows = []
    for line in CONSTANT.split("\n")[1:-1]:
        fo, *values = (float(word) for word in line.split())
        for i, name in enumerate(SHAPES):
            rows.append((name, fo, values[2 * i], values[2 * i + 1]))
    return rows


@pytest.mark.parametrize(("name", "fo", "mean", "middle"), constant_rows())
def test_crank_constant_surface(name: str, fo: float, mean: float, middle: float) -> None:
    trace = course(SHAPES[name], Constant(1.0))
    assert trace.mean_at(fo) == pytest.approx(mean, abs=TOLERANCE)
    assert trace.middle_at(fo) == pytest.approx(middle, abs=TOLERANCE)


# sqrt(D t) / l: mean uptake of slab, cylinder, sphere. Crank 1975, figs. 4.6, 5.7, 6.4.
ROOT_OF_TIME = {
    0.1: (0.1128, 0.2155, 0.3085),
    0.2: (0.2257, 0.4096, 0.5570),
    0.3: (0.3385, 0.5805, 0.7455),
    0.4: (0.4512, 0.7248, 0.8744),
    0.5: (0.5622, 0.8370, 0.9484),
    0.6: (0.6665, 0.9138, 0.9826),
    0.8: (0.8329, 0.9829, 0.9989),
    1.0: (0.9313, 0.9979, 1.0000),
}


@pytest.mark.parametrize(("root", "means"), ROOT_OF_TIME.items())
def test_crank_uptake_against_root_of_time(root: float, means: tuple[float, ...]) -> None:
    found = [course(shape, Constant(1.0)).mean_at(root**2) for shape in SHAPES.values()]
    assert found == pytest.approx(means, abs=TOLERANCE)


# Share of the mean, then of the middle: Fo needed in slab, cylinder, sphere (same source).
FO_NEEDED = [
    ("mean", 0.25, (0.0491, 0.0137, 0.0063)),
    ("mean", 0.50, (0.1967, 0.0631, 0.0305)),
    ("mean", 0.75, (0.4767, 0.1764, 0.0917)),
    ("mean", 0.90, (0.8481, 0.3344, 0.1830)),
    ("mean", 0.95, (1.1290, 0.4543, 0.2531)),
    ("mean", 0.99, (1.7813, 0.7326, 0.4162)),
    ("middle", 0.10, (0.1302, 0.0854, 0.0661)),
    ("middle", 0.50, (0.3787, 0.2005, 0.1388)),
    ("middle", 0.75, (0.6597, 0.3212, 0.2105)),
    ("middle", 0.90, (1.0311, 0.4796, 0.3035)),
    ("middle", 0.95, (1.3120, 0.5995, 0.3738)),
]


@pytest.mark.parametrize(("what", "share", "fos"), FO_NEEDED)
def test_crank_time_needed(what: str, share: float, fos: tuple[float, ...]) -> None:
    for shape, fo in zip(SHAPES.values(), fos, strict=True):
        trace = course(shape, Constant(1.0))
        found = trace.mean_at(fo) if what == "mean" else trace.middle_at(fo)
        assert found == pytest.approx(share, abs=TOLERANCE)


# alpha, Fo: uptake and middle of slab, cylinder, sphere as shares of the final level. Crank 1975, 4.3.5, 5.3.3, 6.3.2.
LIMITED = """
0.25 0.05 0.6772 0.0116 0.8564 0.0380 0.9265 0.0832
0.25 0.2  0.8991 0.5278 0.9797 0.7830 0.9954 0.9108
1    0.05 0.4192 0.0058 0.6536 0.0220 0.7905 0.0542
1    0.1  0.5528 0.0876 0.7930 0.2318 0.9039 0.4041
1    0.2  0.7116 0.3567 0.9157 0.6553 0.9766 0.8424
1    0.5  0.9165 0.8111 0.9938 0.9745 0.9996 0.9975
4    0.1  0.4165 0.0610 0.6717 0.1762 0.8229 0.3297
4    0.5  0.8237 0.6944 0.9780 0.9398 0.9980 0.9920
9    0.2  0.5363 0.2456 0.8083 0.5245 0.9297 0.7457
9    1.0  0.9460 0.9113 0.9987 0.9967 1.0000 0.9999
"""


def limited_rows() -> list[tuple[str, float, float, float, float]]:
    rows = []
    for line in LIMITED.split("\n")[1:-1]:
        alpha, fo, *values = (float(word) for word in line.split())
        for i, name in enumerate(SHAPES):
            rows.append((name, alpha, fo, values[2 * i], values[2 * i + 1]))
    return rows


@pytest.mark.parametrize(("name", "alpha", "fo", "mean", "middle"), limited_rows())
def test_crank_limited_bath(name: str, alpha: float, fo: float, mean: float, middle: float) -> None:
    trace = course(SHAPES[name], Limited((1 + alpha) / alpha, alpha))
    assert trace.mean_at(fo) == pytest.approx(mean, abs=TOLERANCE)
    assert trace.middle_at(fo) == pytest.approx(middle, abs=TOLERANCE)


# alpha: Fo at which the middle is at 50, 75, 90 % of its own final level; three places (same source).
LIMITED_FO = {
    0.04: ((0.149, 0.227, 0.327), (0.111, 0.162, 0.227), (0.089, 0.127, 0.174)),
    0.25: ((0.191, 0.298, 0.436), (0.127, 0.188, 0.266), (0.098, 0.140, 0.193)),
    1.0: ((0.263, 0.432, 0.655), (0.156, 0.237, 0.343), (0.114, 0.166, 0.233)),
    4.0: ((0.333, 0.568, 0.880), (0.183, 0.288, 0.424), (0.129, 0.193, 0.275)),
}


@pytest.mark.parametrize("alpha", LIMITED_FO)
def test_crank_limited_bath_time_needed(alpha: float) -> None:
    for shape, fos in zip(SHAPES.values(), LIMITED_FO[alpha], strict=True):
        trace = course(shape, Limited((1 + alpha) / alpha, alpha))
        for fo, share in zip(fos, (0.5, 0.75, 0.9), strict=True):
            printed = 0.0006  # Fo is given to three places
            assert trace.middle_at(fo - printed) - TOLERANCE <= share
            assert trace.middle_at(fo + printed) + TOLERANCE >= share


@pytest.mark.parametrize("shape", SHAPES.values())
@pytest.mark.parametrize("alpha", [None, 0.04, 0.1111, 0.25, 1.0, 2.3333, 4.0, 9.0])
def test_series_of_scipy(shape: int, alpha: float | None) -> None:
    boundary = Constant(1.0) if alpha is None else Limited((1 + alpha) / alpha, alpha)
    trace = course(shape, boundary)
    for i in range(60):
        fo = 0.005 * 1.1**i
        middle, mean = exact.constant(shape, fo) if alpha is None else exact.limited(shape, alpha, fo)
        assert trace.middle_at(fo) == pytest.approx(middle, abs=TOLERANCE), f"middle at {fo}"
        assert trace.mean_at(fo) == pytest.approx(mean, abs=TOLERANCE), f"mean at {fo}"


@pytest.mark.parametrize("shape", SHAPES.values())
@pytest.mark.parametrize("alpha", [0.5, 4.0])
def test_soak_gives_up_what_a_cure_takes(shape: int, alpha: float) -> None:
    """Crank 1975, 4.3.5: desorption into a limited bath follows the uptake, M_end = start x alpha / (1 + alpha)."""
    trace = course(shape, Limited(0.0, alpha), start=1.0)
    for fo in (0.01, 0.05, 0.2, 0.6):
        given_up = alpha / (1 + alpha) * exact.limited(shape, alpha, fo)[1]
        assert 1 - trace.mean_at(fo) == pytest.approx(given_up, abs=TOLERANCE)


def test_loss_steady_state() -> None:
    """Crank 1975, ch. 14: Da = 4 leaves 1 / cosh 2 in the middle of a slab, 1 / I0(2) in that of a cylinder."""
    assert course(1, Constant(1.0), loss=4.0, fo=20.0).middle[-1] == pytest.approx(0.2658, abs=TOLERANCE)
    assert course(2, Constant(1.0), loss=4.0, fo=20.0).middle[-1] == pytest.approx(0.4387, abs=TOLERANCE)


@pytest.mark.parametrize("shape", SHAPES.values())
@pytest.mark.parametrize("loss", [0.5, 4.0, 30.0])
def test_loss_of_danckwerts(shape: int, loss: float) -> None:
    trace = course(shape, Constant(1.0), loss=loss)
    for fo in (0.05, 0.1, 0.2, 0.5, 1.0):
        assert trace.middle_at(fo) == pytest.approx(exact.with_loss(shape, loss, fo), abs=TOLERANCE)


def test_weighed_dry_cure() -> None:
    """Finite-volume vector of the reference: 50 mm slab, 2.5 % salt, 3 % exudate, 0.36 g/g, 2e-10 m2/s."""
    amount, film = 0.025 / 0.72, 0.03 / 0.72
    final = 0.025 / 0.75
    trace = course(1, Reservoir(amount, film, 0.36))
    per_day = 2e-10 * 86_400 / 0.025**2
    middles = {3: 0.157, 5: 0.446, 7: 0.659, 10: 0.839, 14: 0.941}
    taken = {3: 0.919, 5: 0.937, 7: 0.946, 10: 0.954, 14: 0.958}
    for day in middles:
        assert trace.middle_at(per_day * day) / final == pytest.approx(middles[day], abs=0.0015)
        assert trace.mean_at(per_day * day) / amount == pytest.approx(taken[day], abs=0.0015)


# Pitch: edge / mean at 1, 2, 3, 5, 7 days for D 1, 2, 4e-10; two places (series in a cylinder, Crank 1975, ch. 5).
STITCHES = """
20 0.45 0.80 0.97 0.80 0.97 1.00 0.92 1.00 1.00 0.99 1    1    1    1    1
25 0.24 0.58 0.88 0.58 0.88 0.99 0.78 0.97 1.00 0.94 1    1    0.98 1    1
30 0.11 0.39 0.74 0.39 0.74 0.96 0.60 0.89 0.99 0.84 0.98 1    0.93 1    1
40 0.02 0.15 0.45 0.15 0.45 0.80 0.31 0.66 0.92 0.57 0.88 0.99 0.74 0.95 1
50 0.00 0.05 0.24 0.05 0.24 0.58 0.14 0.43 0.78 0.34 0.70 0.94 0.51 0.84 0.98
"""


@pytest.mark.parametrize("line", STITCHES.split("\n")[1:-1])
def test_stitches(line: str) -> None:
    pitch, *printed = (float(word) for word in line.split())
    for i, days in enumerate((1, 2, 3, 5, 7)):
        for j, metres2 in enumerate((1e-10, 2e-10, 4e-10)):
            fo = metres2 * 86_400 * days * 3.14159265 / (pitch / 1000) ** 2
            assert edge_of_stitches(fo) == pytest.approx(printed[3 * i + j], abs=0.0065)


def test_stitches_series_of_scipy() -> None:
    for i in range(40):
        fo = 0.01 * 1.12**i
        assert edge_of_stitches(fo) == pytest.approx(exact.stitch_edge(fo), abs=2e-3)


def test_soaked_depth_is_that_of_a_half_space() -> None:
    """Salt left at 1, 2, 5, 10 mm after 4 h and 24 h, semi-infinite erf (Crank 1975, 3.3), D 2e-10; two places."""
    for hours, printed in ((4, (0.32, 0.60, 0.96, 1.0)), (24, (0.14, 0.27, 0.60, 0.91))):
        fo = 2e-10 * hours * 3600 / 0.03**2
        profile = course(1, Constant(0.0), start=1.0, fo=fo).profile
        centres = grid(1).centres
        for depth, left in zip((1, 2, 5, 10), printed, strict=True):
            x = 1 - depth / 30
            i = next(i for i in range(len(centres)) if centres[i] > x)
            share = (x - centres[i - 1]) / (centres[i] - centres[i - 1])
            assert profile[i - 1] + share * (profile[i] - profile[i - 1]) == pytest.approx(left, abs=0.008)


def test_closed_piece_keeps_what_it_has() -> None:
    wet = course(2, Constant(1.0), fo=0.05)
    rested = diffuse(shape=2, start=wet.profile, boundary=Closed(), fo_end=3.0)
    assert rested.mean[-1] == pytest.approx(wet.mean[-1], abs=1e-9)
    assert min(rested.profile) == pytest.approx(max(rested.profile), abs=1e-3)


@pytest.mark.parametrize(
    "wrong",
    [
        {"shape": 4},
        {"shape": 0},
        {"fo_end": -0.1},
        {"fo_end": float("nan")},
        {"loss": -1.0},
        {"loss": float("inf")},
        {"start": (1.0, 2.0)},
        {"boundary": Limited(1.0, 0.0)},
        {"boundary": Reservoir(1.0, 0.0, 1.0)},
    ],
)
def test_refused(wrong: dict[str, object]) -> None:
    right: dict[str, object] = {
        "shape": 1,
        "start": 0.0,
        "boundary": Constant(1.0),
        "fo_end": 1.0,
        "loss": 0.0,
    }
    with pytest.raises(OutOfRange):
        diffuse(**{**right, **wrong})
