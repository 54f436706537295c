"""What the feet are asked for: every mode well below the motors' lowest drone line."""

from __future__ import annotations

import math

from isolator.brief import Brief
from isolator.physics import stepper
from isolator.shakers import DIRECTIONS, travel_per_turn


def electrical_line(brief: Brief, speed: float) -> float:
    """Return the lowest electrical frequency [Hz] at `speed` [m/s] over all directions told.

    A motor of its own for each axis turns slowest on a diagonal; on crossed belts one motor then
    stands still and makes no line.
    """
    motion = brief.motion
    belts = [
        belt
        for angle in DIRECTIONS
        for belt in stepper.belt_speeds(motion.layout, 1.0, math.radians(angle))
        if belt > 1e-9
    ]
    turns = stepper.lines(
        speed * min(belts), travel_per_turn(brief), motion.pulley_teeth, motion.steps_per_turn,
        motion.microsteps,
    )  # fmt: skip
    return turns["electrical"]


def mode_limit(line: float) -> float:
    """Return what every mode must stay below to isolate a line at `line` [Hz]."""
    return line / math.sqrt(2.0)
