"""Spectra of short pieces of a signal, so that a mean has its scatter beside it."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array

ALIKE = 1.0 / 36.0
"""Correlation of the energies of two Hann pieces that overlap by half, of noise: the overlap's
product of windows squared (P. D. Welch, IEEE Trans. AU-15 (1967) 70, from memory)."""


class Pieces(NamedTuple):
    """One-sided power densities of p pieces, summed over channels."""

    density: Array  # (p, f) [unit²/Hz] at 0, step, 2·step, …
    step: float  # [Hz]


def pieces(samples: Array, rate: float, length: int) -> Pieces:
    """Return the spectra of Hann pieces of `length` samples that overlap by half, of (n, k).

    Each piece less its mean; the mean over pieces is `scipy.signal.welch`'s.
    """
    from scipy.signal import spectrogram

    _, _, found = spectrogram(
        samples, rate, "hann", length, length // 2, detrend="constant", axis=0
    )
    # (f, k, p): scipy puts time last
    return Pieces(np.asarray(found.sum(axis=1).T), rate / length)


class Mean(NamedTuple):
    """Means (...) of energies over pieces, their standard errors and degrees of freedom."""

    value: Array
    error: Array
    freedom: float


def mean_of(energies: Array) -> Mean:
    """Return the mean over p pieces (p, ...) that overlap by half, with its error by their scatter.

    Of noise the error is 1/√n_d of the mean, n_d averages counted as if they did not overlap
    (J. S. Bendat, A. G. Piersol, Random Data, from memory); a steady tone scatters less.
    Raises ValueError for fewer than two pieces.
    """
    count = len(energies)
    if count < 2:
        raise ValueError("one piece has no scatter")
    grown = 1.0 + 2.0 * ALIKE * (count - 1.0) / count
    error = energies.std(axis=0, ddof=1) * np.sqrt(grown / count)
    return Mean(energies.mean(axis=0), np.asarray(error), count / grown - 1.0)
