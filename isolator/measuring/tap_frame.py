"""The frame's own frequencies: tapped on a printer that stands hard, or scaled from the model."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from isolator.measuring.tapped import TappedMode
from isolator.physics.arrays import Array
from isolator.physics.bodies.frame import BENT_NAMES
from isolator.vibration.band import Band
from isolator.vibration.bending import Bending

HARD_NAMES = BENT_NAMES[-3:]
"""Of the modes of a printer that stands hard, in the order of `hard_modes`."""
LOOKED = 4
"""Lowest modes among which those of the frame are."""


def held_frequencies(bending: Bending) -> Array:
    """Return the frequencies (3,) [Hz] along x, y and in twist of a top whose base is held."""
    top = bending.top
    moved = np.array([top.mass, top.mass, top.inertia[2, 2]])
    return np.asarray(np.sqrt(bending.stiffness / moved) / (2.0 * math.pi))


def hard_modes(modes: Sequence[TappedMode], channels: Sequence[str]) -> tuple[TappedMode, ...]:
    """Return the modes along x, along y and in twist of a printer tapped standing hard.

    The lowest that moves more along x than y, the lowest that moves more along y, and the next;
    none where one of the first two is not there, or channels do not name x and y. What moves most
    along z is none of the frame's.
    """
    if not {"x", "y"} <= set(channels):
        return ()
    at_x, at_y = channels.index("x"), channels.index("y")
    lowest = [mode for mode in modes[:LOOKED] if _level(mode, channels)]
    along_x = [m for m in lowest if abs(m.shape[at_x]) >= abs(m.shape[at_y])]
    along_y = [m for m in lowest if abs(m.shape[at_y]) > abs(m.shape[at_x])]
    if not along_x or not along_y:
        return ()
    first, second = along_x[0], along_y[0]
    above = max(first.frequency.nominal, second.frequency.nominal)
    twist = [m for m in lowest if m.frequency.nominal > above]
    return (first, second, *twist[:1])


def _level(mode: TappedMode, channels: Sequence[str]) -> bool:
    """Return whether a mode with a size in each channel moves more along x or y than along z."""
    if len(mode.shape) != len(channels):
        return False
    size = dict(zip(channels, np.abs(mode.shape), strict=True))
    return bool(size.get("z", 0.0) < max(size["x"], size["y"]))


def scaled(value: float, by: Band) -> Band:
    """Return a value times a factor with its band, in the unit of the value."""
    return Band(low=value * by.low, nominal=value * by.nominal, high=value * by.high)
