"""Bonded rubber pads: stiffness in all six directions, finite compression, buckling.

Small-strain forms are held against finite elements (incompressible, E = 3G) for shape factors
from 0.25 to 5.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.section import section, shape_factor

Array = NDArray[np.float64]


def compression_ratio(
    shape: str, first: ArrayLike, second: ArrayLike, thickness: ArrayLike
) -> Array:
    """Return E_a/E [-] of a bonded incompressible pad at small strain."""
    s = shape_factor(shape, first, second, thickness)
    return np.asarray(1.0 + 2.0 * s**2)


def apparent_modulus(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    youngs_modulus: ArrayLike,
    hardness_factor: ArrayLike = 1.0,
    shear_modulus: ArrayLike,
    bulk_modulus: ArrayLike = np.inf,
    bonded: ArrayLike = 1.0,
) -> Array:
    """Return the apparent compression modulus [Pa]."""
    ratio = compression_ratio(shape, first, second, thickness)
    e0 = np.asarray(youngs_modulus, dtype=float)
    bulging = e0 * np.asarray(hardness_factor) * (ratio - 1.0)
    return np.asarray(e0 + np.asarray(bonded) * bulging / (1.0 + bulging / bulk_modulus))


def shear_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    shear_modulus: ArrayLike,
    youngs_modulus: ArrayLike,
) -> tuple[Array, Array]:
    """Return shear stiffness (kx, ky) [N/m] with the faces kept parallel."""
    part = section(shape, first, second)
    t, g = np.asarray(thickness, dtype=float), np.asarray(shear_modulus, dtype=float)
    x, y = (
        g * part.area / t / (1.0 + t**2 * part.area / (36.0 * moment))
        for moment in (part.i_y, part.i_x)
    )
    return np.asarray(x), np.asarray(y)


def tilt_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    youngs_modulus: ArrayLike,
    hardness_factor: ArrayLike = 1.0,
    shear_modulus: ArrayLike,
    bulk_modulus: ArrayLike = np.inf,
    bonded: ArrayLike = 1.0,
) -> tuple[Array, Array]:
    """Return tilt stiffness (about x, about y) [N·m/rad]."""
    part = section(shape, first, second)
    s = shape_factor(shape, first, second, thickness)
    e0, t = np.asarray(youngs_modulus, dtype=float), np.asarray(thickness, dtype=float)
    rise = np.asarray(bonded) * np.asarray(hardness_factor) * (2.0 / 3.0) * s**2
    rate = e0 * (1.0 + rise / (1.0 + e0 * rise / np.asarray(bulk_modulus))) / t
    return np.asarray(rate * part.i_x), np.asarray(rate * part.i_y)


def twist_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    shear_modulus: ArrayLike,
) -> Array:
    """Return twist stiffness about the pad's axis [N·m/rad]."""
    part = section(shape, first, second)
    return np.asarray(np.asarray(shear_modulus) * part.polar / np.asarray(thickness))


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


def buckling_load(shear: ArrayLike, tilt: ArrayLike, thickness: ArrayLike) -> Array:
    """Return the load [N] at which a pad with plates kept parallel buckles sideways.

    `shear` [N/m], `tilt` [N·m/rad] stiffness of the pad, `thickness` [m]. Haringx's column:
    P(1 + P/P_s) = P_e with P_s = k_s·t, P_e = π²·k_t/t. Linear elastic, no set. Source:
    J. A. Haringx (1948), as in J. M. Kelly, Earthquake-Resistant Design with Rubber, 2nd ed.
    1997, from memory.

    >>> round(float(buckling_load(45e3, 14.0, 0.010)), 1)
    2278.7
    """
    t = np.asarray(thickness, dtype=float)
    p_s, p_e = np.asarray(shear) * t, np.pi**2 * np.asarray(tilt) / t
    return np.asarray(p_s / 2.0 * (np.sqrt(1.0 + 4.0 * p_e / p_s) - 1.0))


def shear_reduction(load: ArrayLike, buckling_load: ArrayLike) -> Array:
    """Return shear stiffness under a load over that without [-]: 1 − (P/P_cr)², 0 and above.

    `load` [N] compressive, `buckling_load` [N]. Source: J. M. Kelly, Earthquake-Resistant Design
    with Rubber, 2nd ed. 1997, from memory.

    >>> round(float(shear_reduction(300.0, 1200.0)), 4)
    0.9375
    """
    share = np.asarray(load, dtype=float) / np.asarray(buckling_load, dtype=float)
    return np.asarray(np.clip(1.0 - share**2, 0.0, 1.0))
