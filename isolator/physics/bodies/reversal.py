"""Reversals of an infill zigzag: how long one takes, and whether the printer tips or slides."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def period(stroke: ArrayLike, speed: ArrayLike, acceleration: ArrayLike) -> Array:
    """Return the time [s] of one zigzag to and fro, 2(L/v + v/a), or 4√(L/a) where L < v²/a.

    `stroke` L [m], `speed` v [m/s], `acceleration` a [m/s²]. In the second case the tool never
    reaches its speed (its velocity is a triangle).
    """
    length, v, a = np.asarray(stroke, dtype=float), np.asarray(speed), np.asarray(acceleration)
    top = np.minimum(v, np.sqrt(a * length))
    return np.asarray(2 * (length / top + top / a))


def stroke_of_period(time: ArrayLike, speed: ArrayLike, acceleration: ArrayLike) -> Array:
    """Return the stroke [m] whose zigzag takes `time` [s]; the inverse of `period`."""
    half, v, a = np.asarray(time, dtype=float) / 2, np.asarray(speed), np.asarray(acceleration)
    return np.asarray(np.where(half < 2 * v / a, a * half**2 / 4, v * (half - v / a)))


def step_factor(damping_ratio: ArrayLike) -> Array:
    """Return the peak over the static displacement after a step of force, 1 + e^(−πζ/√(1 − ζ²)).

    One mode, viscous damping, ζ < 1; 2 without damping.
    """
    zeta = np.asarray(damping_ratio, dtype=float)
    return np.asarray(1 + np.exp(-np.pi * zeta / np.sqrt(1 - zeta**2)))


def slip_margin(
    moving_mass: ArrayLike, acceleration: ArrayLike, weight: ArrayLike, friction: ArrayLike
) -> Array:
    """Return friction's limit over the reversal's push, µW/(m·a); under 1 the printer walks.

    `weight` [N] on all feet. The feet's own resonance raises the push: give the acceleration with
    its factor where the zigzag may hit a mode.
    """
    push = np.asarray(moving_mass) * np.asarray(acceleration)
    return np.asarray(np.asarray(friction) * np.asarray(weight) / push)


def tip_margin(
    positions: ArrayLike, com_xy: ArrayLike, weight: ArrayLike, force: ArrayLike, height: ArrayLike
) -> Array:
    """Return by how much a push may grow until the first foot line is the tipping edge.

    `positions` (s, 2) and `com_xy` (..., 2) in plan [m]; `weight` (...) [N]; `force` (..., 2)
    horizontal push [N] at `height` (...) [m] above the floor. The weight's line shifts by
    force·height/weight; the margin is its distance to the edge of the feet's outline along the
    push, over that shift. Static; zero or less where the centre lies outside already.
    """
    place = np.asarray(positions, dtype=float)
    com, push = np.asarray(com_xy, dtype=float), np.asarray(force, dtype=float)
    shift = push * (np.asarray(height) / np.asarray(weight))[..., None]
    edge = place[None, :, :] - place[:, None, :]  # from foot i to foot j
    normal = np.stack([edge[..., 1], -edge[..., 0]], axis=-1)  # outward if all feet lie left
    side = np.einsum("ijk,ijmk->ijm", normal, place[None, None] - place[:, None, None])
    reach = 1e-12 * np.abs(edge).max() ** 2
    outline = (side <= reach).all(axis=-1) & (np.abs(edge).sum(axis=-1) > 0)
    first, second = np.nonzero(outline)
    n, start = normal[first, second], place[first]
    room = ((start - com[..., None, :]) * n).sum(axis=-1)
    rate = (shift[..., None, :] * n).sum(axis=-1)
    steps = np.where(rate > 0, room / np.where(rate > 0, rate, 1.0), np.inf)
    return np.asarray(steps.min(axis=-1))
