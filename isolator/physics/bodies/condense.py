"""A structure above the feet, seen from the feet: dynamic stiffness and blocked force.

The first six coordinates are the motion of the body that stands on the feet; all others are inner
ones. With K − ω²M split into u (kept) and q (inner), the inner coordinates follow from their own
rows, and what is left is (K_feet + D) u = b with

    D = D_uu − D_uq·D_qq⁻¹·D_qu,    b = p_u − D_uq·D_qq⁻¹·p_q.

D is the dynamic stiffness of the free structure at its six coordinates, b the force that it would
exert on supports that do not give way (blocked force, ISO 20270). [derived]
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Complex

KEPT = 6


class Condensed(NamedTuple):
    """What is left of a structure at its six kept coordinates."""

    dynamic: Complex  # (..., 6, 6) [N/m, N, N·m/rad]
    blocked: Complex  # (..., 6, p) force and moment of p sources


def condense(stiffness: ArrayLike, mass: ArrayLike, omega: ArrayLike, push: ArrayLike) -> Condensed:
    """Return dynamic stiffness and blocked force at the first six coordinates.

    `stiffness`, `mass` (..., N, N), N ≥ 6, symmetric, real or complex; `omega` (...) [rad/s];
    `push` (..., N, p) harmonic forces of p sources on all coordinates. Leading dimensions
    broadcast. Raises LinAlgError where an inner coordinate is free of both mass and stiffness.
    """
    w = np.asarray(omega, dtype=float)[..., None, None]
    whole = np.asarray(stiffness, dtype=complex) - w**2 * np.asarray(mass)
    right = np.asarray(push, dtype=complex)
    kept, forced = whole[..., :KEPT, :KEPT], right[..., :KEPT, :]
    if whole.shape[-1] == KEPT:
        return Condensed(kept, np.broadcast_to(forced, (*kept.shape[:-1], right.shape[-1])))
    across = whole[..., KEPT:, :KEPT]
    lead = whole.shape[:-2]
    inner = np.broadcast_to(right[..., KEPT:, :], (*lead, *right[..., KEPT:, :].shape[-2:]))
    solved = np.linalg.solve(whole[..., KEPT:, KEPT:], np.concatenate([across, inner], axis=-1))
    passed = np.swapaxes(across, -1, -2) @ solved
    return Condensed(kept - passed[..., :KEPT], forced - passed[..., KEPT:])
