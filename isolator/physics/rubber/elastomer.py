"""Bonded rubber pads: stiffness in all six directions, finite compression, buckling.

At small strain and incompressible (E = 3G, hardness factor 1) every form is held against finite
elements to 2 % for shape factors from 0.25 to 5; see `isolator.physics.rubber.bonded`.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array
from isolator.physics.rubber import bonded as bonded_pads
from isolator.physics.rubber import thin_layer
from isolator.physics.rubber.bonded import compression_ratio
from isolator.physics.rubber.section import section


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
    """Return the apparent compression modulus E_a [Pa] at small strain: force = E_a·A·strain.

    `first`, `second`, `thickness` [m] as in `section`; `youngs_modulus` E0, `shear_modulus` G,
    `bulk_modulus` K [Pa]; `hardness_factor` k [-] corrects the bulging part for filled rubber,
    whose E0 exceeds 3G (P. B. Lindley, Engineering Design with Natural Rubber, 4th ed. 1978);
    `bonded` 1 for plates that hold the rubber, 0 for slippery faces, between for friction.
    E0·(1 + bonded·k·(ratio − 1)·c): `compression_ratio` and what compressibility leaves of it,
    `thin_layer.confinement`, so that a very thin pad ends at the confined modulus K + 4G/3.
    Errors: 2 % against finite elements for E0 = 3G, k = 1, S 0.25 to 5, K/G above 100;
    hardness alone leaves ±30 %.

    >>> e = apparent_modulus("disc", 0.030, 0.0, 0.010, youngs_modulus=2.2e6,
    ...     hardness_factor=0.73, shear_modulus=0.64e6, bulk_modulus=1030e6)
    >>> round(float(e) / 1e6, 2)
    4.01
    """
    ratio = compression_ratio(shape, first, second, thickness)
    a, b = np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    m = thin_layer.sharpness(shape, a, b)[0]
    e0 = np.asarray(youngs_modulus, dtype=float)
    return _with_bulging(e0, ratio, hardness_factor, shear_modulus, bulk_modulus, bonded, m)


def shear_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    shear_modulus: ArrayLike,
    youngs_modulus: ArrayLike,
) -> tuple[Array, Array]:
    """Return shear stiffness (kx, ky) [N/m] with the plates kept parallel, without load.

    `first`, `second`, `thickness` [m] as in `section`; `shear_modulus` G rules, `youngs_modulus`
    E0 [Pa] scales the bending part of tall pads by 3G/E0. Errors: 2 % against finite elements
    for E0 = 3G, S 0.25 to 5. A vertical load takes stiffness away: `shear_reduction`.

    >>> k = shear_stiffness("rectangle", 0.04, 0.03, 0.012, shear_modulus=0.6e6,
    ...     youngs_modulus=1.8e6)
    >>> [round(float(x) / 1e3, 1) for x in k]
    [55.6, 54.2]
    """
    part = section(shape, first, second)
    t, g = np.asarray(thickness, dtype=float), np.asarray(shear_modulus, dtype=float)
    ratios = bonded_pads.shear_ratio(
        shape, first, second, t, modulus_ratio=np.asarray(youngs_modulus) / g
    )
    x, y = (np.asarray(g * part.area / t * ratio) for ratio in ratios)
    return x, y


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
    """Return tilt stiffness (about x, about y) [N·m/rad] about the middle of the pad's height.

    Arguments as `apparent_modulus`; the rise with shape factor is tilt's own, a third of that
    of compression for a disc. Errors: 2 % against finite elements for E0 = 3G, k = 1,
    S 0.25 to 5. Without load, plates bonded (or pressed) over their whole area.

    >>> k = tilt_stiffness("rectangle", 0.04, 0.03, 0.012, youngs_modulus=1.8e6,
    ...     shear_modulus=0.6e6)
    >>> [round(float(x), 1) for x in k]
    [21.2, 38.8]
    """
    part = section(shape, first, second)
    t, e0 = np.asarray(thickness, dtype=float), np.asarray(youngs_modulus, dtype=float)
    ratios = bonded_pads.tilt_ratio(shape, first, second, t)
    a, b = np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    sharp = thin_layer.sharpness(shape, a, b)[1:]
    x, y = (
        _with_bulging(e0, ratio, hardness_factor, shear_modulus, bulk_modulus, bonded, m)
        * moment
        / t
        for ratio, m, moment in zip(ratios, sharp, (part.i_x, part.i_y), strict=True)
    )
    return np.asarray(x), np.asarray(y)


def twist_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    shear_modulus: ArrayLike,
) -> Array:
    """Return twist stiffness about the pad's axis [N·m/rad], plates bonded.

    `first`, `second`, `thickness` [m] as in `section`, `shear_modulus` G [Pa]. G·polar/t, exact
    for disc and ring; less where corners warp. Errors: 2 % against finite elements.

    >>> k = twist_stiffness("ring", 0.042, 0.024, 0.003, shear_modulus=0.6e6)
    >>> round(float(k), 2)
    54.58
    """
    part = section(shape, first, second)
    ratio = bonded_pads.twist_ratio(shape, first, second, thickness)
    return np.asarray(np.asarray(shear_modulus) * part.polar / np.asarray(thickness) * ratio)


def _with_bulging(
    e0: Array,
    ratio: Array,
    hardness_factor: ArrayLike,
    shear_modulus: ArrayLike,
    bulk_modulus: ArrayLike,
    bonded: ArrayLike,
    sharpness: Array,
) -> Array:
    """Return E0 plus the bulging part [Pa], capped so that the sum ends at K + 4G/3."""
    bulging = e0 * np.asarray(hardness_factor) * (ratio - 1.0)
    confined = np.asarray(bulk_modulus) + 4.0 / 3.0 * np.asarray(shear_modulus) - e0
    left = thin_layer.confinement(bulging / np.maximum(confined, 1e-6 * e0), sharpness)
    return np.asarray(e0 + np.asarray(bonded) * bulging * left)


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
