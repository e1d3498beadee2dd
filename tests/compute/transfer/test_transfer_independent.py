"""The solver against scipy's stiff integrator on an even grid: chains and boundaries that have no short series."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from generator.compute.transfer.diffuse import Closed, Constant, Limited, Reservoir, diffuse

CELLS = 300
Floats = NDArray[np.float64]


class Plain:
    """Method of lines on even cells; bath level last."""

    def __init__(self, shape: int, loss: float = 0.0) -> None:
        faces = np.linspace(0, 1, CELLS + 1)
        self.shape, self.loss = shape, loss
        self.area = faces ** (shape - 1)
        self.volume = np.diff(faces**shape) / shape
        self.width = 1 / CELLS

    def run(self, start: Floats, bath: Callable[[float, float], float], fo: float) -> Floats:
        """bath: (level outside, inflow into the meat) -> change of the level per Fo."""

        def change(_: float, levels: Floats) -> Floats:
            inside, outside = levels[:-1], levels[-1]
            flow = np.zeros(CELLS + 1)
            flow[1:-1] = self.area[1:-1] * np.diff(inside) / self.width
            flow[-1] = (outside - inside[-1]) / (self.width / 2) * self.closed
            return np.append(np.diff(flow) / self.volume - self.loss * inside, bath(outside, flow[-1]))

        found = solve_ivp(change, (0, fo), start, method="LSODA", lband=1, uband=1, rtol=1e-8, atol=1e-10)
        return np.asarray(found.y[:, -1])

    closed = 1.0

    def mean(self, levels: Floats) -> float:
        return float(self.shape * (self.volume * levels[:-1]).sum())


@pytest.mark.parametrize("shape", [1, 2, 3])
def test_chain_of_cure_rest_and_soak(shape: int) -> None:
    plain = Plain(shape)
    alpha = 2.0
    levels = plain.run(np.append(np.zeros(CELLS), 1.5), lambda _, inflow: -inflow * shape / alpha, 0.05)
    cured = diffuse(shape=shape, start=0.0, boundary=Limited(1.5, alpha), fo_end=0.05)
    assert cured.mean[-1] == pytest.approx(plain.mean(levels), abs=1e-3)
    assert cured.bath == pytest.approx(levels[-1], abs=1e-3)

    plain.closed = 0.0
    levels = plain.run(levels, lambda *_: 0.0, 0.02)
    rested = diffuse(shape=shape, start=cured.profile, boundary=Closed(), fo_end=0.02)
    assert rested.middle[-1] == pytest.approx(levels[0], abs=1e-3)

    plain.closed = 1.0
    levels[-1] = 0.0
    levels = plain.run(levels, lambda *_: 0.0, 0.01)
    soaked = diffuse(shape=shape, start=rested.profile, boundary=Constant(0.0), fo_end=0.01)
    assert soaked.mean[-1] == pytest.approx(plain.mean(levels), abs=1e-3)
    assert soaked.middle[-1] == pytest.approx(levels[0], abs=1e-3)


@pytest.mark.parametrize("shape", [1, 2, 3])
@pytest.mark.parametrize("start", [0.0, 0.4])
def test_limited_bath_with_loss(shape: int, start: float) -> None:
    plain = Plain(shape, loss=6.0)
    for fo in (0.03, 0.15, 0.4):
        first = np.append(np.full(CELLS, start), 1.5)
        levels = plain.run(first, lambda _, inflow: -inflow * shape / 2.0, fo)
        trace = diffuse(shape=shape, start=start, boundary=Limited(1.5, 2.0), fo_end=0.5, loss=6.0)
        assert trace.middle_at(fo) == pytest.approx(levels[0], abs=1e-3)
        assert trace.mean_at(fo) == pytest.approx(plain.mean(levels), abs=1e-3)


@pytest.mark.parametrize("shape", [1, 2, 3])
def test_dry_cure(shape: int) -> None:
    """The film as one variable: all salt not yet in the meat, its level at most the saturation."""
    plain = Plain(shape)
    film, saturation, amount = 0.05, 8.0, 1.05

    def change(_: float, levels: Floats) -> Floats:
        inside, left = levels[:-1], levels[-1]
        outside = min(saturation, left / film)
        flow = np.zeros(CELLS + 1)
        flow[1:-1] = plain.area[1:-1] * np.diff(inside) / plain.width
        flow[-1] = (outside - inside[-1]) / (plain.width / 2)
        return np.append(np.diff(flow) / plain.volume, -flow[-1] * shape)

    trace = diffuse(shape=shape, start=0.0, boundary=Reservoir(amount, film, saturation), fo_end=1.0)
    for fo in (0.01, 0.05, 0.2):
        found = solve_ivp(
            change,
            (0, fo),
            np.append(np.zeros(CELLS), amount),
            method="LSODA",
            lband=1,
            uband=1,
            rtol=1e-8,
            atol=1e-10,
        )
        levels = np.asarray(found.y[:, -1])
        assert trace.middle_at(fo) == pytest.approx(levels[0], abs=2e-3)
        assert trace.mean_at(fo) == pytest.approx(plain.mean(levels), abs=2e-3)
