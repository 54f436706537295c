"""One structure on another: a printer on its own feet on a slab, seen from the slab's six."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.bodies.condense import KEPT, Condensed, condense


def stacked(
    upper: Condensed,
    lower_mass: ArrayLike,
    between: ArrayLike,
    omega: ArrayLike,
    across: ArrayLike = 0.0,
) -> Condensed:
    """Return what is left of `upper` on springs on a rigid body at that body's own six.

    All is taken about one point. `lower_mass` (6, 6) of the body below; `between` (..., 6, 6) the
    springs' dynamic stiffness against motion of one on the other, preload included; `across` (6, 6)
    what the preload couples of the body's motion with that one; `omega` (...) [rad/s].
    Coordinates are the body's u and the motion q of what is above against it, so that above moves
    by u + q; with the springs locked both are one body. What the preload does to u alone belongs to
    the supports below. [derived]
    """
    found, springs = upper.dynamic, np.asarray(between, dtype=complex)
    lead = np.broadcast_shapes(found.shape[:-2], springs.shape[:-2])
    both = np.zeros((*lead, 2 * KEPT, 2 * KEPT), dtype=complex)
    preload = np.broadcast_to(np.asarray(across, dtype=float), (KEPT, KEPT))
    both[..., :KEPT, :KEPT] = found
    both[..., :KEPT, KEPT:] = found + preload
    both[..., KEPT:, :KEPT] = found + preload.T
    both[..., KEPT:, KEPT:] = found + springs
    mass = np.zeros((2 * KEPT, 2 * KEPT))
    mass[:KEPT, :KEPT] = lower_mass
    push = np.concatenate([upper.blocked, upper.blocked], axis=-2)
    return condense(both, mass, omega, push)
