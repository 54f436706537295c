"""Drive, motors on dampers, frame and feet as one chain of bodies under a torque ripple.

Coordinates, in this order: the frame's six (of its centre of mass), six for each motor's body, the
turn ψ of each rotor against its own motor about its shaft, and the travel of the moving masses
along x and y against the frame. Everything is symmetric: what reaches the feet is what the bodies
pass on, and no force enters from outside. Time factor e^{+jωt}; stiffness may be complex.

A belt stretches by e = r·(ψ + (θ_motor − θ_frame)·a) − (cx·qx + cy·qy). A motor that shifts under
its pulley changes both strands alike and stretches nothing to first order: true of strands that
leave the pulley side by side. The frame's mass holds all that rides on it, moving masses too; the
motors are bodies of their own. Frame, shafts and brackets are rigid, so results above some 100 Hz
are a guide only.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.response import foot_forces, rigid_shares
from isolator.physics.bodies.rigid import cross_matrix

Numbers = NDArray[Any]


class Drive(NamedTuple):
    """One motor's drive."""

    axis: Array  # (3,) unit vector of the shaft
    rotor_inertia: float  # with pulley [kg·m²]
    magnetic_stiffness: complex  # rotor to its field, with its loss [N·m/rad]
    pulley_radius: float  # [m]
    belt_stiffness: complex  # [N/m]
    pulls: Array  # (2,) travel of the belt for travel of the masses along x, y [-]


class Carriage(NamedTuple):
    """The moving masses."""

    masses: Array  # (2,) along x, y [kg]
    points: Array  # (2, 3) where they push the frame [m]


def augment(
    stiffness: ArrayLike,
    mass: ArrayLike,
    frame_com: ArrayLike,
    drives: Sequence[Drive],
    carriage: Carriage,
    bodies_of: Sequence[int] | None = None,
) -> tuple[Numbers, Array]:
    """Return stiffness (..., N, N) and mass (N, N) of bodies with their drives.

    `stiffness` (..., 6b, 6b), `mass` (6b, 6b) of b bodies, the frame first; N = 6b + n + 2 for n
    drives. `bodies_of`: for each drive the body that its motor is, 0 where it is bolted to the
    frame; without it drive i's motor is body i + 1. A motor's own mass matrix, or the frame's
    where it is bolted, holds its rotor as if locked.
    """
    k, m = np.asarray(stiffness), np.asarray(mass, dtype=float)
    bodies, count = m.shape[-1], len(drives)
    size = bodies + count + 2
    springs = [(drive.magnetic_stiffness, drive.belt_stiffness) for drive in drives]
    kind = np.result_type(k, *(each for pair in springs for each in pair), float)
    whole: Numbers = np.zeros((*k.shape[:-2], size, size), dtype=kind)
    whole[..., :bodies, :bodies] = k
    inertia = np.zeros((size, size))
    inertia[:bodies, :bodies] = m
    owners = range(1, count + 1) if bodies_of is None else bodies_of
    for index, (drive, owner) in enumerate(zip(drives, owners, strict=True)):
        rotor, turn = bodies + index, slice(6 * owner + 3, 6 * owner + 6)
        whole[..., rotor, rotor] += drive.magnetic_stiffness
        stretch = np.zeros(size)
        stretch[rotor] = drive.pulley_radius
        stretch[turn] += drive.pulley_radius * drive.axis
        stretch[3:6] -= drive.pulley_radius * drive.axis
        stretch[-2:] = -drive.pulls
        whole += drive.belt_stiffness * np.outer(stretch, stretch)
        inertia[rotor, rotor] = drive.rotor_inertia
        inertia[rotor, turn] = inertia[turn, rotor] = drive.rotor_inertia * drive.axis
    for along in range(2):
        travel = size - 2 + along
        # row of the frame's motion at the mass's point, along its axis
        row = np.zeros(6)
        row[along] = 1.0
        arm = np.asarray(carriage.points[along]) - np.asarray(frame_com)
        row[3:] = -cross_matrix(arm)[along]
        inertia[travel, travel] = carriage.masses[along]
        inertia[travel, :6] = inertia[:6, travel] = carriage.masses[along] * row
    return whole, inertia


def bolted(frame_com: ArrayLike, motor_coms: Sequence[ArrayLike], fixed: Sequence[bool]) -> Array:
    """Return the matrix (N, N') from coordinates with the `fixed` motors bolted to the frame.

    Its columns are the frame's six, six for each motor that is not fixed, the rotors' and the
    masses'; reduce by TᵀKT and TᵀMT.
    """
    count = len(motor_coms)
    size = 6 + 6 * count + count + 2
    out = np.eye(size)
    gone: list[int] = []
    for index, (com, held) in enumerate(zip(motor_coms, fixed, strict=True)):
        if not held:
            continue
        at = 6 + 6 * index
        out[at : at + 6, :6] = np.eye(6)
        arm = np.asarray(com, dtype=float) - np.asarray(frame_com, dtype=float)
        out[at : at + 3, 3:6] = -cross_matrix(arm)
        gone += range(at, at + 6)
    return np.delete(out, gone, axis=1)


