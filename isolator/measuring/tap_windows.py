"""Where somebody tapped, and what swings freely after each tap."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import signal

from isolator.measuring.tap_gain import TapGain, noise_levels, tap_gain
from isolator.physics.arrays import Array
from isolator.physics.signals.damped import Piece
from isolator.recordings.recording import Recording, Stretch

WINDOW = 0.25
"""Over which what follows is held against what was before [s]."""
SLOW = 0.5
"""What swings slower is drift, where taps are looked for [Hz]."""
RISE = 4.0
"""By which factor a tap lifts the energy, at least."""
OVER_QUIET = 10.0
"""By which factor it lies over the quiet parts of the recording, at least."""
CONTACT = 0.02
"""That a tap itself may last [s]: swings are free after that; estimated."""
APART = 0.4
"""Between two taps, at least [s]."""
LONGEST = 3.0
"""Of one decay [s]."""
FADED = 2.0
"""A decay ends where its energy is less than so many times the quiet one."""
SHORTEST = 48
"""Samples of a decay below which nothing is told of it."""
PER_CYCLE = 6.0
"""Samples that one cycle of the highest frequency looked for keeps when samples are thinned out."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Taps:
    """The decays of one recording."""

    at: tuple[float, ...]  # when each tap came [s]
    pieces: tuple[Piece, ...]  # what swings after it
    rate: float  # of the pieces [Hz]
    cut: int  # taps that went beyond the sensor's range; they are looked at after that
    gain: TapGain


def find_taps(recording: Recording, highest: float) -> Taps:
    """Return the taps of a recording; `highest` is the highest frequency looked for [Hz].

    Samples are thinned out where they are far more than that takes, behind a filter.
    """
    at: list[float] = []
    pieces: list[Piece] = []
    cut, rate = 0, recording.rate
    noise: list[Array] = []
    quiet: list[float] = []
    ends = [(float(c.max()), float(c.min())) for c in recording.samples.T]
    for stretch in recording.stretches(shortest=2.0 * WINDOW):
        clipped = _clipped(stretch, ends) if recording.verdict.clipped else None
        thin, step = _thinned(stretch, highest)
        rate = thin.rate
        time = _time(recording, stretch, step, len(thin.samples))
        decays, ratios = _decays(thin)
        noise.append(noise_levels(thin.samples, rate, decays))
        quiet += ratios
        for first, last in decays:
            start = first
            if clipped is not None:
                beyond = np.flatnonzero(clipped[max(0, first - 2) * step : last * step])
                if len(beyond):
                    start = max(0, first - 2) + int(beyond[-1]) // step + 2
                    cut += 1
            if last - start < SHORTEST:
                continue
            at.append(float(time[first]))
            pieces.append(Piece(time[start:last] - time[start], thin.samples[start:last]))
    channels = recording.samples.shape[1]
    levels = np.concatenate(noise) if noise else np.empty((0, 1))
    gain = tap_gain(levels, rate, channels, min(quiet, default=1.0))
    return Taps(at=tuple(at), pieces=tuple(pieces), rate=rate, cut=cut, gain=gain)


def _clipped(stretch: Stretch, ends: Sequence[tuple[float, float]]) -> Array:
    return np.asarray(
        np.any(
            [
                (c >= top) | (c <= low)
                for c, (top, low) in zip(stretch.samples.T, ends, strict=True)
            ],
            axis=0,
        )
    )


def _time(recording: Recording, stretch: Stretch, step: int, count: int) -> Array:
    """Return the time (count,) of samples of a stretch of which every `step`-th is left [s]."""
    if recording.clock is None or step > 1:
        return np.asarray(stretch.start + np.arange(count) * step / stretch.rate)
    first = int(np.searchsorted(recording.clock, stretch.start))
    return recording.clock[first : first + count]


def _thinned(stretch: Stretch, highest: float) -> tuple[Stretch, int]:
    """Return fewer samples that still hold all up to `highest` [Hz]: one of how many, too."""
    step = max(1, int(stretch.rate / (PER_CYCLE * highest)))
    if step == 1:
        return stretch, 1
    # a symmetric filter, by which nothing is late
    thin = signal.resample_poly(stretch.samples, 1, step, axis=0, padtype="mean")
    return Stretch(start=stretch.start, rate=stretch.rate / step, samples=np.asarray(thin)), step


def _decays(stretch: Stretch) -> tuple[list[tuple[int, int]], list[float]]:
    """Return first and last sample of each decay, and the quiet after each over that before."""
    still = stretch.samples - np.median(stretch.samples, axis=0)
    wide = max(4, round(WINDOW * stretch.rate))
    energy = np.sum(_swinging(still, stretch.rate) ** 2, axis=1)
    run = np.concatenate(([0.0], np.cumsum(energy)))
    mean = (run[wide:] - run[:-wide]) / wide  # of the window that begins at each sample
    if len(mean) <= wide:
        return [], []
    quiet = max(float(np.quantile(mean, 0.1)), 1e-12 * float(np.max(mean)))
    rise = np.zeros(len(mean))
    rise[wide:] = mean[wide:] / (mean[:-wide] + quiet)
    loud = np.where(mean > OVER_QUIET * quiet, rise, 0.0)
    found, _ = signal.find_peaks(loud, height=RISE, distance=max(1, round(APART * stretch.rate)))
    decays, ratios = [], []
    skip = max(2, round(CONTACT * stretch.rate))
    sharp = np.convolve(energy, np.ones(skip) / skip, mode="same")
    # a tap is where a short window holds most: the long one may begin before it
    near = [max(0, at - wide // 2) for at in found.tolist()]
    if not near:
        return [], []
    peaks = [at + int(np.argmax(sharp[at : at + 2 * wide])) for at in near]
    for at, then in zip(peaks, [*peaks[1:], len(energy)], strict=True):
        last = min(then - skip, at + round(LONGEST * stretch.rate), len(energy))
        faded = np.flatnonzero(mean[at:last] < FADED * quiet)
        end = min(last, at + int(faded[0])) if len(faded) else last
        decays.append((int(at + skip), int(end)))
        ratios.append(_quiet(energy, at, end, then, wide))
    return decays, ratios


def _quiet(energy: Array, at: int, end: int, then: int, wide: int) -> float:
    """Return the quiet after a decay over that before its tap, in amplitude; 1 where one lacks.

    Where gain comes back slowly it is still down by then.
    """
    before, after = (
        energy[max(0, at - 2 * wide) : max(0, at - wide)],
        energy[end + wide : then - wide],
    )
    if len(before) < wide or len(after) < wide or not np.any(before):
        return 1.0
    return math.sqrt(float(np.mean(after[:wide])) / float(np.mean(before)))


def _swinging(samples: Array, rate: float) -> Array:
    """Return samples without their slow part; a tap changes nothing before it came."""
    top, bottom = signal.butter(1, SLOW, "highpass", fs=rate)
    return np.asarray(signal.lfilter(top, bottom, samples, axis=0))
