"""A source on feet on a desk that gives way: contact forces, and the power they put in.

The body moves by u (6) about its centre of mass; the desk under foot i by d_i = (w, θx, θy), as
`plate` has it, and in its own plane not at all. A foot is six springs k at its elastic centre,
which lies at arm r_i from the body's centre of mass and at height h_i over the desk's middle
plane. Its upper side moves by B_i·u, B_i = [[I, −r×], [0, I]], its lower side rides on the desk:

    T_i·d_i = (h·θy, −h·θx, w, θx, θy, 0),

so that a sideways force makes a moment by its height. The foot presses on the desk with
g_i = k_i(B_i·u − T_i·d_i), its contact forces are p_i = T_iᵀ·g_i = (Fz, Mx, My), and d = R·p for
the desk's receptance R. With D·u + Σ B_iᵀ·g_i = b,

    [ D + BᵀkB    −BᵀkT·R    ] [u]   [b]
    [ −TᵀkB       I + TᵀkT·R ] [p] = [0],

which holds for a desk that does not give way (R = 0) and for springs of no stiffness as well. Rigid
feet are the same with k times `RIGID`: they keep their proportions among each other, their places
and their height. The power into the desk is ½·Re(pᴴ·jωR·p); ISO 10846 and ISO 7626 cut the
problem so. [derived]
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import support_matrix

RIGID = 1e8
"""Feet this many times stiffer stand for rigid ones; forces are then off by about (f/f_n)² parts
in that many, f_n of the feet as given."""


class Contact(NamedTuple):
    """What s contacts pass on to a desk, for n sets of feet, f frequencies and p sources."""

    force: Complex  # (n, f, 3s, p) Fz [N], Mx, My [N·m] of each foot in turn, on the desk
    power: Array  # (n, f, p) [W], as amplitudes go


def contact(
    dynamic: Complex,
    blocked: Complex,
    arms: Array,
    stiffness: Complex,
    height: Array,
    receptance: Complex,
    frequency: Array,
    moving: Complex | None = None,
) -> Contact:
    """Return the contact forces and the power into the desk.

    `dynamic` (n or 1, f, 6, 6) of the source with gravity, about its centre of mass; `blocked`
    (n or 1, f, 6, p); `arms` (n, s, 3) [m]; `stiffness` (n, f or 1, s, 6) along and about x, y, z,
    complex; `height` (n, s) [m]; `receptance` (f, 3s, 3s) of the desk; `frequency` (f,) [Hz];
    `moving` (n, f) a factor on all stiffness of a set, 1 without it.
    """
    count, feet, hertz = len(stiffness), stiffness.shape[2], len(receptance)
    factor = np.ones((1, 1, 1)) if moving is None else np.asarray(moving)[..., None]
    reach = _felt_by_body(arms[:, None], stiffness, height[:, None])  # TᵀkB (n, f, 3s, 6)
    own = factor * _felt_by_desk(stiffness, height[:, None])
    supports = support_matrix(arms[:, None], stiffness[..., :3], stiffness[..., 3:])
    # a good part of the time goes into filling the matrix: each part is written where it stays
    matrix = np.empty((count, hertz, 6 + 3 * feet, 6 + 3 * feet), dtype=complex)
    np.multiply(factor[..., None], supports, out=matrix[..., :6, :6])
    matrix[..., :6, :6] += dynamic
    np.multiply(
        -factor[..., None], np.swapaxes(reach, -1, -2) @ receptance, out=matrix[..., :6, 6:]
    )
    np.multiply(-factor[..., None], reach, out=matrix[..., 6:, :6])
    np.multiply(own[..., None], receptance, out=matrix[..., 6:, 6:])
    diagonal = np.arange(6, 6 + 3 * feet)
    matrix[..., diagonal, diagonal] += 1.0
    # rows of one size, as rigid feet make them up to RIGID apart
    scale = 1.0 / np.abs(matrix).max(axis=-1, keepdims=True)
    matrix *= scale
    right = np.zeros((count, hertz, 6 + 3 * feet, blocked.shape[-1]), dtype=complex)
    np.multiply(scale[..., :6, :], blocked, out=right[..., :6, :])
    force = np.asarray(np.linalg.solve(matrix, right)[..., 6:, :], dtype=complex)
    worked = (force.conj() * (receptance @ force)).imag.sum(axis=-2)
    omega = 2.0 * math.pi * np.asarray(frequency, dtype=float)[:, None]
    return Contact(force=force, power=np.asarray(-0.5 * omega * worked))


def _felt_by_desk(stiffness: Complex, height: Array) -> Complex:
    """Return the diagonal (..., 3s) of TᵀkT."""
    kx, ky, kz, tilt_x, tilt_y, _ = np.moveaxis(stiffness, -1, 0)
    own = np.stack([kz, tilt_x + height**2 * ky, tilt_y + height**2 * kx], axis=-1)
    return own.reshape(*own.shape[:-2], -1)


def _felt_by_body(arms: Array, stiffness: Complex, height: Array) -> Complex:
    """Return TᵀkB (..., 3s, 6)."""
    x, y, z = np.moveaxis(arms, -1, 0)
    kx, ky, kz, tilt_x, tilt_y, _ = np.moveaxis(stiffness, -1, 0)
    out = np.zeros((*stiffness.shape[:-1], 3, 6), dtype=complex)
    out[..., 0, 2], out[..., 0, 3], out[..., 0, 4] = kz, kz * y, -kz * x
    across, along = -height * ky, height * kx
    out[..., 1, 1], out[..., 1, 3], out[..., 1, 5] = across, tilt_x - across * z, across * x
    out[..., 2, 0], out[..., 2, 4], out[..., 2, 5] = along, tilt_y + along * z, -along * y
    return out.reshape(*out.shape[:-3], -1, 6)
