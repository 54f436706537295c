"""What the feet stand on: the bending stiffness and point mobility of a plate."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def bending_stiffness(modulus: ArrayLike, thickness: ArrayLike, poisson: ArrayLike) -> Array:
    """Return B = E·h³/(12(1 − ν²)) [N·m] of a plate; E [Pa], h [m]."""
    h = np.asarray(thickness, dtype=float)
    return np.asarray(np.asarray(modulus) * h**3 / (12 * (1 - np.square(poisson))))


def point_mobility(bending: ArrayLike, mass_per_area: ArrayLike) -> Array:
    """Return the driving-point mobility 1/(8√(B·m″)) [m/(N·s)] of an infinite thin plate.

    `bending` [N·m], `mass_per_area` [kg/m²]. Real, the same at all frequencies; a finite desk
    swings about it, by its modes, with the frequency average near it. Cremer, Heckl & Petersson,
    Structure-Borne Sound, ch. 5.
    """
    return np.asarray(1.0 / (8.0 * np.sqrt(np.asarray(bending) * np.asarray(mass_per_area))))
