"""Rigid bodies on elastic supports: mass, stiffness, geometric stiffness, modes and their names.

Coordinates of a body are (ux, uy, uz, θx, θy, θz) of its centre of mass, small motion, in axes
fixed in space, z up. A point at `arm` r from the centre of mass moves by u + θ × r. All functions
work over any leading dimensions. Feet are massless; wave effects inside them are not modelled.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import permutations
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array

Numbers = NDArray[Any]  # real or complex

GROUND = -1
MODE_NAMES = ("sway x", "sway y", "bounce", "rocking x", "rocking y", "twist")


def cross_matrix(arm: ArrayLike) -> Array:
    """Return the matrix r× with (r×)v = r × v; `arm` (..., 3) → (..., 3, 3).

    >>> (cross_matrix([1.0, 2.0, 4.0]) @ [3.0, 5.0, 7.0]).tolist()
    [-6.0, 5.0, -1.0]
    """
    r = np.asarray(arm, dtype=float)
    out = np.zeros((*r.shape[:-1], 3, 3))
    x, y, z = r[..., 0], r[..., 1], r[..., 2]
    out[..., 0, 1], out[..., 0, 2] = -z, y
    out[..., 1, 0], out[..., 1, 2] = z, -x
    out[..., 2, 0], out[..., 2, 1] = -y, x
    return out


def carried(arm: ArrayLike) -> Array:
    """Return the motion (6, 6) of a body-fixed point at `arm` (3,) [m], per unit of the body's six.

    >>> (carried([0.0, 0.0, 1.5])[0] + 0.0).tolist()
    [1.0, 0.0, 0.0, 0.0, 1.5, 0.0]
    """
    out = np.eye(6)
    out[:3, 3:] = -cross_matrix(arm)
    return out


def mass_matrix(mass: ArrayLike, inertia: ArrayLike) -> Array:
    """Return the rigid-body mass matrix (..., 6, 6).

    `mass` (...) [kg]; `inertia` (..., 3, 3) about the centre of mass [kg·m²], tensor entries
    (products of inertia with the sign they have in the tensor).
    """
    m = np.asarray(mass, dtype=float)
    tensor = np.asarray(inertia, dtype=float)
    lead = np.broadcast_shapes(m.shape, tensor.shape[:-2])
    out = np.zeros((*lead, 6, 6))
    out[..., range(3), range(3)] = m[..., None]
    out[..., 3:, 3:] = tensor
    return out


def mass_matrices(masses: Sequence[ArrayLike], inertias: Sequence[ArrayLike]) -> Array:
    """Return the block-diagonal mass matrix (..., 6n, 6n) of n rigid bodies."""
    blocks = [mass_matrix(m, tensor) for m, tensor in zip(masses, inertias, strict=True)]
    lead = np.broadcast_shapes(*(block.shape[:-2] for block in blocks))
    out = np.zeros((*lead, 6 * len(blocks), 6 * len(blocks)))
    for i, block in enumerate(blocks):
        out[..., 6 * i : 6 * i + 6, 6 * i : 6 * i + 6] = block
    return out


def support_matrix(arms: ArrayLike, linear: ArrayLike, angular: ArrayLike) -> Numbers:
    """Return the stiffness matrix (..., 6, 6) of supports between one body and ground.

    `arms` (..., s, 3) from the centre of mass to each elastic centre [m]; `linear` (..., s, 3)
    [N/m] and `angular` (..., s, 3) [N·m/rad] along and about x, y, z, real or complex.
    K = Σ BᵀkB, B = [I, −r×]; Himelblau & Rubin, "Vibration of a resiliently supported rigid
    body", in Harris' Shock and Vibration Handbook ch. 3 (from memory).
    """
    r, k, turn = np.asarray(arms, dtype=float), np.asarray(linear), np.asarray(angular)
    lead = np.broadcast_shapes(r.shape[:-2], k.shape[:-2], turn.shape[:-2])
    out = np.zeros((*lead, 6, 6), dtype=np.result_type(k, turn, float))
    x, y, z = r[..., 0], r[..., 1], r[..., 2]
    kx, ky, kz = k[..., 0], k[..., 1], k[..., 2]
    # written out, as the sums of 3×3 products take three times as long
    terms = {
        (0, 4): kx * z,
        (0, 5): -kx * y,
        (1, 5): ky * x,
        (1, 3): -ky * z,
        (2, 3): kz * y,
        (2, 4): -kz * x,
        (3, 4): -kz * x * y,
        (3, 5): -ky * x * z,
        (4, 5): -kx * y * z,
    }
    for (i, j), term in terms.items():
        out[..., i, j] = out[..., j, i] = term.sum(axis=-1)
    out[..., range(3), range(3)] = k.sum(axis=-2)
    out[..., 3, 3] = (ky * z**2 + kz * y**2 + turn[..., 0]).sum(axis=-1)
    out[..., 4, 4] = (kx * z**2 + kz * x**2 + turn[..., 1]).sum(axis=-1)
    out[..., 5, 5] = (kx * y**2 + ky * x**2 + turn[..., 2]).sum(axis=-1)
    return out


def preload_matrix(force: ArrayLike, arm: ArrayLike) -> Array:
    """Return the rotational stiffness (..., 3, 3) [N·m/rad] of a dead force at a body-fixed point.

    `force` (..., 3) [N] acts on the body at `arm` (..., 3) [m]. To second order the point moves by
    u + θ × r + ½ θ × (θ × r), so the force's potential holds −½ F·(θ × (θ × r)) =
    −½ [(θ·r)(θ·F) − (F·r) θ·θ], whose Hessian is (F·r) I − ½ (r Fᵀ + F rᵀ). [derived]
    """
    f, r = np.broadcast_arrays(np.asarray(force, dtype=float), np.asarray(arm, dtype=float))
    outer = r[..., :, None] * f[..., None, :]
    along = (f * r).sum(axis=-1)[..., None, None]
    return np.asarray(along * np.eye(3) - 0.5 * (outer + np.swapaxes(outer, -1, -2)))


def gravity_stiffness(loads: ArrayLike, arms: ArrayLike) -> Array:
    """Return the geometric stiffness (..., 6, 6) of vertical support forces on one body.

    `loads` (..., s) [N], upwards on the body, at `arms` (..., s, 3) [m] from its centre of mass.
    Each force P stays vertical and acts at a point fixed to the body; its potential is
    −½ P (θ × (θ × r))_z, symmetric part as in `preload_matrix`. Feet that carry the weight m·g at
    a depth h below the centre of mass take m·g·h off both rocking terms and nothing off twist;
    the terms −½ P x, −½ P y that couple twist with rocking cancel where the loads balance.
    Add it to `support_matrix`. The pads' own loss of shear stiffness under load is not in it.
    """
    p, r = np.asarray(loads, dtype=float), np.asarray(arms, dtype=float)
    moment = (p[..., None] * r).sum(axis=-2)  # Σ P·(x, y, z)
    out = np.zeros((*moment.shape[:-1], 6, 6))
    out[..., 3, 3] = out[..., 4, 4] = moment[..., 2]
    out[..., 3, 5] = out[..., 5, 3] = -0.5 * moment[..., 0]
    out[..., 4, 5] = out[..., 5, 4] = -0.5 * moment[..., 1]
    return out


class Support(NamedTuple):
    """One elastic support between two bodies, or a body and ground.

    `first`, `second`: indices of the bodies, `GROUND` (−1) for ground. `point` (..., 3): elastic
    centre in the reference frame [m]. `stiffness` (..., 6, 6), real or complex: force and moment
    on the motion of `second` against `first` [N/m, N, N·m/rad], in axes that follow `first`.
    """

    first: int
    second: int
    point: ArrayLike
    stiffness: ArrayLike


def _motion(count: int, body: int, sign: float, com: ArrayLike, point: ArrayLike) -> Array:
    """Return the (..., 6, 6n) motion of a body-fixed point, times `sign`."""
    arm = np.asarray(point, dtype=float) - np.asarray(com, dtype=float)
    out = np.zeros((*arm.shape[:-1], 6, 6 * count))
    at = 6 * body
    out[..., range(6), range(at, at + 6)] = sign
    out[..., :3, at + 3 : at + 6] = -sign * cross_matrix(arm)
    return out


def _geometric(coms: Sequence[ArrayLike], support: Support, load: ArrayLike) -> Array:
    """Return the (..., 6n, 6n) geometric stiffness of one support's preload."""
    f = np.asarray(load, dtype=float)
    point = np.asarray(support.point, dtype=float)
    n = len(coms)
    lead = np.broadcast_shapes(f.shape[:-1], point.shape[:-1], *(np.shape(c)[:-1] for c in coms))
    out = np.zeros((*lead, 6 * n, 6 * n))
    for body, sign in ((support.second, 1.0), (support.first, -1.0)):
        if body != GROUND:
            at = slice(6 * body + 3, 6 * body + 6)
            arm = point - np.asarray(coms[body], dtype=float)
            out[..., at, at] += sign * preload_matrix(f, arm)
    if support.first != GROUND:
        # the force turns with `first`: potential F·(θ₁ × d) = d·(F × θ₁), d the relative motion
        turn = np.zeros((*lead, 3, 6 * n))
        at = slice(6 * support.first + 3, 6 * support.first + 6)
        turn[..., at] = cross_matrix(f)
        work = np.swapaxes(_relative(coms, support)[..., :3, :], -1, -2) @ turn
        out += work + np.swapaxes(work, -1, -2)
    return out