def response(
    stiffness: ArrayLike, mass: ArrayLike, omega: ArrayLike, torques: ArrayLike
) -> tuple[Complex, Complex]:
    """Return motion (..., N, s) and its dynamic stiffness (..., N, N) under ripple at the rotors.

    `omega` (...) [rad/s]; `torques` (..., n, s) [N·m] on each of n rotors (and against their
    motors), for s sources that are solved side by side. N may be that of either set of
    coordinates: the last n + 2 are the rotors' and the masses'.
    """
    k = np.asarray(stiffness, dtype=complex)
    w = np.asarray(omega, dtype=float)[..., None, None]
    dynamic = k - w**2 * np.asarray(mass)
    push = np.asarray(torques, dtype=complex)
    count, size = push.shape[-2], dynamic.shape[-1]
    right = np.zeros((*push.shape[:-2], size, push.shape[-1]), dtype=complex)
    right[..., size - 2 - count : size - 2, :] = push
    return np.linalg.solve(dynamic, right), dynamic


def fixed_frame(
    stiffness: ArrayLike, mass: ArrayLike, omega: ArrayLike, torques: ArrayLike
) -> tuple[Complex, Complex]:
    """Return motion (..., N − 6, s) with the frame held still, and the wrench (..., 6, s) on it.

    The wrench [N, N·m] is what the drive and the motors exert on the frame, about its centre of
    mass. Arguments as `response`.
    """
    k, m = np.asarray(stiffness), np.asarray(mass, dtype=float)
    motion, _ = response(k[..., 6:, 6:], m[..., 6:, 6:], omega, torques)
    w = np.asarray(omega, dtype=float)[..., None, None]
    passed = -(k[..., :6, 6:] - w**2 * m[..., :6, 6:]) @ motion
    return motion, np.asarray(passed, dtype=complex)


def floor_force(motion: ArrayLike, arms: ArrayLike, springs: ArrayLike) -> Array:
    """Return the norm (...) [N] of all feet's forces under frame motion (..., 6, s).

    `arms` (f, 3) from the frame's centre of mass [m], `springs` (..., f, 3) complex [N/m]. The s
    sources have phases that nobody knows: their energies add.
    """
    u = np.swapaxes(np.asarray(motion)[..., :6, :], -1, -2)
    forces = foot_forces(u, arms, np.asarray(springs)[..., None, :, :])
    return np.asarray(np.sqrt((np.abs(forces) ** 2).sum(axis=(-1, -2, -3))))


def rigid_floor_force(
    wrench: ArrayLike, arms: ArrayLike, springs: ArrayLike, tilts: ArrayLike
) -> Array:
    """Return the norm (...) [N] of all feet's forces when the feet are rigid.

    `wrench` (..., 6, s) on the frame; it is shared as by feet of the given proportions.
    """
    push = np.swapaxes(np.asarray(wrench), -1, -2)
    shared = rigid_shares(
        push, arms, np.asarray(springs)[..., None, :, :], np.asarray(tilts)[..., None, :, :]
    )
    return np.asarray(np.sqrt((np.abs(shared) ** 2).sum(axis=(-1, -2, -3))))


def passed_torque(
    drives: Sequence[Drive],
    masses: ArrayLike,
    index: int,
    twist: ArrayLike,
    inertia: float,
    omega: ArrayLike,
) -> Complex:
    """Return the torque (n, f) [N·m] that motor `index` passes into a frame that stands still.

    Under a ripple of 1 N·m at its rotor, its body free to turn about its shaft alone, on the
    twist stiffness `twist` (n, f) [N·m/rad] complex, the other motors bolted. `inertia` [kg·m²] is
    the body's about the shaft, rotor locked; `masses` (2,) [kg] move along x, y; `omega` (f,). On
    a damper of which the shaft is an axis of symmetry the twist is a motion of its own, so within
    these bounds this is exact. Infinite `twist` stands for a motor that is bolted on.
    """
    w2 = np.square(np.asarray(omega, dtype=float))
    springs = np.asarray(twist, dtype=complex)
    count, free = len(drives), len(drives) + 2
    held = np.zeros((free, free), dtype=complex)
    inert = np.zeros((free, free))
    belt = np.zeros(free, dtype=complex)
    for row, drive in enumerate(drives):
        stretch = np.zeros(free)
        stretch[row], stretch[count:] = drive.pulley_radius, -drive.pulls
        held += drive.belt_stiffness * np.outer(stretch, stretch)
        held[row, row] += drive.magnetic_stiffness
        inert[row, row] = drive.rotor_inertia
        if row == index:
            belt = drive.belt_stiffness * drive.pulley_radius * stretch
    inert[range(count, free), range(count, free)] = np.asarray(masses)
    own = drives[index]
    # body's row against the rest: the belt's torque and the rotor's inertia
    coupling = belt - w2[:, None] * (own.rotor_inertia * np.eye(free)[index])
    rest = held - w2[:, None, None] * inert
    push = np.eye(free)[index]
    both = np.stack(np.broadcast_arrays(push, coupling), axis=-1)
    solved = np.linalg.solve(rest, both)  # (f, free, 2): under the ripple, under the coupling
    by_ripple, by_coupling = (
        np.einsum("fi,fi->f", coupling, solved[..., column]) for column in (0, 1)
    )
    with np.errstate(invalid="ignore"):
        body = springs - w2 * inertia + own.belt_stiffness * own.pulley_radius**2 - by_coupling
        share = np.where(np.isinf(springs.real), 1.0, springs / body)
    return np.asarray(-share * by_ripple, dtype=complex)
