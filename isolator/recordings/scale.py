"""What a reading is worth: as told, as the file says, or as gravity shows."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import refused
from isolator.reading.notes import shown
from isolator.recordings.recording import ACCELERATION, COUNTS, Note
from isolator.recordings.units import ACCELERATIONS, is_raw, worth

NEAR = 0.06
"""By which share a sensor's gravity may be off; common practice for sensors without calibration."""
UNLIKE = 2.0
"""Factor between a file's unit and gravity from which the file is not believed."""
GUESSES = ("m/s^2", "g", "mg", "mm/s^2")


class Scale(NamedTuple):
    """What readings are multiplied by, and what they are then."""

    factor: float
    unit: str
    calibrated: bool
    notes: tuple[Note, ...] = ()


def asked_scale(asked: str, raw: str) -> Scale:
    """Return the scale that the option `--unit` tells; `raw` is the unit of bare readings.

    Raises InputError for what is no acceleration.
    """
    if is_raw(asked):
        return Scale(1.0, raw, False)
    factor = worth(asked)
    if factor is None or factor <= 0.0:
        raise refused(
            COMMAND_LINE,
            "--unit",
            shown(asked),
            "g, mg, m/s^2, mm/s^2 or counts, or what a reading of 1 is worth",
            'write it like --unit g, --unit "0.061 mg" or --unit "1/16384 g"',
        )
    return Scale(factor, ACCELERATION, True)


def find_scale(units: Sequence[str], samples: Array) -> Scale:
    """Return the scale of samples (n, k) whose columns say `units`, empty where they say nothing.

    Three axes at rest show gravity: it decides where the file says nothing or cannot be right.
    """
    told = {unit for unit in units if unit in ACCELERATIONS}
    unit = told.pop() if len(told) == 1 else ""
    by_gravity = _by_gravity(samples)
    if unit:
        factor = ACCELERATIONS[unit]
        if by_gravity and not 1 / UNLIKE < ACCELERATIONS[by_gravity] / factor < UNLIKE:
            return Scale(
                ACCELERATIONS[by_gravity], ACCELERATION, True, (Note(f"unit-is-{by_gravity}"),)
            )
        return Scale(factor, ACCELERATION, True)
    if by_gravity:
        note = Note(f"unit-taken-{by_gravity}")
        return Scale(ACCELERATIONS[by_gravity], ACCELERATION, True, (note,))
    return Scale(1.0, COUNTS, False, (Note("no-unit"),))


def _by_gravity(samples: Array) -> str:
    """Return the unit in which the mean over time of three axes is gravity; empty where none."""
    if samples.shape[1] != 3:
        return ""
    mean = float(np.linalg.norm(np.mean(samples, axis=0)))
    near = [u for u in GUESSES if abs(mean * ACCELERATIONS[u] / G - 1.0) < NEAR]
    return near[0] if len(near) == 1 else ""
