"""Small-strain stiffness of bonded, incompressible pads over their plain forms.

Each ratio is an exact limit form times exp(u(1 − u)·polynomial), u = S/(S + s0), fitted to finite
elements, so that very thin and very tall pads keep their limits. Errors against the finite
elements: under 2 % for S from 0.2 to 5, di/do and d/side from 0.05 to 0.9, sides up to 8:1;
the elements themselves are stiff by up to 0.3 % (rectangles, squares), 0.05 % (round pads).
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array
from isolator.physics.rubber import pad_fits, thin_layer
from isolator.physics.rubber.section import OUTLINES, section, shape_factor

EDGE = 0.1166
"""Shear strain is missing over this share of the thickness at an edge sheared across [-].

A free edge carries no shear stress: the pad acts as if a strip EDGE·t wide were cut off there.
From finite elements of thin incompressible pads.
"""


def compression_ratio(
    shape: str, first: ArrayLike, second: ArrayLike, thickness: ArrayLike
) -> Array:
    """Return E_a/E [-] of a pad bonded to two rigid plates, incompressible, at small strain.

    `first`, `second` [m] as in `section`, `thickness` [m], broadcast. 1 for tall pads, C·S² for
    thin ones. Errors: see the module.

    >>> round(float(compression_ratio("disc", 0.030, 0.0, 0.010)), 2)
    2.13
    """
    a, b, t = _arrays(first, second, thickness)
    s = shape_factor(shape, a, b, t)
    base = 1.0 + thin_layer.compression_limit(shape, a, b) * s**2
    ratio = base * pad_fits.rise("compression", shape, s, _PLAN[shape](a, b)[0])
    return np.maximum(ratio, 1.0)  # bonding never softens; the fit is unheld for S below 0.1


def tilt_ratio(
    shape: str, first: ArrayLike, second: ArrayLike, thickness: ArrayLike
) -> tuple[Array, Array]:
    """Return E_t/E [-] of tilt stiffness E_t·I/t about x and about y; as `compression_ratio`.

    >>> [round(float(r), 2) for r in tilt_ratio("disc", 0.030, 0.0, 0.0075)]
    [1.83, 1.83]
    """
    a, b, t = _arrays(first, second, thickness)
    s = shape_factor(shape, a, b, t)
    limits = thin_layer.tilt_limit(shape, a, b)
    x, y = (
        np.maximum((1.0 + limit * s**2) * pad_fits.rise("tilt", shape, s, along), 1.0)
        for limit, along in zip(limits, _PLAN[shape](a, b)[:0:-1], strict=True)
    )
    return x, y


def shear_ratio(
    shape: str,
    first: ArrayLike,
    second: ArrayLike,
    thickness: ArrayLike,
    *,
    modulus_ratio: ArrayLike = 3.0,
) -> tuple[Array, Array]:
    """Return shear stiffness over G·A/t [-] along x and y, plates kept parallel.

    Base: 1/(1 + edges + t²GA/(12E_tI)) with `modulus_ratio` E/G [-], 3 if incompressible; the
    edge term EDGE·t∮n²ds/A levels off at the shear flexibility of a long beam (G. R. Cowper,
    J. Appl. Mech. 33 (1966) 335, from memory). Errors: see the module.

    >>> [round(float(r), 2) for r in shear_ratio("disc", 0.030, 0.0, 0.0075)]
    [0.94, 0.94]
    """
    a, b, t = _arrays(first, second, thickness)
    part, s = section(shape, a, b), shape_factor(shape, a, b, t)
    tilts = tilt_ratio(shape, a, b, t)[::-1]
    facing = edges_across(shape, a, b)
    wide, _, hole = OUTLINES[shape].sides(a, b)
    q2 = (hole / wide) ** 2
    beam = (1.0 + 26.0 * q2 / (1.0 + q2) ** 2) / 9.0
    ratios = []
    for edge, moment, tilt, along in zip(
        facing, (part.i_y, part.i_x), tilts, _PLAN[shape](a, b)[1:], strict=True
    ):
        edges = 1.0 / (1.0 / (EDGE * edge * t) + 1.0 / beam)
        bending = t**2 * part.area / (12.0 * np.asarray(modulus_ratio) * moment * tilt)
        ratio = pad_fits.rise("shear", shape, s, along) / (1.0 + edges + bending)
        ratios.append(np.minimum(ratio, 1.0))
    return ratios[0], ratios[1]


def edges_across(shape: str, first: ArrayLike, second: ArrayLike) -> tuple[Array, Array]:
    """Return ∮n²ds/A [1/m] of the free edges that face x and that face y, n their normal's part.

    >>> [round(float(e)) for e in edges_across("rectangle", 0.04, 0.02)]
    [50, 100]
    """
    a, b = np.asarray(first, dtype=float), np.asarray(second, dtype=float)
    if shape in _STRAIGHT:
        return _STRAIGHT[shape](a, b)
    part = section(shape, a, b)
    half = np.asarray(part.perimeter / part.area / 2.0)
    return half, half


_STRAIGHT: dict[str, Callable[[Array, Array], tuple[Array, Array]]] = {
    "rectangle": lambda a, b: (np.asarray(2.0 / a + 0.0 * b), np.asarray(2.0 / b + 0.0 * a))
}
"""The edges of outlines whose edges face x and y unlike."""


def twist_ratio(shape: str, first: ArrayLike, second: ArrayLike, thickness: ArrayLike) -> Array:
    """Return twist stiffness over G·polar/t [-]: 1 for round pads, exactly.

    Corners let other outlines warp: between 1 when thin and the Saint-Venant share when tall.

    >>> round(float(twist_ratio("rectangle", 0.040, 0.040, 0.040)), 2)
    0.87
    """
    a, b, t = _arrays(first, second, thickness)
    if OUTLINES[shape].round:
        return np.ones(np.broadcast(a, b, t).shape)
    s = shape_factor(shape, a, b, t)
    across, warping = corners(shape, a, b)
    base = 1.0 / (1.0 + 1.0 / (1.0 / warping + 1.0 / (EDGE * t * across)))
    return base * pad_fits.rise("twist", shape, s, _PLAN[shape](a, b)[0])


def corners(shape: str, first: Array, second: Array) -> tuple[Array, Array]:
    """Return what straight edges and corners do to twist, of an outline that is not round.

    First ∮(u·n)²ds over the polar moment [1/m], u the plates' motion at the edge as they turn by
    one; then the flexibility [-] that free warping adds to G·polar/t in a very tall pad.
    """
    wide, deep, _ = OUTLINES[shape].sides(first, second)
    across = (wide**3 + deep**3) / 6.0 / section(shape, first, second).polar
    return across, 1.0 / thin_layer.torsion_share(shape, first, second) - 1.0


def _arrays(first: ArrayLike, second: ArrayLike, thickness: ArrayLike) -> tuple[Array, ...]:
    sizes = (np.asarray(size, dtype=float) for size in (first, second, thickness))
    return tuple(np.broadcast_arrays(*sizes))


def _rectangle_plan(a: Array, b: Array) -> tuple[Array, ...]:
    return np.asarray(np.minimum(a, b) / (a + b)), np.asarray(a / (a + b)), np.asarray(b / (a + b))


def _holed_plan(a: Array, b: Array) -> tuple[Array, ...]:
    return (thin_layer.hole_coordinate(b / a),) * 3


_PLAN: dict[str, Callable[[Array, Array], tuple[Array, ...]]] = {
    "disc": lambda a, b: (np.zeros_like(a),) * 3,
    "ring": _holed_plan,
    "rectangle": _rectangle_plan,
    "square-with-hole": _holed_plan,
}
"""Plan co-ordinates of motions without a direction, along x and along y."""
