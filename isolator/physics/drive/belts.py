"""Belts: tension of a plucked span, pull on a shaft, stiffness in series with a motor's damper."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array


def tension_of_span(length: ArrayLike, frequency: ArrayLike, line_mass: ArrayLike) -> Array:
    """Return the tension [N] of a span that sounds at `frequency` [Hz] when plucked: 4·µ·L²·f².

    `length` L [m] between the points where the belt leaves its pulleys, `line_mass` µ [kg/m].
    A taut string's first mode; the belt's bending stiffness, left out, makes short spans sound
    higher and the tension come out too large. Source: any mechanics textbook.

    >>> round(float(tension_of_span(0.31, 84.0, 0.0084)), 3)
    22.784
    """
    product = np.asarray(length) * np.asarray(frequency)
    return np.asarray(4.0 * np.asarray(line_mass) * product**2)


def shaft_pull(tension: ArrayLike, wrap: ArrayLike) -> Array:
    """Return the pull [N] of both strands on a shaft, 2·T·sin(wrap/2).

    `tension` T [N] of one strand, `wrap` [rad] of the belt round its pulley.

    >>> round(float(shaft_pull(21.0, 2.5)), 3)
    39.857
    """
    return np.asarray(2.0 * np.asarray(tension) * np.sin(np.asarray(wrap) / 2.0))


def held_belt_resonance(belt_stiffness: ArrayLike, mass: ArrayLike) -> Array:
    """Return the belt–carriage resonance [Hz] with rotors and frame held still.

    `belt_stiffness` [N/m] of all belts that hold `mass` [kg], real or complex.

    >>> round(float(held_belt_resonance(2 * 60e3, 1.34)), 1)
    47.6
    """
    k = np.real(np.asarray(belt_stiffness))
    return np.asarray(np.sqrt(k / np.asarray(mass)) / (2 * np.pi))


def softened_stiffness(
    belt_stiffness: ArrayLike,
    radius: ArrayLike,
    twist: ArrayLike,
    shear: ArrayLike,
    tilt: ArrayLike,
    arm: ArrayLike,
) -> NDArray[Any]:
    """Return a belt's stiffness [N/m] with a motor that gives way on its damper.

    1/k = 1/k_b + r²/k_twist + 1/k_shear + arm²/k_tilt: `belt_stiffness` k_b [N/m], pulley
    `radius` r [m], the damper's `twist` and `tilt` [N·m/rad] and `shear` [N/m], `arm` [m] from
    the rubber's middle to the belt. The worst case, a tool close to the motor whose short strand
    takes the whole pull; where both strands share it, shift and tilt fall out, as the loop alone
    feels them. [derived]

    >>> round(float(softened_stiffness(60e3, 6.4e-3, 25.0, 150e3, 70.0, 0.021)))
    31978
    """
    give = (
        1.0 / np.asarray(belt_stiffness)
        + np.asarray(radius) ** 2 / np.asarray(twist)
        + 1.0 / np.asarray(shear)
        + np.asarray(arm) ** 2 / np.asarray(tilt)
    )
    return np.asarray(1.0 / give)
