"""Rubber pads at finite compression: the stress law, its inverse and slope, and the bulge."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def strain_under(pressure_over_modulus: ArrayLike) -> Array:
    """Return the compression strain [-] at which q = (λ⁻² − λ)/3, λ = 1 − strain.

    `pressure_over_modulus` q [-] = pressure/E_a, 0 or more (negative: stretch). Newton on the
    convex function; exact to rounding. Source: A. N. Gent, P. B. Lindley, Proc. IMechE 173
    (1959) 111, from memory.

    >>> round(float(strain_under(0.1780277)), 6)
    0.15
    """
    q3 = 3.0 * np.asarray(pressure_over_modulus, dtype=float)
    # λ³ + 3q·λ² − 1 = 0; start at an upper bound of λ⁻¹ so that Newton runs down monotonically
    inverse = np.maximum(np.sqrt(np.maximum(q3, 0.0) + 1.0), 1.0)
    for _ in range(6):
        inverse = inverse - (inverse**3 - q3 * inverse - 1.0) / (3.0 * inverse**2 - q3)
    return np.asarray(1.0 - 1.0 / inverse)


def tangent_ratio(strain: ArrayLike) -> Array:
    """Return tangent over small-strain modulus [-] at a compression strain: (2λ⁻³ + 1)/3.

    Engineering stress over engineering strain; source as `strain_under`.

    >>> round(float(tangent_ratio(0.15)), 6)
    1.418889
    """
    stretch = 1.0 - np.asarray(strain, dtype=float)
    return np.asarray((2.0 * stretch**-3 + 1.0) / 3.0)


def bulge(width: ArrayLike, strain: ArrayLike) -> Array:
    """Return how far each side of a pad moves out [m] at a compression strain: volume stays.

    `width` [m] between opposite free sides, `strain` [-]. Mean over the height; a bonded pad
    bulges up to 1.5 times as far at mid-height (parabola). w/2·((1 − strain)^(−1/2) − 1).

    >>> round(float(bulge(0.030, 0.15)) * 1e3, 4)
    1.2698
    """
    stretch = 1.0 - np.asarray(strain, dtype=float)
    return np.asarray(np.asarray(width) / 2.0 * (stretch**-0.5 - 1.0))


def stress_ratio(strain: ArrayLike) -> Array:
    """Return engineering stress over E_a [-] at a compression strain: (λ⁻² − λ)/3.

    Inverse of `strain_under`; source as there.

    >>> round(float(stress_ratio(0.15)), 7)
    0.1780277
    """
    stretch = 1.0 - np.asarray(strain, dtype=float)
    return np.asarray((stretch**-2 - stretch) / 3.0)
