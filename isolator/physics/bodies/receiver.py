"""What the feet stand on: the bending stiffness and point mobility of a plate."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def bending_stiffness(
    modulus: ArrayLike, thickness: ArrayLike, poisson: ArrayLike, skin: ArrayLike = 0.0
) -> Array:
    """Return B = E·h³/(12(1 − ν²)) [N·m] of a plate; E [Pa], h [m].

    With a `skin` [m] the board is hollow: two skins over a core that holds them apart and bears
    nothing itself, E·(h³ − (h − 2·skin)³)/(12(1 − ν²)). The core's give in shear is left out.
    """
    h, core = np.asarray(thickness, dtype=float), _core(thickness, skin)
    return np.asarray(np.asarray(modulus) * (h**3 - core**3) / (12 * (1 - np.square(poisson))))


def mass_per_area(
    density: ArrayLike, thickness: ArrayLike, skin: ArrayLike = 0.0, filling: ArrayLike = 0.0
) -> Array:
    """Return m″ [kg/m²] of a solid board, or of two skins over a core of density `filling`."""
    core = _core(thickness, skin)
    return np.asarray(
        np.asarray(density) * (np.asarray(thickness) - core) + np.asarray(filling) * core
    )


def _core(thickness: ArrayLike, skin: ArrayLike) -> Array:
    """Return how thick a core is [m]; 0 in a solid board."""
    h, wall = np.asarray(thickness, dtype=float), np.asarray(skin, dtype=float)
    return np.where(wall > 0.0, np.maximum(h - 2.0 * wall, 0.0), 0.0)


def point_mobility(bending: ArrayLike, mass_per_area: ArrayLike) -> Array:
    """Return the driving-point mobility 1/(8√(B·m″)) [m/(N·s)] of an infinite thin plate.

    `bending` [N·m], `mass_per_area` [kg/m²]. Real, the same at all frequencies; a finite desk
    swings about it, by its modes, with the frequency average near it. Cremer, Heckl & Petersson,
    Structure-Borne Sound, ch. 5.
    """
    return np.asarray(1.0 / (8.0 * np.sqrt(np.asarray(bending) * np.asarray(mass_per_area))))
