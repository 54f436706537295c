"""Whether a recorder turned its gain down at taps: the noise right after one against that before.

Gain that comes back while a body still swings makes its decay longer, and no decay by itself tells
that from less damping. Noise above all that swings is turned down and up with it.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import signal

from isolator.physics.arrays import Array

ABOVE = 0.8
"""Of half the rate: what lies over it is taken as noise."""
ORDER = 6
FRAME = 0.15
"""Over which noise is taken [s]."""
FRAMES = 6
"""That are looked at after a tap."""
CLEAR = 0.05
"""That is left out before a tap and after its contact [s]: the filter rings there."""
FEWEST = 3
"""Taps from which a drop is told."""
DROP = 1.25
"""Factor by which noise has to drop; common practice, no source."""
PLAIN = 3.0
"""Standard errors by which it has to."""
SLOW_DROP = 1.0 / 1.5
"""Of the quiet after a decay over that before its tap; common practice."""
BACK = 0.8
"""Of the noise before: there the gain has come back."""


@dataclass(frozen=True, slots=True, kw_only=True)
class TapGain:
    """What taps tell of a recorder's gain."""

    ratio: float  # noise after taps over that before them, in amplitude; nan: not to be told
    automatic: bool
    growth: float  # at which the gain may grow while a body swings [1/s]; 0 where it is steady


def noise_levels(samples: Array, rate: float, decays: Sequence[tuple[int, int]]) -> Array:
    """Return ln of noise amplitudes (taps, FRAMES) over that before each tap, nan where none is.

    `decays` are first and last sample of what swings after each tap in `samples` (n, k).
    """
    wide, clear = round(FRAME * rate), round(CLEAR * rate)
    found = np.full((len(decays), FRAMES), np.nan)
    filtered = signal.butter(ORDER, ABOVE, "highpass", output="sos")
    if wide < 2 or len(samples) < 4 * wide:
        return found
    still = samples - samples.mean(axis=0)
    energy = np.sum(signal.sosfiltfilt(filtered, still, axis=0, padlen=wide) ** 2, axis=1)
    for n, (first, last) in enumerate(decays):
        end = first - 2 * clear
        start = first + clear
        before = float(np.mean(energy[end - 2 * wide : end])) if end >= 2 * wide else 0.0
        frames = min(FRAMES, (last - start) // wide)
        for each in range(frames if before > 0.0 else 0):
            level = float(np.mean(energy[start + each * wide : start + (each + 1) * wide]))
            found[n, each] = 0.5 * math.log(level / before) if level > 0.0 else np.nan
    return found


def tap_gain(levels: Array, rate: float, channels: int, quiet: float) -> TapGain:
    """Return what the levels of noise after taps (`noise_levels`) tell of the gain.

    `quiet` is the least of the quiet after a decay over that before its tap, in amplitude: gain
    that comes back within seconds shows in it alone, and does little to a decay.
    """
    told = levels[np.isfinite(levels[:, 0])]
    slow = quiet < SLOW_DROP
    if len(told) < FEWEST:
        return TapGain(ratio=quiet if slow else math.nan, automatic=slow, growth=0.0)
    seen = np.isfinite(told).sum(axis=0) >= FEWEST
    course = np.nanmedian(told[:, seen], axis=0)
    # of a mean of squares of so many free numbers, after a tap and twice as many before it
    free = max(1.0, (1.0 - ABOVE) * FRAME * rate * channels)
    error = 1.25 * math.sqrt(1.5 / (2.0 * free) / len(told))
    drop = -float(course[0])
    if drop < max(math.log(DROP), PLAIN * error):
        return TapGain(ratio=quiet if slow else math.exp(-drop), automatic=slow, growth=0.0)
    back = np.flatnonzero(course > math.log(BACK))
    frames = float(back[0]) if len(back) else float(len(course))
    return TapGain(ratio=math.exp(-drop), automatic=True, growth=drop / (FRAME * max(frames, 1.0)))
