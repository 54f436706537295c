"""Static equilibrium of a rigid plate on feet: shares of the weight, settle and tilt."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array

G = 9.80665
"""Standard gravity [m/s²]; ISO 80000-3."""


def equal_shares(positions: ArrayLike, com: ArrayLike, weight: ArrayLike) -> Array:
    """Return the loads (..., s) [N] of equal linear springs under a rigid plate.

    `positions` (..., s, 2) [m] and `com` (..., 2) [m] in plan, `weight` (...) [N]. Two-sided
    springs: a negative load says that this foot would lift. Three feet at least, not in line.
    """
    place = np.asarray(positions, dtype=float)
    x = place - np.asarray(com, dtype=float)[..., None, :]
    basis = np.concatenate([np.ones((*x.shape[:-1], 1)), x], axis=-1)  # 1, x, y
    normal = np.swapaxes(basis, -1, -2) @ basis
    w = np.asarray(weight, dtype=float)
    target = np.zeros((*np.broadcast_shapes(w.shape, normal.shape[:-2]), 3))
    target[..., 0] = w
    plane = np.linalg.solve(normal, target[..., None])
    return np.asarray((basis @ plane)[..., 0])


class Settled(NamedTuple):
    """Where the plate comes to rest.

    `sags`, `loads`, `tangents` (..., s) [m, N, N/m]; a foot that lifts has a negative sag, no load
    and no stiffness. `tilt_x`, `tilt_y` (...) [rad] about x and y, right-handed.
    """

    sags: Array
    loads: Array
    tangents: Array
    tilt_x: Array
    tilt_y: Array


ForceOf = Callable[[Array], tuple[NDArray[Any], NDArray[Any]]]


@np.errstate(over="ignore", invalid="ignore", divide="ignore")  # past a curve's end
def settle(
    positions: ArrayLike,
    com_xy: ArrayLike,
    weight: ArrayLike,
    force_of: ForceOf,
    *,
    tolerance: float = 1e-9,
    iterations: int = 60,
) -> Settled:
    """Find the equilibrium of a rigid plate on feet with nonlinear force–sag curves.

    `positions` (..., s, 2) [m], `com_xy` (..., 2) [m], `weight` (...) [N]. `force_of(sags)` takes
    (..., s) sags [m], zero or more, and returns force [N] and tangent [N/m] of the same shape,
    rising with the sag; the leading shape is that of positions, centre and weight together. Sags
    below zero are cut off here: a foot that lifts carries nothing.
    Newton's method on the settle and two tilts; as monotone curves have a convex energy, a step
    that ends on its far slope is halved until it does not climb it far. A curve may return
    infinity or NaN past its end. `tolerance` is the unbalanced force, and moment over the feet's
    spread, as a share of the weight.
    Raises ArithmeticError where no equilibrium is found: the centre of mass lies outside the
    feet, or a curve never carries its load.
    """
    basis, target, scale = _plate(positions, com_xy, weight)
    w = target[..., :1]

    def balance(state: Array) -> tuple[Array, Array, Array, Array]:
        sag = (basis @ state[..., None])[..., 0]
        force, tangent = force_of(np.maximum(sag, 0.0))
        force, tangent = np.where(sag > 0, force, 0.0), np.where(sag > 0, tangent, 0.0)
        rest = (np.swapaxes(basis, -1, -2) @ force[..., None])[..., 0] - target
        return rest, sag, force, tangent

    state = _first_guess(basis, target, force_of)
    for _ in range(iterations):
        rest, sag, force, tangent = balance(state)
        if np.all(np.abs(rest) <= tolerance * w):
            return Settled(sag, force, tangent, -state[..., 2] / scale, state[..., 1] / scale)
        step = _newton_step(basis, rest, tangent)
        state = state + _shorten(balance, state, step, rest) * step
    raise ArithmeticError(_failure(np.abs(rest) / w, iterations))


def _plate(
    positions: ArrayLike, com_xy: ArrayLike, weight: ArrayLike
) -> tuple[Array, Array, float]:
    """Return 1, x, y of each foot (..., s, 3), the wanted sums (..., 3) and the feet's spread.

    x and y are taken from the centre of mass and over the spread [m], so that all three sums and
    all three unknowns have one unit.
    """
    place = np.asarray(positions, dtype=float)
    x = place - np.asarray(com_xy, dtype=float)[..., None, :]
    w = np.asarray(weight, dtype=float)
    lead = np.broadcast_shapes(x.shape[:-2], w.shape)
    scale = float(np.abs(place - place.mean(axis=-2, keepdims=True)).max())
    basis = np.concatenate([np.ones((*x.shape[:-1], 1)), x / scale], axis=-1)
    target = np.zeros((*lead, 3))
    target[..., 0] = w
    return np.broadcast_to(basis, (*lead, *basis.shape[-2:])), target, scale


def _failure(unbalanced: Array, iterations: int) -> str:
    """Return what to say where no equilibrium was found."""
    worst = float(np.nanmax(unbalanced)) if np.isfinite(unbalanced).any() else np.nan
    return (
        f"no static equilibrium after {iterations} steps: {worst:.2g} of the weight is left "
        "unbalanced; the centre of mass must lie inside the feet and every foot must carry its load"
    )


def _first_guess(basis: Array, target: Array, force_of: ForceOf) -> Array:
    """Return the state of a plate that settles level by the feet's initial stiffness.

    Halved while the feet carry more than the weight, or past the end of their curves.
    """
    lead = basis.shape[:-1]
    force, tangent = force_of(np.zeros(lead))
    settle = (target[..., 0] - force.sum(axis=-1)) / tangent.sum(axis=-1)
    for _ in range(60):
        carried = force_of(np.broadcast_to(settle[..., None], lead))[0].sum(axis=-1)
        deep = ~(carried <= 1.5 * target[..., 0])  # a NaN counts as deep
        if not deep.any():
            break
        settle = np.where(deep, 0.5 * settle, settle)
    state = np.zeros_like(target)
    state[..., 0] = settle
    return state


def _newton_step(basis: Array, rest: Array, tangent: Array) -> Array:
    """Return the Newton step; a foot in the air gets a thousandth of the mean stiffness."""
    floor = 1e-3 * tangent.mean(axis=-1, keepdims=True) + np.finfo(float).tiny
    weighted = basis * np.maximum(tangent, floor)[..., None]
    matrix = np.swapaxes(basis, -1, -2) @ weighted
    return np.asarray(-np.linalg.solve(matrix, rest[..., None])[..., 0])


def _shorten(
    balance: Callable[[Array], tuple[Array, Array, Array, Array]],
    state: Array,
    step: Array,
    rest: Array,
) -> Array:
    """Return the share (..., 1) of the step to take: halved while it goes too far uphill."""
    slope = np.abs((rest * step).sum(axis=-1))
    share = np.ones((*slope.shape, 1))
    for _ in range(40):
        new = (balance(state + share * step)[0] * step).sum(axis=-1)
        bad = ~(new <= 0.5 * slope) & (slope > 0)  # a NaN counts as bad
        if not bad.any():
            break
        share = np.where(bad[..., None], 0.5 * share, share)
    return share
