"""Forced response of rigid bodies on feet, written apart from the product, to check it by.

Time factor e^{+jωt}. Complex stiffness k(1 + jη), or k + jωc for viscous damping: what is given
is taken as it acts at the frequency asked. Forces are generalised: (Fx, Fy, Fz, Mx, My, Mz) on the
centre of mass. Moments that feet pass on by their tilt and twist stiffness are not in foot forces.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Complex
from isolator.physics.bodies.rigid import cross_matrix, support_matrix


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


def rigid_shares(
    force: ArrayLike, arms: ArrayLike, linear: ArrayLike, angular: ArrayLike
) -> Complex:
    """Return the foot forces (..., s, 3) [N] of rigid feet on a rigid floor.

    The limit of the given feet as all their stiffnesses grow by one factor: the load is shared
    as by the feet given, inertia and gravity drop out.
    """
    held = support_matrix(arms, linear, angular)
    return foot_forces(frame_response(held, np.zeros((6, 6)), 0.0, force), arms, linear)
