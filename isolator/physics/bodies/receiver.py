"""What the feet stand on: plates, their point mobility and modes, and what isolation is left."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]


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


def edge_mobility(bending: ArrayLike, mass_per_area: ArrayLike) -> Array:
    """Return the mobility 1/(3.5√(B·m″)) [m/(N·s)] at the free edge of a half-infinite plate.

    Cremer, Heckl & Petersson, Structure-Borne Sound, ch. 5; 3.5 is rounded there.
    """
    return np.asarray(1.0 / (3.5 * np.sqrt(np.asarray(bending) * np.asarray(mass_per_area))))


def mass_spring_mobility(mass: ArrayLike, stiffness: ArrayLike, omega: ArrayLike) -> NDArray[Any]:
    """Return the mobility [m/(N·s)] of a desk that moves as one mass on a (complex) spring.

    `mass` [kg], `stiffness` [N/m], `omega` [rad/s]: Y = jω/(k − ω²m).
    """
    w = np.asarray(omega, dtype=float)
    return np.asarray(1j * w / (np.asarray(stiffness) - w**2 * np.asarray(mass)))


def supported_plate_modes(
    bending: float, mass_per_area: float, length: float, width: float, count: int
) -> Array:
    """Return the lowest `count` natural frequencies [Hz] of a plate simply supported all round.

    f = (π/2)·√(B/m″)·((p/a)² + (q/b)²), p, q = 1, 2, …; `length`, `width` [m].
    """
    order = np.arange(1, count + 1)
    waves = (order[:, None] / length) ** 2 + (order[None, :] / width) ** 2
    found = np.sort(waves.ravel())[:count]
    return np.asarray(np.pi / 2 * np.sqrt(bending / mass_per_area) * found)


def effectiveness(source: ArrayLike, isolator: ArrayLike, receiver: ArrayLike) -> Array:
    """Return |(Y_S + Y_I + Y_R)/(Y_S + Y_R)|, by how much an isolator quietens one contact.

    Complex mobilities [m/(N·s)] of source, isolator and receiver; isolator without mass. Vigran,
    Building Acoustics, eq. 2.43.
    """
    rigid = np.asarray(source) + np.asarray(receiver)
    return np.asarray(np.abs((rigid + np.asarray(isolator)) / rigid))
