"""The motor's six modes on its damper, the frame held still."""

from __future__ import annotations

import numpy as np

from isolator.brief import Motor
from isolator.design.faceplates import FACEPLATES
from isolator.motors.choose import Damper
from isolator.motors.results import DamperMode
from isolator.physics.arrays import Array
from isolator.physics.bodies.rigid import (
    mass_matrix,
    match_modes,
    mode_names,
    modes,
    support_matrix,
)
from isolator.physics.rubber.viscoelastic import dynamic_factor
from isolator.vibration.band import Band
from isolator.vibration.pieces import box_inertia

STEPS = 12
"""Fixed-point steps for stiffness at each mode's own frequency; each at least halves the error."""


def damper_modes(motor: Motor, damper: Damper) -> tuple[DamperMode, ...]:
    """Return the modes with their bands, ascending by nominal frequency.

    Axes of the motor: z along its shaft, so that "bounce" is along the shaft and "twist" about
    it. The rotor counts as locked; the belt is left out, which lowers the modes that move the
    motor along the pull.
    """
    side = FACEPLATES[motor.frame_size].body
    mass = mass_matrix(motor.mass, box_inertia(motor.mass, (side, side, motor.body_length)))
    nominal, shapes = _modes(motor, damper, mass, 1.0)
    names = mode_names(shapes, mass)
    bands: dict[str, list[float]] = {
        name: [each] for name, each in zip(names, nominal, strict=True)
    }
    for factor in damper.ends:
        found, turned = _modes(motor, damper, mass, factor)
        for index, each in zip(match_modes(turned, shapes, mass), found, strict=True):
            bands[names[index]].append(float(each))
    return tuple(
        DamperMode(
            name=name,
            frequency=Band(low=min(bands[name]), nominal=float(each), high=max(bands[name])),
        )
        for name, each in zip(names, nominal, strict=True)
    )


def _modes(motor: Motor, damper: Damper, mass: Array, factor: float) -> tuple[Array, Array]:
    """Return frequencies (6,) [Hz] and shapes (6, 6), stiffness at each mode's own frequency."""
    offered, card = damper.offered, damper.offered.material
    out = motor.body_length / 2.0 + damper.plates.motor + float(offered.rubber[0]) / 2.0
    shear, axial = float(offered.shear[0]), float(offered.axial[0])
    tilt, twist = float(offered.tilt[0]), float(offered.twist[0])
    static = support_matrix(
        np.array([[0.0, 0.0, out]]),
        np.array([[shear, shear, axial]]),
        np.array([[tilt, tilt, twist]]),
    )
    frequency, shapes = np.full(6, card.reference_frequency), np.eye(6)
    for _ in range(STEPS):
        rise = dynamic_factor(
            frequency, card.reference_frequency, card.dynamic_ratio.value, card.loss_factor.value
        )
        found, vectors = modes(factor * rise[:, None, None] * static, mass)
        frequency = found[range(6), range(6)]
        shapes = vectors[range(6), :, range(6)].T
    return frequency, shapes
