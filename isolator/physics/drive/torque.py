"""What a stepper motor can pull at a current and a speed, and what a move asks of it. Estimates."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array


def torque_at_current(holding: ArrayLike, current: ArrayLike, rated: ArrayLike) -> Array:
    """Return the peak torque [N·m] with sine currents of peak `current` [A].

    T_h/√2·I/I_rated: `holding` torque T_h [N·m] is told with both windings at `rated` current [A],
    and one winding alone gives 1/√2 of it. Straight in the current: true below saturation.

    >>> round(float(torque_at_current(0.42, 1.1, 1.5)), 4)
    0.2178
    """
    share = np.asarray(current, dtype=float) / np.asarray(rated)
    return np.asarray(np.asarray(holding) / np.sqrt(2.0) * share)


def torque_at_speed(
    holding: ArrayLike,
    rated: ArrayLike,
    current: ArrayLike,
    resistance: ArrayLike,
    inductance: ArrayLike,
    voltage: ArrayLike,
    turns: ArrayLike,
    steps_per_turn: ArrayLike,
) -> Array:
    """Return the peak torque [N·m] that current and supply allow at `turns` [1/s].

    K = (T_h/√2)/I_rated [N·m/A, V·s/rad], back-emf E = K·2π·turns, ω_e = 2π·turns·N/4. The
    largest current in phase with the back-emf solves (R·I + E)² + (ω_e·L·I)² = V²; the `current`
    that is set [A] bounds it. `resistance` [Ω], `inductance` [H] of a winding, `voltage` [V].
    Sine currents in phase with the emf, no losses in the driver: an estimate.

    >>> [round(float(torque_at_speed(0.4, 1.5, 1.2, 2.0, 3e-3, 24.0, n, 200)), 3)
    ...  for n in (1.0, 8.0, 20.0)]
    [0.226, 0.226, 0.02]
    """
    k = np.asarray(holding, dtype=float) / np.sqrt(2.0) / np.asarray(rated)
    omega = 2.0 * np.pi * np.asarray(turns, dtype=float)
    emf, r, v = k * omega, np.asarray(resistance, dtype=float), np.asarray(voltage, dtype=float)
    reactance = omega * np.asarray(steps_per_turn) / 4.0 * np.asarray(inductance)
    square = r**2 + reactance**2
    room = np.maximum((r * emf) ** 2 - square * (emf**2 - v**2), 0.0)
    most = np.where(emf < v, (np.sqrt(room) - r * emf) / square, 0.0)
    return np.asarray(k * np.minimum(np.maximum(most, 0.0), np.asarray(current)))


def needed_torque(
    acceleration: ArrayLike, mass: ArrayLike, rotor_inertia: ArrayLike, radius: ArrayLike
) -> Array:
    """Return the torque [N·m] that accelerates rotor and mass on a belt of their own.

    J·a/r + m·a·r; `acceleration` a [m/s²], `mass` m [kg], `rotor_inertia` J [kg·m²] with its
    pulley, `radius` r [m]. Friction is left out.

    >>> round(float(needed_torque(2.5, 0.75, 54e-7, 6.37e-3)), 5)
    0.01406
    """
    a, r = np.asarray(acceleration, dtype=float), np.asarray(radius)
    return np.asarray(np.asarray(rotor_inertia) * a / r + np.asarray(mass) * a * r)


def needed_crossed(
    acceleration: float, masses: tuple[float, float], rotor_inertia: float, radius: float
) -> float:
    """Return the largest torque [N·m] of one motor of two crossed belts over all directions.

    Belt A pulls with (m_x·a_x + m_y·a_y)/2 and its rotor turns with (a_x + a_y)/r; `masses`
    (m_x, m_y) [kg] move along x and y. The largest of A·cos φ + B·sin φ is its norm. [derived]

    >>> round(needed_crossed(2.5, (0.35, 0.75), 54e-7, 6.37e-3), 5)
    0.00946
    """
    along = [rotor_inertia / radius + mass * radius / 2.0 for mass in masses]
    return float(acceleration * np.hypot(along[0], along[1]))


def reference_voltage(current: ArrayLike, resistor: ArrayLike, gain: ArrayLike) -> NDArray[Any]:
    """Return the current-setting voltage [V]: peak current × current shunt × gain.

    `current` [A] peak, `resistor` [Ω], `gain` of the driver between the resistor's peak voltage
    and its reference, from the driver's own data sheet.

    >>> round(float(reference_voltage(1.1, 0.11, 2.5)), 4)
    0.3025
    """
    return np.asarray(np.asarray(current) * np.asarray(resistor) * np.asarray(gain))
