"""Heat of a stepper motor and its bracket: two bodies that cool to the room, joined or parted."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

FREE_CONVECTION = 10.0
"""Free convection and radiation together from small warm bodies in a room [W/(m²·K)]; from
memory."""
CONVECTION_SCATTER = 0.3
"""By which share it may be off, either way; from memory."""
RUBBER_CONDUCTIVITY = 0.15
"""Where nothing is known of a rubber [W/(m·K)]: the low end of the 0.15 to 0.35 that tables give
for rubber (EN ISO 10456; CIBSE Guide A)."""
METAL_CONTACT = 1e-4
"""Resistance of two metal faces screwed together, times their area [m²·K/W]; from memory."""


def copper_loss(current: ArrayLike, resistance: ArrayLike) -> Array:
    """Return the loss [W] of two windings with sine currents of peak `current` [A].

    2·(I/√2)²·R = I²R, `resistance` R [Ω] of one winding. Standing, or turning slowly; iron loss
    at speed is left out.

    >>> round(float(copper_loss(1.4, 1.5)), 2)
    2.94
    """
    return np.asarray(np.square(np.asarray(current, dtype=float)) * np.asarray(resistance))


def layer_resistance(thickness: ArrayLike, conductivity: ArrayLike, area: ArrayLike) -> Array:
    """Return the resistance t/(k·A) [K/W] of a flat layer.

    `thickness` [m], `conductivity` [W/(m·K)], `area` [m²]; heat that spreads sideways left out.

    >>> round(float(layer_resistance(3e-3, 0.25, 933.053e-6)), 3)
    12.861
    """
    return np.asarray(np.asarray(thickness) / (np.asarray(conductivity) * np.asarray(area)))


def fin_length(conductivity: ArrayLike, thickness: ArrayLike) -> Array:
    """Return how far heat spreads in a plate that cools on both faces: √(k·t/(2h)) [m].

    `conductivity` k [W/(m·K)], `thickness` t [m], h the free convection. A long plate gives off
    as much as one of this length would that is as warm all over as its foot. Long straight fin,
    any textbook of heat transfer.

    >>> round(float(fin_length(0.2, 5e-3)), 5)
    0.00707
    """
    spread = np.asarray(conductivity) * np.asarray(thickness) / (2.0 * FREE_CONVECTION)
    return np.asarray(np.sqrt(spread))


def two_nodes(
    power: ArrayLike,
    case_conductance: ArrayLike,
    joint_resistance: ArrayLike,
    bracket_conductance: ArrayLike,
    room: ArrayLike,
) -> tuple[Array, Array]:
    """Return the steady temperatures of motor case and bracket [°C].

    `power` [W] is made in the case; case and bracket each cool to the `room` [°C] by their
    conductance h·A [W/K] and are joined by `joint_resistance` [K/W]: the bracket's branch is
    R + 1/(hA). Each body has one temperature; conductances do not rise with it. [derived]

    >>> case, bracket = two_nodes(3.0, 0.08, 5.0, 0.10, 24.0)
    >>> round(float(case), 3), round(float(bracket), 3)
    (44.455, 37.636)
    """
    joint, cooled = np.asarray(joint_resistance, dtype=float), np.asarray(bracket_conductance)
    branch = cooled / (1.0 + joint * cooled)
    rise = np.asarray(power) / (np.asarray(case_conductance) + branch)
    return np.asarray(room + rise), np.asarray(room + rise * branch / cooled)
