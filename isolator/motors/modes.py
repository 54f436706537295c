"""The motor's six modes on its damper, the frame held still."""

from __future__ import annotations

import numpy as np

from isolator.brief import Motor
from isolator.design.faceplates import FACEPLATES
from isolator.motors.mount import Damper
from isolator.motors.results import DamperMode
from isolator.physics.arrays import Array
from isolator.physics.bodies.rigid import mass_matrix, mode_names, modes, support_matrix
from isolator.physics.rubber.viscoelastic import dynamic_factor
from isolator.vibration.pieces import box_inertia
from isolator.vibration.sampled import sample_band

STEPS = 12
"""Fixed-point steps for stiffness at each mode's own frequency; each at least halves the error."""


def damper_modes(motor: Motor, damper: Damper) -> tuple[DamperMode, ...]:
    """Return the modes with their bands over samples, ascending by nominal frequency."""
    return tuple(
        DamperMode(name=name, frequency=sample_band(each))
        for name, each in mode_frequencies(motor, damper).items()
    )


def mode_frequencies(motor: Motor, damper: Damper) -> dict[str, Array]:
    """Return each mode's frequency (n,) [Hz] in samples, by its name, ascending.

    Axes of the motor: z along its shaft, so that "bounce" is along the shaft and "twist" about
    it. The rotor counts as locked; the belt is left out, which lowers the modes that move the
    motor along the pull. All of the rubber's stiffness rises alike with frequency, so the shapes
    are those of its static stiffness.
    """
    side = FACEPLATES[motor.frame_size].body
    mass = mass_matrix(motor.mass, box_inertia(motor.mass, (side, side, motor.body_length)))
    still, shapes = modes(_static(motor, damper), mass)
    card, (static, ratio, loss) = damper.offered.material, (each[:, None] for each in damper.rubber)
    frequency = np.full((len(static), 6), card.reference_frequency)
    for _ in range(STEPS):
        rise = dynamic_factor(
            frequency,
            card.reference_frequency,
            ratio * card.dynamic_ratio.value,
            loss * card.loss_factor.value,
        )
        frequency = still * np.sqrt(static * rise)
    return dict(zip(mode_names(shapes, mass), frequency.T, strict=True))


def _static(motor: Motor, damper: Damper) -> Array:
    """Return the static stiffness (6, 6) about the motor's centre."""
    offered = damper.offered
    out = motor.body_length / 2.0 + damper.plates.motor + float(offered.rubber[0]) / 2.0
    shear, axial = float(offered.shear[0]), float(offered.axial[0])
    tilt, twist = float(offered.tilt[0]), float(offered.twist[0])
    return support_matrix(
        np.array([[0.0, 0.0, out]]),
        np.array([[shear, shear, axial]]),
        np.array([[tilt, tilt, twist]]),
    )
