"""The belt drives of a printer: which motor turns what, how stiffly, with what loss."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from isolator.brief import Motion, Motor
from isolator.physics.arrays import Array
from isolator.physics.drive import stepper
from isolator.physics.drive.chain import Carriage, Drive

AXES = {"x": np.array([1.0, 0.0, 0.0]), "y": np.array([0.0, 1.0, 0.0]), "z": np.array([0, 0, 1.0])}
MAGNETIC_LOSS = 0.2
"""Loss factor of the field that holds a rotor: eddy currents, friction, the driver; estimated."""
BELT_LOSS = 0.05
"""Loss factor of a toothed belt with glass or steel cords; estimated."""
_PULLS = {"crossed-belt": ((1.0, 1.0), (1.0, -1.0))}
_OWN_AXIS = ((1.0, 0.0), (0.0, 1.0))


def travel_per_turn(motion: Motion) -> float:
    """Return how far the belt moves in one motor turn [m]."""
    return motion.belt_pitch * motion.pulley_teeth


def moved_masses(motion: Motion) -> tuple[float, float]:
    """Return the masses [kg] that a move along x and along y accelerates."""
    if motion.layout == "moving-bed":
        return motion.tool_mass, motion.bed_mass
    return motion.tool_mass, motion.tool_mass + motion.gantry_mass


def move_points(motion: Motion) -> tuple[Array, Array]:
    """Return the points (3,) [m] where moves along x and along y push the frame."""
    tool = np.array([0.0, 0.0, motion.gantry_height])
    bed = np.array([0.0, 0.0, motion.bed_height])
    return tool, bed if motion.layout == "moving-bed" else tool


def belt_motors(motion: Motion, motors: Sequence[Motor]) -> tuple[tuple[int, Motor], ...]:
    """Return (belt index, motor) for the motors that drive a belt: 0 is A or x, 1 is B or y.

    On a crossed-belt machine motors count in their order; elsewhere by the axis they drive.
    """
    if motion.layout == "crossed-belt":
        return tuple(enumerate(motors[:2]))
    return tuple((0 if motor.drives == "x" else 1, motor) for motor in motors)


def field_stiffness(motion: Motion, motor: Motor) -> float:
    """Return how stiffly the field holds a motor's rotor at the current set [N·m/rad]."""
    return float(
        stepper.magnetic_stiffness(
            motor.holding_torque, motion.steps_per_turn, motor.current / motor.rated_current
        )
    )


def build_drives(motion: Motion, belts: Sequence[tuple[int, Motor]]) -> tuple[Drive, ...]:
    """Return the drive of every motor of `belts` (belt, motor), with its losses."""
    pulls = _PULLS.get(motion.layout, _OWN_AXIS)
    return tuple(
        Drive(
            axis=AXES[motor.axis] * float(motor.points),
            rotor_inertia=motor.rotor_inertia,
            magnetic_stiffness=(1.0 + 1j * MAGNETIC_LOSS) * field_stiffness(motion, motor),
            pulley_radius=travel_per_turn(motion) / math.tau,
            belt_stiffness=(1.0 + 1j * BELT_LOSS) * motion.belt_stiffness,
            pulls=np.array(pulls[belt]),
        )
        for belt, motor in belts
    )


def build_carriage(motion: Motion) -> Carriage:
    """Return what the belts move, along x and along y."""
    return Carriage(masses=np.array(moved_masses(motion)), points=np.array(move_points(motion)))
