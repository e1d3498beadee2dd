"""The exact series of Crank, summed with scipy's functions: a second opinion that shares no line with the package.

J. Crank, The Mathematics of Diffusion, 2nd ed., 1975, ch. 4 (plane sheet), 5 (cylinder), 6 (sphere), 14 (reaction).
"""

from __future__ import annotations

from functools import cache

import numpy as np
from scipy.integrate import quad
from scipy.optimize import brentq
from scipy.special import j0, j1, jn_zeros

TERMS = 400
LIMITED_TERMS = 120
J0_ZEROS, J1_ZEROS = jn_zeros(0, TERMS), jn_zeros(1, TERMS)


def constant(shape: int, fo: float) -> tuple[float, float]:
    """Middle and mean, surface kept at 1, start 0."""
    n = np.arange(TERMS)
    if shape == 1:
        root = (2 * n + 1) * np.pi / 2
        middle, mean = 2 * (-1.0) ** n / root, 2 / root**2
    elif shape == 2:
        root = J0_ZEROS
        middle, mean = 2 / (root * j1(root)), 4 / root**2
    else:
        root = (n + 1) * np.pi
        middle, mean = 2 * (-1.0) ** n, 6 / root**2
    fall = np.exp(-(root**2) * fo)
    return float(1 - (middle * fall).sum()), float(1 - (mean * fall).sum())


@cache
def limited_roots(shape: int, alpha: float) -> tuple[float, ...]:
    """tan q = -a q; a q J0(q) + 2 J1(q) = 0; tan q = 3 q / (3 + a q^2)."""
    found = []
    zeros = [0.0, *J1_ZEROS]
    for k in range(1, LIMITED_TERMS + 1):
        if shape == 1:
            found.append(brentq(lambda q: np.sin(q) + alpha * q * np.cos(q), (k - 0.5) * np.pi, k * np.pi))
        elif shape == 2:
            low, high = J0_ZEROS[k - 1], zeros[k]
            found.append(brentq(lambda q: alpha * q * j0(q) + 2 * j1(q), low, high))
        else:
            low, high = k * np.pi + 1e-9, (k + 0.5) * np.pi
            found.append(brentq(lambda q: (3 + alpha * q * q) * np.sin(q) - 3 * q * np.cos(q), low, high))
    return tuple(found)


def limited(shape: int, alpha: float, fo: float) -> tuple[float, float]:
    """Middle and mean as shares of the final level, well-stirred bath of limited volume, start 0."""
    q = np.array(limited_roots(shape, alpha))
    fall = np.exp(-(q**2) * fo)
    if shape == 1:
        factor = 2 * (1 + alpha) / (1 + alpha + (alpha * q) ** 2)
        middle, mean = factor / np.cos(q), alpha * factor
    elif shape == 2:
        factor = 4 * (1 + alpha) / (4 + 4 * alpha + (alpha * q) ** 2)
        middle, mean = factor / j0(q), alpha * factor
    else:
        factor = 6 * (1 + alpha) / (9 + 9 * alpha + (alpha * q) ** 2)
        middle, mean = factor * q / np.sin(q), alpha * factor
    return float(1 + (middle * fall).sum()), float(1 - (mean * fall).sum())


def with_loss(shape: int, loss: float, fo: float) -> float:
    """Middle, surface kept at 1, first-order loss (Danckwerts)."""
    gone, _ = quad(lambda u: constant(shape, u)[0] * np.exp(-loss * u), 0, fo, limit=200)
    return float(loss * gone + constant(shape, fo)[0] * np.exp(-loss * fo))


def stitch_edge(fo: float) -> float:
    """Edge of a cylinder / its mean, no flux there, the solute first in the core of half the radius."""
    q = J1_ZEROS
    return float(1 + (4 * j1(q / 2) / (q * j0(q)) * np.exp(-(q**2) * fo)).sum())
