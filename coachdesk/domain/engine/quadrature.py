"""Numerical tools of the engine: the normal distribution, and few points that stand for many."""

from __future__ import annotations

from math import erfc, sqrt
from typing import TypeAlias

import numpy as np
from numpy.polynomial.hermite_e import hermegauss
from numpy.typing import NDArray

FloatArray: TypeAlias = NDArray[np.float64]
IntArray: TypeAlias = NDArray[np.intp]
BoolArray: TypeAlias = NDArray[np.bool_]


def normal_cdf(x: FloatArray) -> FloatArray:
    """The standard normal distribution function, to machine precision (numpy has none)."""
    scaled = x / -sqrt(2)
    return np.array(list(map(erfc, scaled.ravel().tolist()))).reshape(scaled.shape) / 2


def normal_points(count: int) -> tuple[FloatArray, FloatArray]:
    """`count` points and chances with the first 2 `count` - 1 moments of a standard normal.

    Gauss-Hermite quadrature.
    """
    points, weights = hermegauss(count)
    return points, weights / weights.sum()


def beta_points(a: float, b: float, count: int) -> tuple[FloatArray, FloatArray]:
    """`count` points and chances with the first 2 `count` - 1 moments of a Beta(a, b).

    Gauss-Jacobi quadrature from the three-term recurrence (Golub and Welsch 1969).
    """
    alpha, beta = b - 1, a - 1
    n = np.arange(1, count, dtype=np.float64)
    both = 2 * n + alpha + beta
    diagonal = np.empty(count)
    diagonal[0] = (beta - alpha) / (alpha + beta + 2)
    diagonal[1:] = (beta**2 - alpha**2) / (both * (both + 2))
    squares = 4 * n * (n + alpha) * (n + beta) / (both**2 * (both + 1))
    squares[1:] *= (n[1:] + alpha + beta) / (both[1:] - 1)
    beside = np.sqrt(squares)
    points, vectors = np.linalg.eigh(np.diag(diagonal) + np.diag(beside, 1) + np.diag(beside, -1))
    return np.clip((1 + points) / 2, 0.0, 1.0), vectors[0] ** 2
