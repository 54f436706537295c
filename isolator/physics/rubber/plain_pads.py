"""Pads of material that shrinks in volume (foam, printed lattices): hardly any shape factor.

With Poisson's ratio ν = 0 compression is E·A/t and tilt E·I/t exactly, bonded or not. Shear and
twist still lose stiffness at free edges. Held against finite elements at ν = 0, 0.2 and 0.3.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array
from isolator.physics.rubber.bonded import corners, edges_across
from isolator.physics.rubber.section import OUTLINES, section, shape_factor


def compression_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    modulus: ArrayLike,
    poisson: ArrayLike = 0.0,
) -> Array:
    """Return compression stiffness [N/m] at a strain, plates bonded.

    `first`, `second`, `thickness` [m] as in `section`; `modulus` [Pa] the tangent at the strain;
    `poisson` ν [-] from 0 to 0.4: the faces hold the sides back, see `confinement_rise`.
    Errors: none at ν = 0, 4 % at 0.3.

    >>> round(float(compression_stiffness("disc", 0.03, 0.0, 0.01, modulus=200e3)))
    14137
    """
    part = section(shape, first, second)
    rise = confinement_rise(shape_factor(shape, first, second, thickness), poisson, 3.0)
    return np.asarray(np.asarray(modulus) * part.area / np.asarray(thickness) * rise)


def tilt_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    modulus: ArrayLike,
    poisson: ArrayLike = 0.0,
) -> tuple[Array, Array]:
    """Return tilt stiffness (about x, about y) [N·m/rad] about the middle of the height.

    Arguments as `compression_stiffness`. Errors: none at ν = 0, 6 % at 0.3.

    >>> [round(float(k), 3) for k in tilt_stiffness("rectangle", 0.04, 0.03, 0.01, modulus=1e6)]
    [9.0, 16.0]
    """
    part = section(shape, first, second)
    rise = confinement_rise(shape_factor(shape, first, second, thickness), poisson, 1.5)
    rate = np.asarray(modulus) / np.asarray(thickness) * rise
    return np.asarray(rate * part.i_x), np.asarray(rate * part.i_y)


def shear_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    secant_modulus: ArrayLike,
    poisson: ArrayLike = 0.0,
) -> tuple[Array, Array]:
    """Return shear stiffness (kx, ky) [N/m], plates bonded and kept parallel.

    G = E/(2(1 + ν)) from `secant_modulus` E [Pa] at the static strain, not from the slope: cell
    walls that have buckled carry as little shear as the secant says, while the slope rises again
    when the gas and the closing cells push straight against the load and not sideways.
    `poisson` ν [-] from 0 to 0.4. Edges and bending as in `isolator.physics.rubber.bonded`.
    Errors: 4 % against finite elements, S 0.25 to 3; the secant itself is common practice.

    >>> k = shear_stiffness("rectangle", 0.04, 0.03, 0.012, secant_modulus=300e3)
    >>> [round(float(x) / 1e3, 2) for x in k]
    [13.11, 12.53]
    """
    part, t = section(shape, first, second), np.asarray(thickness, dtype=float)
    nu = np.asarray(poisson, dtype=float)
    g = np.asarray(secant_modulus, dtype=float) / (2.0 * (1.0 + nu))
    stiffness = []
    for across, moment in zip(
        edges_across(shape, first, second), (part.i_y, part.i_x), strict=True
    ):
        bending = t**2 * part.area / (24.0 * (1.0 + nu) * moment)
        edges = _hypotenuse(_edge(nu) * across * t, _beam(shape, first, second, nu))
        stiffness.append(np.asarray(g * part.area / t / (1.0 + edges + bending)))
    return stiffness[0], stiffness[1]


def twist_stiffness(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    secant_modulus: ArrayLike,
    poisson: ArrayLike = 0.0,
) -> Array:
    """Return twist stiffness about the pad's axis [N·m/rad], plates bonded.

    Arguments as `shear_stiffness`. G·polar/t for disc and ring; corners warp. Errors: 4 %
    against finite elements, S 0.25 to 3.

    >>> round(float(twist_stiffness("disc", 0.03, 0.0, 0.01, secant_modulus=300e3)), 4)
    1.1928
    """
    part, t = section(shape, first, second), np.asarray(thickness, dtype=float)
    nu = np.asarray(poisson, dtype=float)
    g = np.asarray(secant_modulus, dtype=float) / (2.0 * (1.0 + nu))
    whole = np.asarray(g * part.polar / t)
    if OUTLINES[shape].round:
        return whole
    across, warping = corners(
        shape, np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    )
    return np.asarray(whole / (1.0 + _hypotenuse(_edge(nu) * t * across, warping)))


def confinement_rise(shape_factor: ArrayLike, poisson: ArrayLike, pace: float) -> Array:
    """Return E_a/E [-] of bonded faces at a Poisson's ratio: from 1 to the confined M/E.

    M/E = (1 − ν)/((1 + ν)(1 − 2ν)); the way there, y/(1 + y) with
    y = pace·(1 − 2ν)(1 + ν)·S^1.5, follows finite elements; `pace` 3 compression, 1.5 tilt.

    >>> round(float(confinement_rise(1.0, 0.3, 3.0)), 3)
    1.211
    """
    nu, s = np.asarray(poisson, dtype=float), np.asarray(shape_factor, dtype=float)
    y = pace * (1.0 - 2.0 * nu) * (1.0 + nu) * s**1.5
    confined = (1.0 - nu) / ((1.0 + nu) * (1.0 - 2.0 * nu))
    return np.asarray(1.0 + (confined - 1.0) * y / (1.0 + y))


def _edge(nu: Array) -> Array:
    """Return the share of the thickness that a free edge takes from shear; finite elements."""
    return np.asarray(0.205 - 0.13 * nu - 0.094 * nu**2)


def _beam(shape: str, first: ArrayLike, second: ArrayLike, nu: Array) -> Array:
    """Return 1/κ − 1 of a long beam (G. R. Cowper, J. Appl. Mech. 33 (1966) 335, from memory)."""
    wide, _, hole = OUTLINES[shape].sides(np.asarray(first), np.asarray(second))
    q2 = np.asarray((hole / wide) ** 2)
    return np.asarray((1.0 + (20.0 + 12.0 * nu) * q2 / (1.0 + q2) ** 2) / (6.0 * (1.0 + nu)))


def _hypotenuse(thin: Array, tall: Array) -> Array:
    """Return a flexibility that starts as `thin` and levels off at `tall`."""
    return np.asarray((thin**-2.0 + tall**-2.0) ** -0.5)
