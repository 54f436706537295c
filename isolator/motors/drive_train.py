"""The drone tones of a belt motor, means over all directions of a move, and its body."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.brief import Motion, Motor
from isolator.design.faceplates import FACEPLATES
from isolator.physics.arrays import Array
from isolator.vibration import directions
from isolator.vibration.excitation import motor_lines
from isolator.vibration.pieces import box_inertia
from isolator.vibration.verdict import LISTENED


@dataclass(frozen=True, slots=True, kw_only=True)
class Tones:
    """Tones of one motor that are heard as drone, at all print speeds.

    Over the directions of a move each runs from zero to its top frequency: what is told of it is a
    mean of energies over them.
    """

    source: tuple[str, ...]
    speed: Array  # (k,) [m/s]
    frequency: Array  # (k,) of a belt as fast as the tool, as along an axis [Hz]


def body_of(motor: Motor) -> Array:
    """Return a motor's inertia (3, 3) [kg·m²] about its centre, as a uniform box."""
    side = FACEPLATES[motor.frame_size].body
    size = [side, side, side]
    size["xyz".index(motor.axis)] = motor.body_length
    return box_inertia(motor.mass, (size[0], size[1], size[2]))


def shaft_inertia(motor: Motor) -> float:
    """Return a motor's inertia [kg·m²] about its shaft, the rotor locked."""
    return float(body_of(motor)["xyz".index(motor.axis), "xyz".index(motor.axis)])


def tones_of(motion: Motion) -> Tones:
    """Return the drone tones of a belt motor for every print speed."""
    rows = [
        (source, speed, motor_lines(motion, speed)[source])
        for speed in motion.speeds
        for source in LISTENED
    ]
    sources, speeds, frequencies = zip(*rows, strict=True)
    return Tones(source=sources, speed=np.array(speeds), frequency=np.array(frequencies))


def mean_weights(motion: Motion, belt: int, lines: Sequence[float], grid: Array) -> Array:
    """Return weights (f, k) over `grid` (f,) that make the mean of each of `lines` [Hz].

    Over all directions of a move, or those that the brief names.
    """
    angles = motion.infill_angles
    columns = [
        directions.mean_weights(motion.layout, belt, float(line), grid, angles) for line in lines
    ]
    return np.stack(columns, axis=-1)
