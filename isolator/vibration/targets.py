"""What the feet are asked for: every mode well below the motors' lowest drone line."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.brief import Motion
from isolator.physics.drive import stepper
from isolator.vibration.excitation import DIRECTIONS, motor_lines


def axis_line(motion: Motion, belt_speed: float) -> float:
    """Return the electrical frequency [Hz] of a motor whose belt runs at `belt_speed` [m/s]."""
    return motor_lines(motion, belt_speed)["electrical"]


def electrical_line(motion: Motion, speed: float) -> float:
    """Return the lowest electrical frequency [Hz] at `speed` [m/s], moves along axes and diagonal.

    A motor of its own for each axis turns slowest on the diagonal; on crossed belts one motor then
    stands still and makes no line. Between these directions a motor may turn slower still: see
    `isolator.vibration.lines`, which sweeps them all.
    """
    belts = [
        belt
        for angle in DIRECTIONS
        for belt in stepper.belt_speeds(motion.layout, 1.0, math.radians(angle))
        if belt > 1e-9
    ]
    return axis_line(motion, speed * min(belts))


def mode_limit(line: float) -> float:
    """Return what every mode must stay below to isolate a line at `line` [Hz]."""
    return line / math.sqrt(2.0)


def slowest_limit(motion: Motion, speeds: Sequence[float] = ()) -> float:
    """Return what every mode is asked to lie below [Hz], for the slowest of `speeds` [m/s].

    Without any, of the brief's own.
    """
    return mode_limit(electrical_line(motion, min(speeds or motion.speeds)))