def _relative(coms: Sequence[ArrayLike], support: Support) -> Array:
    """Return the (..., 6, 6n) motion of the support's second end against its first."""
    parts = [
        _motion(len(coms), body, sign, coms[body], support.point)
        for body, sign in ((support.second, 1.0), (support.first, -1.0))
        if body != GROUND
    ]
    return parts[0] if len(parts) == 1 else parts[0] + parts[1]


def assemble(
    coms: Sequence[ArrayLike], supports: Sequence[Support], loads: Sequence[ArrayLike]
) -> Numbers:
    """Return the stiffness (..., 6n, 6n) of n rigid bodies and the supports between them.

    `coms`: n centres of mass (..., 3) [m]; `loads`: for each support the static force (..., 3)
    [N] it exerts on `second` (the opposite on `first`), zeros for none. The geometric stiffness
    of these forces is included: they turn with body `first` and act at its `second`'s point.
    Static moments in the supports are left out.
    """
    n = len(coms)
    total: Numbers = np.zeros((6 * n, 6 * n))
    for support, load in zip(supports, loads, strict=True):
        motion = _relative(coms, support)
        elastic = np.swapaxes(motion, -1, -2) @ np.asarray(support.stiffness) @ motion
        total = total + elastic + _geometric(coms, support, load)
    return total


