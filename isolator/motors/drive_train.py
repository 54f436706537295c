"""The belt motors as the chain of bodies takes them."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from isolator.brief import Motion, Motor
from isolator.design.faceplates import FACEPLATES
from isolator.physics.arrays import Array
from isolator.physics.drive import stepper
from isolator.vibration.excitation import DIRECTIONS, ripple_share
from isolator.vibration.pieces import box_inertia
from isolator.vibration.verdict import LISTENED


@dataclass(frozen=True, slots=True, kw_only=True)
class Tones:
    """Tones of one motor that are heard as drone, over all print speeds and directions."""

    source: tuple[str, ...]
    frequency: Array  # (f,) [Hz]
    speed: Array  # (f,) [m/s]
    direction: Array  # (f,) [°]
    torque: Array  # (f,) ripple [N·m]; estimated, losses do not depend on it


def body_of(motor: Motor) -> Array:
    """Return a motor's inertia (3, 3) [kg·m²] about its centre, as a uniform box."""
    side = FACEPLATES[motor.frame_size].body
    size = [side, side, side]
    size["xyz".index(motor.axis)] = motor.body_length
    return box_inertia(motor.mass, (size[0], size[1], size[2]))


def tones_of(motion: Motion, travel: float, belt: int, motor: Motor) -> Tones:
    """Return a motor's drone lines for every print speed and direction in which it turns.

    `travel` [m] of its belt in one turn.
    """
    rows = []
    for speed in motion.speeds:
        for direction in DIRECTIONS:
            turned = stepper.belt_speeds(motion.layout, speed, math.radians(direction))[belt]
            if turned < 1e-9:
                continue
            lines = stepper.lines(
                turned, travel, motion.pulley_teeth, motion.steps_per_turn, motion.microsteps
            )
            for source in LISTENED:
                torque = ripple_share(source, motion.microsteps) * motor.holding_torque
                rows.append((source, lines[source], speed, direction, torque))
    sources, *numbers = zip(*rows, strict=True)
    frequency, speeds, directions, torques = (np.array(each) for each in numbers)
    return Tones(
        source=tuple(sources),
        frequency=frequency,
        speed=speeds,
        direction=directions,
        torque=torques,
    )
