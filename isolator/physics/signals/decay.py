"""Damping from free decays and from the width of a resonance."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def log_decrement(ratio: ArrayLike) -> Array:
    """Return the logarithmic decrement: ln of two swings in a row, of a damping ratio below 1.

    δ = 2πζ/√(1 − ζ²), any textbook of vibration.

    >>> round(float(log_decrement(0.05)), 7)
    0.3145527
    """
    zeta = np.asarray(ratio, dtype=float)
    return np.asarray(2.0 * math.pi * zeta / np.sqrt(1.0 - zeta**2))


def damping_of(decrement: ArrayLike) -> Array:
    """Return the damping ratio of a logarithmic decrement, the inverse of `log_decrement`."""
    delta = np.asarray(decrement, dtype=float)
    return np.asarray(delta / np.sqrt(4.0 * math.pi**2 + delta**2))


def swings_to_half(ratio: ArrayLike) -> Array:
    """Return after how many swings half of the amplitude is left."""
    return np.asarray(math.log(2.0) / log_decrement(ratio))


def half_power(ratio: ArrayLike) -> Array:
    """Return the two frequencies over the undamped natural one, (2, ...), at half the peak's power.

    Of the displacement of a viscously damped body for a force; `ratio` below 0.38, where there
    still are two. From |H|² = 1/((1 − r²)² + (2ζr)²), exactly.
    """
    zeta = np.asarray(ratio, dtype=float)
    middle, half = 1.0 - 2.0 * zeta**2, 2.0 * zeta * np.sqrt(1.0 - zeta**2)
    return np.sqrt(np.stack((middle - half, middle + half)))


def hysteretic_width(loss: ArrayLike) -> Array:
    """Return the half-power width over the natural frequency for a loss factor below 1.

    Of a body on a spring k·(1 + iη): Δf/f = √(1 + η) − √(1 − η).
    """
    eta = np.asarray(loss, dtype=float)
    return np.asarray(np.sqrt(1.0 + eta) - np.sqrt(1.0 - eta))