def modes(stiffness: ArrayLike, mass: ArrayLike) -> tuple[Array, Array]:
    """Return undamped natural frequencies (..., n) [Hz], ascending, and mode shapes (..., n, n).

    Shapes are columns, mass-normalised (φᵀMφ = I). Of a complex stiffness the real part is taken.
    An unstable mode (negative eigenvalue λ of K − λM) is returned as the negative "frequency"
    −√|λ|/2π, so that a body that tips shows at once and nothing turns into NaN.
    """
    k = np.real(np.asarray(stiffness))
    inverse = np.linalg.inv(np.linalg.cholesky(np.asarray(mass, dtype=float)))
    turned = np.swapaxes(inverse, -1, -2)
    values, vectors = np.linalg.eigh(inverse @ k @ turned)
    frequencies = np.sign(values) * np.sqrt(np.abs(values)) / (2.0 * np.pi)
    return frequencies, turned @ vectors


_ORDERS = np.array(list(permutations(range(6))))


def mode_names(shapes: ArrayLike, mass: ArrayLike) -> list[str]:
    """Name the six modes of one body by where their kinetic energy is.

    `shapes` (6, 6) mass-normalised columns, `mass` (6, 6). Each of "bounce", "sway x", "sway y",
    "rocking x" (about x), "rocking y" (about y) and "twist" is given once, by the assignment that
    makes the sum of the named coordinates' energy shares largest.
    """
    shape = np.asarray(shapes, dtype=float)
    share = shape * (np.asarray(mass, dtype=float) @ shape)  # coordinate × mode
    return [MODE_NAMES[i] for i in _assigned(share)]


def match_modes(shapes: ArrayLike, reference: ArrayLike, mass: ArrayLike) -> list[int]:
    """Return for each of six modes the index of the reference mode whose shape it has.

    `shapes`, `reference` (6, 6) mass-normalised columns, `mass` (6, 6). Each reference mode is
    given once, by the assignment that makes the sum of (φᵀMφ_ref)² largest, so that modes that
    cross as stiffness or mass changes are followed by their shape.
    """
    m = np.asarray(mass, dtype=float)
    overlap = np.asarray(reference, dtype=float).T @ m @ np.asarray(shapes, dtype=float)
    return [int(i) for i in _assigned(overlap**2)]


def _assigned(score: Array) -> NDArray[np.intp]:
    """Return for each column the row it gets, all different, with the largest sum of scores."""
    total = score[_ORDERS, np.arange(6)].sum(axis=1)
    return np.asarray(_ORDERS[int(np.argmax(total))])
