"""How much lower belt and carriage ring once a motor gives way on its damper."""

from __future__ import annotations

import math

from isolator.brief import Motor
from isolator.motors.candidates import DamperBatch
from isolator.motors.plates import Plates
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.physics.drive.belts import held_belt_resonance, softened_stiffness


def ring(task: MotorTask, motor: Motor, stiffness: Array | float) -> Array:
    """Return the resonance (...) [Hz] of belt and carriage, rotor held, on belts of `stiffness`
    (...) [N/m].

    All belts that hold what moves count, those of two motors on one axis too.
    """
    crossed = task.motion.layout == "crossed-belt"
    # two crossed belts hold what moves together; the heavier axis resonates lower
    axis = 0 if motor.drives == "x" else 1
    own = sum(belt == axis for belt, _ in task.belts)
    belts, mass = (2.0, max(task.masses)) if crossed else (float(max(own, 1)), task.masses[axis])
    return held_belt_resonance(belts * stiffness, mass)


def softened(
    task: MotorTask, motor: Motor, offered: DamperBatch, plates: Plates, stack: Array
) -> Array:
    """Return the stiffness (n,) [N/m] of a belt with its motor on n dampers, `stack` (n,) high [m].

    The tool close to the motor, which is the worst.
    """
    to_belt = motor.pulley_standoff + motor.belt_offset + stack
    return softened_stiffness(
        task.motion.belt_stiffness,
        task.travel / math.tau,
        offered.twist,
        offered.shear,
        offered.tilt,
        to_belt - plates.motor - offered.rubber / 2.0,
    )


def ring_left(
    task: MotorTask, motor: Motor, offered: DamperBatch, plates: Plates, stack: Array
) -> Array:
    """Return what is left of the resonance on n dampers, as a share of today's (n,)."""
    after = ring(task, motor, softened(task, motor, offered, plates, stack))
    return after / ring(task, motor, task.motion.belt_stiffness)
