"""Belt drives on a frame that stands still: the textbook's formulas, and the product's own drive.

Time factor e^{+jωt}. Two and four degrees of freedom, written down without the chain of bodies:
what rotors and carriage do under a torque ripple. A frame that stands still then receives the
change of momentum of what moves.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Complex
from isolator.physics.drive.chain import Carriage, Drive, augment


class AxisMotion(NamedTuple):
    """Complex accelerations of rotor [rad/s²] and carriage [m/s²]."""

    rotor: Complex
    carriage: Complex


class PlaneMotion(NamedTuple):
    """Complex accelerations of the rotors A, B [rad/s²] and of the carriage in x, y [m/s²]."""

    rotor_a: Complex
    rotor_b: Complex
    carriage_x: Complex
    carriage_y: Complex


def axis_response(
    torque: ArrayLike,
    omega: ArrayLike,
    rotor_inertia: ArrayLike,
    pulley_radius: ArrayLike,
    belt_stiffness: ArrayLike,
    moving_mass: ArrayLike,
    magnetic_stiffness: ArrayLike,
) -> AxisMotion:
    """Return the motion of one motor and its carriage under a torque ripple at the motor.

    `torque` [N·m] amplitude, `omega` [rad/s], `rotor_inertia` J [kg·m²] with its pulley,
    `pulley_radius` r [m], `belt_stiffness` k [N/m] of both strands together, real or complex,
    `moving_mass` m [kg], `magnetic_stiffness` [N·m/rad] that holds the rotor to its field, 0 for
    none. Arrays broadcast. Two degrees of freedom: J φ″ + k_m φ + r k (r φ − x) = τ,
    m x″ = k (r φ − x). Friction and the idlers' inertia are left out.
    """
    w2 = np.square(np.asarray(omega, dtype=float))
    r, k = np.asarray(pulley_radius), np.asarray(belt_stiffness, dtype=complex)
    m = np.asarray(moving_mass)
    rotor = np.asarray(magnetic_stiffness) + k * r**2 - w2 * np.asarray(rotor_inertia)
    carriage = k - w2 * m
    determinant = rotor * carriage - (k * r) ** 2
    angle = np.asarray(torque) * carriage / determinant
    place = np.asarray(torque) * k * r / determinant
    return AxisMotion(np.asarray(-w2 * angle), np.asarray(-w2 * place))


def crossed_response(
    torque: ArrayLike,
    omega: ArrayLike,
    rotor_inertia: ArrayLike,
    pulley_radius: ArrayLike,
    belt_stiffness: ArrayLike,
    mass_x: ArrayLike,
    mass_y: ArrayLike,
    magnetic_stiffness: ArrayLike,
) -> PlaneMotion:
    """Return the motion of two crossed belts under a torque ripple at motor A.

    Belt A follows x + y, belt B x − y. `belt_stiffness` k [N/m] of one belt: its pull is
    k (r φ_A − (x + y)). `mass_x`, `mass_y` [kg]: what moves along x and along y (the gantry counts
    in one of them). Both rotors sit on `magnetic_stiffness` [N·m/rad]. For ripple at motor B turn
    the sign of y and swap A with B. Arrays broadcast.
    """
    args = (torque, omega, rotor_inertia, pulley_radius, belt_stiffness, mass_x, mass_y)
    t, w, j, r, k, mx, my, km = np.broadcast_arrays(*args, magnetic_stiffness)
    # coordinates: r·φ_A, r·φ_B, x, y; each belt's stretch as a row over them
    stretch = np.array([[1.0, 0.0, -1.0, -1.0], [0.0, 1.0, -1.0, 1.0]])
    matrix = k.astype(complex)[..., None, None] * (stretch.T @ stretch)
    inertia = np.stack([j / r**2, j / r**2, mx, my], axis=-1)
    held = np.stack([km / r**2, km / r**2, 0.0 * mx, 0.0 * my], axis=-1)
    matrix[..., range(4), range(4)] += held - np.square(w)[..., None] * inertia
    force = np.zeros((*t.shape, 4, 1), dtype=complex)
    force[..., 0, 0] = t / r
    motion = -np.square(w)[..., None] * np.linalg.solve(matrix, force)[..., 0]
    return PlaneMotion(
        np.asarray(motion[..., 0] / r),
        np.asarray(motion[..., 1] / r),
        np.asarray(motion[..., 2]),
        np.asarray(motion[..., 3]),
    )


def plain_drive(
    inertia: float, radius: float, belt: complex, pulls: Sequence[float], magnetic: complex = 0.0
) -> Drive:
    """Return a drive of the product with its shaft along z."""
    return Drive(
        axis=np.array([0.0, 0.0, 1.0]),
        rotor_inertia=inertia,
        magnetic_stiffness=magnetic,
        pulley_radius=radius,
        belt_stiffness=belt,
        pulls=np.array(pulls),
    )


def still(drives: Sequence[Drive], masses: ArrayLike, hertz: ArrayLike, torque: float) -> Complex:
    """Return accelerations (f, n + 2) of the product's rotors and masses on a frame that is held.

    `torque` [N·m] at the first motor, `hertz` (f,), `masses` (2,) [kg]. A mass that no belt holds
    stays where it is.
    """
    carriage = Carriage(masses=np.asarray(masses, dtype=float), points=np.zeros((2, 3)))
    k, m = augment(np.eye(6), np.zeros(3), drives, carriage)
    w2 = np.square(2.0 * np.pi * np.atleast_1d(np.asarray(hertz, dtype=float)))[:, None]
    inner = (k - w2[..., None] * m)[:, 6:, 6:]
    push = np.zeros((len(drives) + 2, 1))
    push[0] = torque
    return np.asarray(-w2 * np.linalg.solve(inner, push)[..., 0])
