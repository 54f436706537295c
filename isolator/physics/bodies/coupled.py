"""A source on feet on a desk that gives way: contact forces, and the power they put in.

The body moves by u (6) about its centre of mass; the desk under foot i by d_i = (w, θx, θy), as
`plate` has it, and in its own plane not at all. A foot is six springs k at its elastic centre,
which lies at arm r_i from the body's centre of mass and at height h_i over the desk's middle
plane. Its upper side moves by B_i·u, B_i = [[I, −r×], [0, I]], its lower side rides on the desk:

    T_i·d_i = (h·θy, −h·θx, w, θx, θy, 0),

so that a sideways force makes a moment by its height. The foot presses on the desk with
g_i = k_i(B_i·u − T_i·d_i), its contact forces are p_i = T_iᵀ·g_i = (Fz, Mx, My), and d = R·p for
the desk's receptance R. With D·u + Σ B_iᵀ·g_i = b, q = TᵀkT (diagonal) and G = q⁻¹·TᵀkB,

    (I + q·R)·p = TᵀkB·u,    (D + S + Gᵀ·P)·u = b,    p = P·u,    S = BᵀkB − Gᵀ·q·G,

where S is what holds the body where the desk lifts and tilts freely under every foot: however stiff
the feet are, no large terms cancel. It holds for a desk that does not give way (R = 0) and for
springs of no stiffness as well, with their rows of G nought. Rigid feet are the same with k times
`RIGID`: they keep their proportions among each other, their places and their height. The power into
the desk is ½·Re(pᴴ·jωR·p); ISO 10846 and ISO 7626 cut the problem so. [derived]
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
    factor = np.ones((1, 1, 1)) if moving is None else np.asarray(moving)[..., None]
    tall = height[:, None]
    own = _felt_by_desk(stiffness, tall)
    reach = _felt_by_body(arms[:, None], stiffness, tall)  # TᵀkB (n, f, 3s, 6)
    along = reach / np.where(own == 0.0, 1.0, own)[..., None]  # G
    matrix = (factor * own)[..., None] * receptance
    diagonal = np.arange(matrix.shape[-1])
    matrix[..., diagonal, diagonal] += 1.0
    pressed = np.linalg.solve(matrix, factor[..., None] * reach)  # P
    held = factor[..., None] * _held_aside(arms[:, None], stiffness, tall)
    held = held + dynamic + np.swapaxes(along, -1, -2) @ pressed
    right = np.broadcast_to(blocked, (*held.shape[:2], *blocked.shape[2:]))
    force = np.asarray(pressed @ np.linalg.solve(held, right), dtype=complex)
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


def _held_aside(arms: Array, stiffness: Complex, height: Array) -> Complex:
    """Return S (..., 6, 6): what holds the body where the desk lifts and tilts freely.

    A sideways spring acts in series with its foot's tilt spring then, at the desk's middle plane;
    alone where it lies in that plane and nothing tilts.
    """
    kx, ky, _, tilt_x, tilt_y, twist = np.moveaxis(stiffness, -1, 0)
    none = np.zeros_like(kx)
    aside = [
        np.where(whole == 0.0, side, side * tilt / np.where(whole == 0.0, 1.0, whole))
        for side, tilt, whole in (
            (kx, tilt_y, tilt_y + height**2 * kx),
            (ky, tilt_x, tilt_x + height**2 * ky),
        )
    ]
    low = arms - height[..., None] * [0.0, 0.0, 1.0]
    linear, angular = ([*aside, none], [none, none, twist])
    return np.asarray(support_matrix(low, np.stack(linear, -1), np.stack(angular, -1)))
