"""Plan areas of pads: area, free edge and second moments of the four outlines."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array

LEAST_SHAPE, LARGEST_SHAPE = 0.25, 5.0
"""Shape factors within which the pads' formulas are held against finite elements; below the lower
one a pad is as tall as its narrowest part is wide, and folds."""


class PlaneArea(NamedTuple):
    """Properties of one loaded face about its centre; arrays of one shape.

    `area` [m²]; `perimeter` [m] of all force-free edges, hole included; `i_x`, `i_y` [m⁴] second
    moments about the x and y axes; `polar` [m⁴] = i_x + i_y.
    """

    area: Array
    perimeter: Array
    i_x: Array
    i_y: Array
    polar: Array


def section(shape: str, first: ArrayLike, second: ArrayLike) -> PlaneArea:
    """Return the plane-area properties of an outline.

    `first`, `second` [m], broadcast: disc diameter and 0, ring outer and inner diameter,
    rectangle x side and y side, square-with-hole side and hole diameter. Exact; sizes are taken
    as given and not checked. Raises ValueError for an unknown shape.

    >>> round(float(section("ring", 0.042, 0.024).area) * 1e6, 4)
    933.053
    """
    if shape not in OUTLINES:
        *most, last = OUTLINES
        raise ValueError(f"shape {shape!r} is unknown; wanted {', '.join(most)} or {last}")
    a, b = np.broadcast_arrays(np.asarray(first, dtype=float), np.asarray(second, dtype=float))
    return OUTLINES[shape].section(a, b)


def _round(outer: Array, inner: Array) -> PlaneArea:
    second_moment = np.pi / 64.0 * (outer**4 - inner**4)
    return PlaneArea(
        np.pi / 4.0 * (outer**2 - inner**2),
        np.pi * (outer + inner),
        second_moment,
        second_moment,
        2.0 * second_moment,
    )


def _rectangle(a: Array, b: Array) -> PlaneArea:
    i_x, i_y = a * b**3 / 12.0, b * a**3 / 12.0
    return PlaneArea(a * b, 2.0 * (a + b), i_x, i_y, i_x + i_y)


def _holed_square(side: Array, width: Array) -> PlaneArea:
    hole = _round(width, np.zeros_like(width))
    second_moment = side**4 / 12.0 - hole.i_x
    return PlaneArea(
        side * side - hole.area,
        4.0 * side + hole.perimeter,
        second_moment,
        second_moment,
        2.0 * second_moment,
    )


Arrays = tuple[Array, ...]


class OutlineForms(NamedTuple):
    """What belongs to one outline, as functions of a pad's two sizes."""

    section: Callable[[Array, Array], PlaneArea]
    sides: Callable[[Array, Array], Arrays]
    """Outside along x, outside along y, width of the hole or 0 [m]."""
    round: bool = False
    """Without corners: its section does not warp as it twists."""


OUTLINES = {
    "disc": OutlineForms(
        lambda a, b: _round(a, np.zeros_like(a)), lambda a, b: (a, a, 0.0 * b), round=True
    ),
    "ring": OutlineForms(_round, lambda a, b: (a, a, b), round=True),
    "rectangle": OutlineForms(_rectangle, lambda a, b: (a, b, 0.0 * b)),
    "square-with-hole": OutlineForms(_holed_square, lambda a, b: (a, a, b)),
}


def shape_factor(shape: str, first: ArrayLike, second: ArrayLike, thickness: ArrayLike) -> Array:
    """Return the shape factor S [-] = one loaded area over the force-free side area.

    `first`, `second` as in `section`, `thickness` [m] of the rubber between its two plates.
    Disc d/(4t), ring (do − di)/(4t), rectangle ab/(2t(a + b)). Source: P. B. Lindley, Engineering
    Design with Natural Rubber, 4th ed. 1978.

    >>> float(shape_factor("disc", 0.030, 0.0, 0.010))
    0.75
    """
    part = section(shape, first, second)
    return np.asarray(part.area / (part.perimeter * np.asarray(thickness, dtype=float)))


def within_fits(proportion: ArrayLike) -> NDArray[np.bool_]:
    """Return whether shape factors lie where the pads' formulas hold.

    A little slack lets in a pad exactly as tall as wide.

    >>> within_fits([0.24, 0.25, 5.0, 5.1]).tolist()
    [False, True, True, False]
    """
    shape = np.asarray(proportion, dtype=float)
    return (shape >= LEAST_SHAPE * 0.999) & (shape <= LARGEST_SHAPE * 1.001)
