"""Foam pads: stress–strain curve, its slope, and stiffness without a shape factor.

Poisson's ratio of foams is near zero, so a bonded pad does not bulge and its compression modulus
is the curve's own slope whatever the outline.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.section import section

Array = NDArray[np.float64]

ATMOSPHERE = 101_325.0  # [Pa]
_NODES = 40_001


def curve_slope(strain: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the tangent modulus [Pa] of a curve at `strain` [-]."""
    grid, _, slope = _dense(*_points(curve_strain, curve_stress))
    return np.asarray(np.interp(np.asarray(strain, dtype=float), grid, slope))


def strain_under(stress: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the strain [-] at which the curve carries `stress` [Pa]."""
    grid, values, _ = _dense(*_points(curve_strain, curve_stress))
    return np.asarray(np.interp(np.asarray(stress, dtype=float), values, grid))


def _points(strain: ArrayLike, stress: ArrayLike) -> tuple[tuple[float, ...], tuple[float, ...]]:
    return (
        tuple(np.asarray(strain, dtype=float).tolist()),
        tuple(np.asarray(stress, dtype=float).tolist()),
    )


@lru_cache(maxsize=64)
def _dense(strain: tuple[float, ...], stress: tuple[float, ...]) -> tuple[Array, Array, Array]:
    from scipy.interpolate import PchipInterpolator

    curve = PchipInterpolator(np.array(strain), np.array(stress))
    grid = np.linspace(strain[0], strain[-1], _NODES)
    return grid, curve(grid), curve(grid, 1)


def compression_stiffness(
    shape: str, first: ArrayLike, second: ArrayLike, thickness: ArrayLike, *, modulus: ArrayLike
) -> Array:
    """Return the compression stiffness [N/m]; `modulus` [Pa] is the tangent at the strain."""
    part = section(shape, first, second)
    return np.asarray(np.asarray(modulus) * part.area / np.asarray(thickness))


def shear_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    secant_modulus: ArrayLike,
    poisson: ArrayLike = 0.0,
) -> tuple[Array, Array]:
    """Return shear stiffness (kx, ky) [N/m] with the faces kept parallel."""
    part = section(shape, first, second)
    t, e = np.asarray(thickness, dtype=float), np.asarray(secant_modulus, dtype=float)
    g = e / (2.0 * (1.0 + np.asarray(poisson)))
    x, y = (
        1.0 / (t / (g * part.area) + t**3 / (12.0 * e * moment)) for moment in (part.i_y, part.i_x)
    )
    return np.asarray(x), np.asarray(y)


def tilt_stiffness(
    shape: str, first: ArrayLike, second: ArrayLike, thickness: ArrayLike, *, modulus: ArrayLike
) -> tuple[Array, Array]:
    """Return tilt stiffness (about x, about y) [N·m/rad]."""
    part = section(shape, first, second)
    rate = np.asarray(modulus, dtype=float) / np.asarray(thickness, dtype=float)
    return np.asarray(rate * part.i_x), np.asarray(rate * part.i_y)


def twist_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    secant_modulus: ArrayLike,
    poisson: ArrayLike = 0.0,
) -> Array:
    """Return twist stiffness about the pad's axis [N·m/rad]."""
    part = section(shape, first, second)
    g = np.asarray(secant_modulus, dtype=float) / (2.0 * (1.0 + np.asarray(poisson)))
    return np.asarray(g * part.polar / np.asarray(thickness))


def stress_at(strain: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the stress [Pa] that the curve carries at `strain` [-]; inverse of `strain_under`."""
    grid, values, _ = _dense(*_points(curve_strain, curve_stress))
    return np.interp(np.asarray(strain, dtype=float), grid, values)
