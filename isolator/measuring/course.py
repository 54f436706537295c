"""How loud a recording is over time, in bands, so that what moves stands out of the room."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from isolator.measuring.evened import Evened
from isolator.physics.arrays import Array
from isolator.physics.signals.third_octaves import energy_between

HOP = 0.05
"""Of the levels that are laid on the schedule [s]."""
LOWEST = 15.0
"""Below it rooms and floors move by themselves [Hz]; common practice, no source."""
BLOCK = 1 << 18
"""Samples taken at a time, to stay within memory."""
SLOW = 3.0
"""What is slower than so long is left out of the comparison [s]."""


class Ear(NamedTuple):
    """A way to hear moves: frames [s], bands an octave, and what each band adds [dB] over its
    quiet."""

    frame: float
    bands: float
    least: float
    most: float
    quiet: float  # per cent of the time in which a band is quieter than its quiet


EARS = (
    Ear(frame=0.1, bands=1.0, least=-3.0, most=15.0, quiet=10.0),
    Ear(frame=0.25, bands=3.0, least=4.0, most=14.0, quiet=20.0),
)
"""A quick one for what is plainly heard, and a patient one for single tones under a room's noise.
The one to which the moves are plainer is believed."""


class Course(NamedTuple):
    """How loud a recording is over time, on an even grid."""

    level: Array  # (n,) mean over bands [dB], less what is slow
    known: Array  # (n,) 1, or 0 in gaps


def course(evened: Evened, usable: tuple[float, float], ear: Ear) -> Course:
    """Return how loud a recording is over time, in steps of `HOP`."""
    low, high = max(LOWEST, usable[0]), usable[1]
    count = max(1, round(ear.bands * np.log2(high / low)))
    cuts = np.geomspace(low, high, count + 1)
    grid = np.arange(0.0, evened.end, HOP)
    energies = np.full((len(grid), count), np.nan)
    for stretch in evened.stretches:
        times, found = _bands(stretch.samples, stretch.rate, cuts, ear.frame)
        if len(times) < 2:
            continue
        times += stretch.start
        inside = (grid >= times[0]) & (grid <= times[-1])
        for band in range(count):
            energies[inside, band] = np.interp(grid[inside], times, found[:, band])
    known = np.isfinite(energies[:, 0])
    if not known.any():
        return Course(np.zeros(len(grid)), known.astype(float))
    levels = 10.0 * np.log10(np.maximum(energies[known], 1e-300))
    over = levels - np.percentile(levels, ear.quiet, axis=0)
    out = np.zeros(len(grid))
    out[known] = np.clip(over - ear.least, 0.0, ear.most - ear.least).mean(axis=1)
    return Course(short(out, known.astype(float)), known.astype(float))


def short(course: Array, known: Array) -> Array:
    """Return a course (n,) less its mean over `SLOW`: a room that grows louder, and gain that
    follows, are no moves."""
    window = np.ones(round(SLOW / HOP))
    near = np.convolve(known, window, "same")
    mean = np.convolve(course * known, window, "same") / np.maximum(near, 1.0)
    return np.asarray((course - mean) * known)


def _bands(samples: Array, rate: float, cuts: Array, frame: float) -> tuple[Array, Array]:
    """Return the middles of frames (t,) [s] and their energies (t, o) between `cuts` (o + 1,)."""
    from scipy.signal import spectrogram

    length = max(16, round(frame * rate))
    hop = max(1, round(HOP * rate))
    times, energies = [], []
    for first in range(0, max(1, len(samples) - length + 1), BLOCK // hop * hop):
        block = samples[first : first + BLOCK // hop * hop + length - hop]
        if len(block) < length:
            break
        _, time, found = spectrogram(block, rate, "hann", length, length - hop, axis=0)
        density = np.moveaxis(found.sum(axis=1), 0, -1)
        times.append(time + first / rate)
        energies.append(energy_between(density, rate / length, cuts[:-1], cuts[1:]))
    if not times:
        return np.zeros(0), np.zeros((0, len(cuts) - 1))
    return np.concatenate(times), np.concatenate(energies)
