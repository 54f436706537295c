"""Spectra of long signals by Welch's method, block by block, and how far chance moves them.

Densities equal those of `scipy.signal.welch` with a Hann window, half overlapping segments and
each segment's mean taken off.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike
from scipy import signal

from isolator.physics.arrays import Array

AT_ONCE = 1 << 20
"""Samples of one channel that are transformed together."""


def density(samples: Array, rate: float, segment: int) -> tuple[Array, Array, int]:
    """Return frequencies (f,) [Hz], one-sided power densities (f, k) [unit²/Hz], and averages.

    Of samples (n, k) at `rate` [Hz], with `segment` samples a segment, n at most. The memory it
    takes beside the samples does not grow with their number.
    """
    step = segment - segment // 2
    count = (len(samples) - segment) // step + 1
    block = max(1, AT_ONCE // segment)
    total: Array | float = 0.0
    for first in range(0, count, block):
        many = min(block, count - first)
        part = samples[first * step : (first + many - 1) * step + segment]
        _, found = signal.welch(part, rate, nperseg=segment, axis=0)
        total = total + many * found
    frequency: Array = np.linspace(0.0, rate / segment * (segment // 2), segment // 2 + 1)
    return frequency, np.asarray(total) / count, count


def noise_bandwidth(window: str) -> float:
    """Return the equivalent noise bandwidth of a window in bins: n·Σw²/(Σw)²."""
    weights = signal.get_window(window, 1 << 16)
    return float(len(weights) * np.sum(weights**2) / np.sum(weights) ** 2)


def random_error(averages: ArrayLike) -> Array:
    """Return the relative standard error of a density of independent segments: 1/√n.

    Bendat and Piersol, Random Data (from memory).
    """
    return np.asarray(1.0 / np.sqrt(np.asarray(averages, dtype=float)))


def transfer_error(coherence: ArrayLike, averages: ArrayLike) -> Array:
    """Return the relative standard error of a transfer function's size: √(1 − γ²)/(γ·√(2n)).

    `coherence` is γ². Bendat and Piersol, Random Data (from memory).
    """
    squared = np.asarray(coherence, dtype=float)
    averages = np.asarray(averages, dtype=float)
    return np.asarray(np.sqrt((1.0 - squared) / squared / (2.0 * averages)))


def folded(frequency: ArrayLike, rate: float) -> Array:
    """Return where tones at `frequency` [Hz] are seen at a rate [Hz]: their own place, or folded.

    >>> folded([40.0, 70.0, 230.0], 100.0).tolist()
    [40.0, 30.0, 30.0]
    """
    there = np.mod(np.asarray(frequency, dtype=float), rate)
    return np.asarray(np.minimum(there, rate - there))


def velocity(acceleration: ArrayLike, frequency: ArrayLike) -> Array:
    """Return the velocity [m/s] of an acceleration [m/s²] that swings at `frequency` [Hz]."""
    return np.asarray(acceleration) / (2.0 * np.pi * np.asarray(frequency))


def displacement(acceleration: ArrayLike, frequency: ArrayLike) -> Array:
    """Return the displacement [m] of an acceleration [m/s²] that swings at `frequency` [Hz]."""
    return velocity(velocity(acceleration, frequency), frequency)
