"""Automatic gain: found by the room's level, which then hangs on what was loud before the pause."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from isolator.measuring.steps import SETTLE, Rested
from isolator.physics.arrays import Array
from isolator.physics.signals.pieces import Pieces, pieces
from isolator.recordings.schedule import Step

FRAME = 0.1
"""Of the room's level within a pause [s]."""
LOOKED = 0.7
"""So much of a pause is looked at [s]: gain that came back would stand still behind it."""
Weight = Callable[[Pieces], Array]
FEWEST = 4
"""Frames of a pause for its level to have a slope."""
RISE = 1.0
"""A rise of pauses [dB/s] that is more than a room makes by itself; common practice, no source."""
PLAIN = 4.0
"""Times its standard error."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Stopped:
    """The room's level in one pause, told back to when it began."""

    begin: float  # of the pause, by the schedule [s]
    level: float  # natural logarithm of the energy as the moves stopped
    error: float  # of that
    rise: float  # [dB/s]


@dataclass(frozen=True, slots=True, kw_only=True)
class Gain:
    """What pauses tell of a recorder's gain."""

    stopped: tuple[Stopped, ...]
    rise: float  # mean over pauses [dB/s]
    automatic: bool

    def behind(self, step: Step) -> Stopped | None:
        """Return the pause that follows a step at once, None where none does."""
        near = (each for each in self.stopped if abs(each.begin - step.end) < FRAME)
        return next(near, None)


def gain_of(rests: Sequence[Rested], rate: float, weight: Weight) -> Gain:
    """Return what pauses tell of the gain; `weight` makes energies of spectra."""
    length = max(16, round(FRAME * rate))
    found = []
    for rest in rests:
        samples = rest.samples[: round(LOOKED * rate)]
        if len(samples) < (FEWEST + 1) / 2 * length:
            continue
        level = np.log(np.maximum(weight(pieces(samples, rate, length)), 1e-300))
        time = SETTLE + (np.arange(len(level)) + 1.0) * (length // 2) / rate
        found.append(_stopped(rest.pause.start, np.asarray(time, dtype=float), level))
    if len(found) < FEWEST:
        return Gain(stopped=tuple(found), rise=0.0, automatic=False)
    rises = np.array([each.rise for each in found])
    mean = float(rises.mean())
    error = float(rises.std(ddof=1)) / np.sqrt(len(rises))
    plain = bool(mean > RISE and mean > PLAIN * error)
    return Gain(stopped=tuple(found), rise=mean, automatic=plain)


def _stopped(begin: float, time: Array, level: Array) -> Stopped:
    """Return the level of a pause as it began, by a straight line through it."""
    terms = np.column_stack([np.ones(len(time)), time])
    fitted, *_ = np.linalg.lstsq(terms, level)
    spare = max(len(time) - 2, 1)
    scatter = float(np.sum((level - terms @ fitted) ** 2)) / spare
    error = np.sqrt(scatter * np.linalg.inv(terms.T @ terms)[0, 0])
    slope = float(fitted[1]) * 10.0 / np.log(10.0)
    return Stopped(begin=begin, level=float(fitted[0]), error=float(error), rise=slope)
