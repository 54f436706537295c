"""Forced response of rigid bodies on feet: foot forces, transmissibility, insertion loss.

Time factor e^{+jωt}. Complex stiffness k(1 + jη), or k + jωc for viscous damping: what is given
is taken as it acts at the frequency asked. Forces are generalised: (Fx, Fy, Fz, Mx, My, Mz) on the
centre of mass. The norm of foot forces takes the three force components of all feet together;
moments that feet pass on by their tilt and twist stiffness are not in it.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.bodies.rigid import cross_matrix, support_matrix

Array = NDArray[np.float64]
Complex = NDArray[np.complex128]
Numbers = NDArray[Any]

RIGID = 1e8
"""Feet this many times stiffer stand for rigid ones where a soft desk lies under them; forces are
then off by about (f/f_n)² parts in that many, f_n of the feet as given."""


def force_at(force: ArrayLike, moment: ArrayLike, arm: ArrayLike) -> Numbers:
    """Return the generalised force (..., 6) of a force [N] at `arm` [m] and a moment [N·m]."""
    f = np.asarray(force)
    turned = np.asarray(moment) + (cross_matrix(arm) @ f[..., None])[..., 0]
    return np.concatenate(np.broadcast_arrays(f, turned), axis=-1)


def frame_response(
    stiffness: ArrayLike, mass: ArrayLike, omega: ArrayLike, force: ArrayLike
) -> Complex:
    """Return the displacement (..., n) of (K − ω²M) u = F.

    `stiffness`, `mass` (..., n, n); `omega` (...) [rad/s]; `force` (..., n) [N, N·m].
    """
    w = np.asarray(omega, dtype=float)[..., None, None]
    dynamic = np.asarray(stiffness, dtype=complex) - w**2 * np.asarray(mass)
    right = np.asarray(force, dtype=complex)[..., None]
    return np.asarray(np.linalg.solve(dynamic, right)[..., 0], dtype=complex)


def foot_forces(u: ArrayLike, arms: ArrayLike, linear: ArrayLike) -> Complex:
    """Return the force (..., s, 3) [N] that each foot passes to the ground.

    `u` (..., 6) motion of the body; `arms` (..., s, 3) [m]; `linear` (..., s, 3) [N/m] complex.
    """
    motion = np.asarray(u, dtype=complex)[..., None, :]
    turned = cross_matrix(arms) @ motion[..., 3:, None]
    return np.asarray(np.asarray(linear) * (motion[..., :3] - turned[..., 0]), dtype=complex)


def norm(forces: ArrayLike) -> Array:
    """Return the norm (...) of stacked foot forces (..., s, 3)."""
    return np.asarray(np.sqrt((np.abs(np.asarray(forces)) ** 2).sum(axis=(-1, -2))))


def transmissibility(
    stiffness: ArrayLike,
    mass: ArrayLike,
    omega: ArrayLike,
    force: ArrayLike,
    arms: ArrayLike,
    linear: ArrayLike,
) -> Array:
    """Return T (...): norm of all foot forces over the same norm with the inertia left out.

    `stiffness` (..., 6, 6) is what holds the body at this frequency, geometric stiffness included;
    the reference is the same stiffness without mass, the limit of slow pushing with the feet as
    stiff as they act at `omega`. One body pushed through its centre of mass on feet that do not
    couple: √((1 + η²)/((1 − r²)² + η²)), or the viscous curve for k + jωc.
    """
    moving = foot_forces(frame_response(stiffness, mass, omega, force), arms, linear)
    still = foot_forces(frame_response(stiffness, mass, 0.0, force), arms, linear)
    return np.asarray(norm(moving) / norm(still))


def rigid_shares(
    force: ArrayLike, arms: ArrayLike, linear: ArrayLike, angular: ArrayLike
) -> Complex:
    """Return the foot forces (..., s, 3) [N] of rigid feet on a rigid floor.

    The limit of the given feet as all their stiffnesses grow by one factor: the load is shared
    as by the feet given, inertia and gravity drop out.
    """
    held = support_matrix(arms, linear, angular)
    return foot_forces(frame_response(held, np.zeros((6, 6)), 0.0, force), arms, linear)


def insertion_loss(soft: ArrayLike, rigid: ArrayLike) -> Array:
    """Return 20·log10(‖rigid‖/‖soft‖) [dB] of foot forces (..., s, 3); positive is quieter."""
    return np.asarray(20.0 * np.log10(norm(rigid) / norm(soft)))


def on_desk(linear: ArrayLike, mobility: ArrayLike, omega: ArrayLike) -> Complex:
    """Return the stiffness (..., s, 3) of each foot in series with the desk under it.

    `mobility` (..., s, 3) of the desk, velocity over force along each axis [m/(N·s)], complex, 0
    for rigid, 1/Z for an impedance Z; `omega` (...) [rad/s]. Each foot moves the desk at its own
    place alone: coupling between feet through the desk is not modelled.
    """
    k = np.asarray(linear, dtype=complex)
    w = np.asarray(omega, dtype=float)[..., None, None]
    return np.asarray(k / (1.0 + k * np.asarray(mobility) / (1j * w)), dtype=complex)


def desk_forces(
    force: ArrayLike,
    omega: ArrayLike,
    mass: ArrayLike,
    arms: ArrayLike,
    linear: ArrayLike,
    angular: ArrayLike,
    gravity: ArrayLike,
    mobility: ArrayLike,
) -> Complex:
    """Return the force (..., s, 3) [N] that each foot puts into a desk of given mobility.

    `gravity` (..., 6, 6) from `gravity_stiffness`, zeros for none; the rest as above. The desk
    does not turn under the feet.
    """
    series = on_desk(linear, mobility, omega)
    held = support_matrix(arms, series, angular) + np.asarray(gravity)
    return foot_forces(frame_response(held, mass, omega, force), arms, series)


def desk_insertion_loss(
    force: ArrayLike,
    omega: ArrayLike,
    mass: ArrayLike,
    arms: ArrayLike,
    linear: ArrayLike,
    angular: ArrayLike,
    gravity: ArrayLike,
    mobility: ArrayLike,
) -> Array:
    """Return the insertion loss [dB] of the feet against rigid feet on the same desk.

    Rigid feet are the given ones `RIGID` times stiffer. For one body pushed through its centre of
    mass this is 20·log10|(Y_S + Y_F + Y_D)/(Y_S + Y_D)| with Y_S = 1/(jωm), Y_F = jω/k (Vigran,
    Building Acoustics, eq. 2.43, wave effects in the foot neglected). A resonance of the body on
    the desk itself may make it negative.
    """
    soft = desk_forces(force, omega, mass, arms, linear, angular, gravity, mobility)
    hard = desk_forces(
        force,
        omega,
        mass,
        arms,
        RIGID * np.asarray(linear),
        RIGID * np.asarray(angular),
        gravity,
        mobility,
    )
    return insertion_loss(soft, hard)
