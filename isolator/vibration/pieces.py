"""Pieces of a printer as bodies: boxes and points, summed, and cut in two at a height."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from isolator.physics.arrays import Array

Piece = tuple[float, Array, Array]
"""Mass [kg], centre (3,) [m] and inertia about it (3, 3) [kg·m²]."""


def box_inertia(mass: float, size: Sequence[float]) -> Array:
    """Return the inertia tensor [kg·m²] of a uniform box about its middle; `size` (3,) [m].

    >>> box_inertia(12.0, (0.3, 0.4, 0.5)).diagonal().round(3).tolist()
    [0.41, 0.34, 0.25]
    """
    square = np.square(np.asarray(size, dtype=float))
    return np.diag(mass / 12.0 * (square.sum() - square))


def box(mass: float, middle: Sequence[float], size: Sequence[float]) -> Piece:
    """Return a uniform box; a point where `size` is zero."""
    return mass, np.array(middle, dtype=float), box_inertia(mass, size)


def point(mass: float, place: Sequence[float] | Array) -> Piece:
    """Return a point mass."""
    return mass, np.array(place, dtype=float), np.zeros((3, 3))


def point_inertia(mass: float, arm: Array) -> Array:
    """Return what a point mass at `arm` (3,) [m] adds to the inertia tensor [kg·m²]."""
    return mass * (float(arm @ arm) * np.eye(3) - np.outer(arm, arm))


def combine(pieces: Sequence[Piece]) -> Piece:
    """Sum pieces by the parallel-axis theorem."""
    mass = sum(piece[0] for piece in pieces)
    com = sum((piece[0] * piece[1] for piece in pieces), np.zeros(3)) / mass
    inertia = sum(
        (own + point_inertia(part, centre - com) for part, centre, own in pieces), np.zeros((3, 3))
    )
    return mass, com, inertia


def above(
    mass: float, middle: Sequence[float], size: Sequence[float], height: float
) -> Piece | None:
    """Return the part of a uniform box that lies above `height` [m]; None where nothing does.

    A box without a size lies where its middle is.

    >>> piece = above(3.0, (0.0, 0.0, 0.2), (0.1, 0.1, 0.3), 0.25)
    >>> round(piece[0], 6), piece[1].round(6).tolist()
    (1.0, [0.0, 0.0, 0.3])
    """
    x, y, z = middle
    low, high = z - size[2] / 2.0, z + size[2] / 2.0
    if high <= height:
        return None
    if low >= height:
        return box(mass, middle, size)
    share = (high - height) / size[2]
    return box(share * mass, (x, y, (high + height) / 2.0), (*size[:2], high - height))
