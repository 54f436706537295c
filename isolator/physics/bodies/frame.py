"""A frame that bends: its top racks along x and y against its base, and twists about z.

Three coordinates (r_x, r_y, ψ) beside those of the frame taken as rigid: what the top moves, in
addition, along x and y and about the vertical through its own centre. The frame's six are those of
the base; its mass matrix holds the whole printer as if nothing bent. What rides on the top (rotors
and moving masses as relative coordinates, forces from outside) rides on these three too: a wrench
on the top works on them by Rᵀ, R the rigid motion of the top per unit of each. Posts are taken as
stiff along themselves, so the top does not tilt; bending of single parts and second modes of a
frame are not in it. Time factor e^{+jωt}.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import MODE_NAMES, carried, mass_matrix

Numbers = NDArray[Any]  # real or complex

COUNT = 3
BENT_NAMES = (*MODE_NAMES, "frame x", "frame y", "frame twist")


class Top(NamedTuple):
    """The upper body of a frame with all that rides on it, held."""

    mass: float  # [kg]
    centre: Array  # (3,) [m]
    inertia: Array  # (3, 3) about that centre [kg·m²]


class Racking(NamedTuple):
    """The three coordinates of a bending frame."""

    stiffness: Complex  # (3, 3) with its loss [N/m, N·m/rad]
    mass: Array  # (3, 3) [kg, kg·m²]
    coupling: Array  # (6, 3) mass between the frame's six and the three
    motion: Array  # (6, 3) R: rigid motion of the top about the reference, per unit of each


def held_stiffness(top: Top, frequency: ArrayLike) -> Array:
    """Return the stiffness (3,) [N/m, N·m/rad] of a top that racks at `frequency` (3,) [Hz].

    Along x and y and in twist, with the base held, as a tap shows it of a printer that stands hard
    on a hard floor: m·(2πf)² and I_zz·(2πf)².
    """
    moved = np.array([top.mass, top.mass, top.inertia[2, 2]])
    return np.asarray(moved * np.square(2.0 * np.pi * np.asarray(frequency, dtype=float)))


def racking(top: Top, reference: ArrayLike, stiffness: ArrayLike) -> Racking:
    """Return the three coordinates of a top that racks and twists.

    `reference` (3,) [m] is where the frame's six are taken; `stiffness` (3,) of the top against its
    base along x and y [N/m] and about z [N·m/rad], complex where it loses.
    """
    # motion of the top's own centre, per unit of the three and of the frame's six
    own = np.zeros((6, COUNT))
    own[0, 0] = own[1, 1] = own[5, 2] = 1.0
    arm = np.asarray(top.centre, dtype=float) - np.asarray(reference, dtype=float)
    inertia = mass_matrix(top.mass, top.inertia)
    return Racking(
        stiffness=np.diag(np.asarray(stiffness, dtype=complex)),
        mass=own.T @ inertia @ own,
        coupling=carried(arm).T @ inertia @ own,
        motion=carried(-arm) @ own,
    )


def bend(
    stiffness: ArrayLike, mass: ArrayLike, frame: Racking, rides: Sequence[int]
) -> tuple[Complex, Array]:
    """Return stiffness and mass (..., N + 3, N + 3) of a structure whose frame bends.

    `stiffness`, `mass` (..., N, N): the frame's six first, then coordinates relative to the frame
    (rotors, moving masses); `rides` names those that ride on the top. The three come last.
    """
    k, m = np.asarray(stiffness), np.asarray(mass, dtype=float)
    size = m.shape[-1]
    stiff = np.zeros((*k.shape[:-2], size + COUNT, size + COUNT), dtype=complex)
    stiff[..., :size, :size] = k
    stiff[..., size:, size:] = frame.stiffness
    inertia = np.zeros((*m.shape[:-2], size + COUNT, size + COUNT))
    inertia[..., :size, :size] = m
    inertia[..., size:, size:] = frame.mass
    across = np.zeros((*m.shape[:-2], size, COUNT))
    across[..., :6, :] = frame.coupling
    # what a rider's push on its carrier does along the three
    riders = list(rides)
    across[..., riders, :] = np.swapaxes(m[..., :6, riders], -1, -2) @ frame.motion
    inertia[..., :size, size:] = across
    inertia[..., size:, :size] = np.swapaxes(across, -1, -2)
    return stiff, inertia


def bent_mode_names(shapes: ArrayLike, mass: ArrayLike) -> list[str]:
    """Name modes of a printer by where their kinetic energy is: the rigid six, then the frame's.

    `shapes` (n, n) mass-normalised columns, `mass` (n, n); n is 6 for a rigid frame and 9 for one
    that bends. Each name is given once, as `rigid.mode_names` does.
    """
    from scipy.optimize import linear_sum_assignment  # slow to load: most commands name none

    shape = np.asarray(shapes, dtype=float)
    share = shape * (np.asarray(mass, dtype=float) @ shape)  # coordinate × mode
    rows, columns = linear_sum_assignment(share, maximize=True)
    return [BENT_NAMES[row] for row in rows[np.argsort(columns)]]


def bent_push(push: ArrayLike, frame: Racking, on_top: ArrayLike) -> Numbers:
    """Return harmonic forces (..., N + 3, p) of p sources on a structure whose frame bends.

    `push` (..., N, p), of which the first six rows are wrenches about the reference; `on_top` (p,)
    says of each wrench whether it acts on the top.
    """
    force = np.asarray(push)
    along = (frame.motion.T @ force[..., :6, :]) * np.asarray(on_top, dtype=float)
    return np.concatenate([force, along], axis=-2)
