"""The motors' lines in each step of the test moves: where a recording should have them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np

from isolator.brief import Motion
from isolator.measuring.beats import STILL
from isolator.measuring.energies import Key
from isolator.physics.drive.stepper import belt_factors
from isolator.vibration.excitation import motor_lines


class Tone(NamedTuple):
    """A line of the motors, of the belt that runs at `factor` times the tool's speed."""

    source: str
    frequency: float  # [Hz]
    factor: float


def belts_of(motion: Motion, direction_deg: float) -> tuple[float, ...]:
    """Return how fast the belts run against the tool, those that run, each speed once."""
    factors = belt_factors(motion.layout, np.radians(direction_deg))
    return tuple(dict.fromkeys(round(float(each), 9) for each in factors if each > STILL))


def tones_of(
    motion: Motion, keys: Iterable[Key], band: tuple[float, float]
) -> dict[Key, tuple[Tone, ...]]:
    """Return the lines in a band [Hz] of every step, by speed and direction."""
    low, high = band
    return {
        (speed, direction): tuple(
            Tone(source, line, factor)
            for factor in belts_of(motion, direction)
            for source, line in motor_lines(motion, speed * factor).items()
            if low <= line <= high
        )
        for speed, direction in keys
    }
