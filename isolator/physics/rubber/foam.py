"""Foam: how its stress grows with compression, read from a measured curve."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

_NODES = 20_001


def curve_slope(strain: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the tangent modulus [Pa] of a measured curve at `strain` [-].

    `curve_strain` [-] and `curve_stress` [Pa] rise strictly from 0; between points monotone cubic
    (PCHIP). Beyond the last point the slope stays at its last value. Errors: the cubic is read
    from 20 001 nodes, slope to 1e-3 of the curve's steepest slope. Source: F. N. Fritsch,
    R. E. Carlson, SIAM J. Numer. Anal. 17 (1980) 238.

    >>> round(float(curve_slope(0.2, [0.0, 0.1, 0.2, 0.3], [0.0, 20e3, 40e3, 60e3])))
    200000
    """
    grid, _, slope = _dense(_points(curve_strain), _points(curve_stress))
    return np.asarray(np.interp(np.asarray(strain, dtype=float), grid, slope))


def strain_under(stress: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the compression strain [-] at which a measured curve carries `stress` [Pa].

    Curve as in `curve_slope`. A stress beyond the last point gives the last strain: check the
    strain against the card's limit. Errors: 1e-4 of the curve's last strain.

    >>> round(float(strain_under(30e3, [0.0, 0.1, 0.2, 0.3], [0.0, 20e3, 40e3, 60e3])), 6)
    0.15
    """
    grid, values, _ = _dense(_points(curve_strain), _points(curve_stress))
    return np.asarray(np.interp(np.asarray(stress, dtype=float), values, grid))


def stress_at(strain: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the stress [Pa] that a measured curve carries at `strain` [-].

    Inverse of `strain_under`; beyond the last point the last stress. Errors: 1e-6 of it.

    >>> round(float(stress_at(0.15, [0.0, 0.1, 0.2, 0.3], [0.0, 20e3, 40e3, 60e3])))
    30000
    """
    grid, values, _ = _dense(_points(curve_strain), _points(curve_stress))
    return np.asarray(np.interp(np.asarray(strain, dtype=float), grid, values))


def _points(values: ArrayLike) -> tuple[float, ...]:
    return tuple(np.asarray(values, dtype=float).tolist())


@lru_cache(maxsize=64)
def _dense(strain: tuple[float, ...], stress: tuple[float, ...]) -> tuple[Array, Array, Array]:
    """Return strain, stress and slope of the cubic at even strains; a card has one curve."""
    from scipy.interpolate import PchipInterpolator

    if len(strain) < 2 or min(np.diff(strain)) <= 0 or min(np.diff(stress)) <= 0:
        raise ValueError(
            "the stress-strain curve does not rise at every point; wanted two points or more, "
            "strain and stress each larger than the one before"
        )
    curve = PchipInterpolator(np.array(strain), np.array(stress))
    grid = np.linspace(strain[0], strain[-1], _NODES)
    return grid, curve(grid), curve(grid, 1)
