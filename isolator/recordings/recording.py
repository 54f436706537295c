"""A recording, and the verdict on its data."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array

ACCELERATION = "m/s^2"
COUNTS = "counts"
FULL_SCALE = "full scale"
"""Units of samples: metres per second squared, else a sensor's own numbers or shares of the
largest number of a sound file."""
LATE = 0.05
"""Jitter from which samples are not taken as evenly spaced; estimated."""


class Note(NamedTuple):
    """Something seen in the data, by its name, and how much of it."""

    cause: str
    amount: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """What the data are worth."""

    rate_hz: float  # of samples that are new, between gaps
    jitter: float  # standard deviation of the intervals, as a share of the interval
    gaps: tuple[tuple[float, float], ...]  # where each begins and how long it is [s]
    repeats: int  # samples that only repeated the one before, left out
    clipped: int  # samples at the end of the range, any channel
    usable_hz: tuple[float, float]  # frequencies between which spectra can be believed
    notes: tuple[Note, ...] = ()


@dataclass(frozen=True, kw_only=True)
class Recording:
    """Samples over time, k channels, and the verdict on them."""

    clock: Array | None  # (n,) [s] from the first sample on; None: evenly spaced
    samples: Array  # (n, k)
    channels: tuple[str, ...]  # "x", "y", "z"; "left", "right"; "mono"; or as the file calls them
    unit: str  # m/s^2 where the scale is known, else counts or full scale
    calibrated: bool
    verdict: Verdict

    @property
    def rate(self) -> float:
        """Return the true rate [Hz]."""
        return self.verdict.rate_hz

    @cached_property
    def time(self) -> Array:
        """Return the time of each sample [s], from 0 on; by the file's clock where it has one."""
        if self.clock is not None:
            return self.clock
        return np.arange(len(self.samples)) / self.rate

    @property
    def length(self) -> float:
        """Return the time from the first to the last sample [s]."""
        if self.clock is not None:
            return float(self.clock[-1])
        return (len(self.samples) - 1) / self.rate

    def channel(self, name: str) -> Array:
        """Return the samples (n,) of one channel; raises ValueError for a name that is none."""
        return self.samples[:, self.channels.index(name)]

    def stretches(self, shortest: float = 0.0) -> Iterator[Stretch]:
        """Give what lies between gaps and lasts `shortest` [s] at least, in order.

        Samples are as recorded: nothing is filled in. Where the verdict's jitter is above `LATE`
        they are not evenly spaced: use `resampled` first where that matters.
        """
        ends = [0, len(self.samples)]
        if self.clock is not None:  # a gap begins with the last sample before it
            starts = [start + 1e-9 for start, _ in self.verdict.gaps]
            ends[1:1] = np.searchsorted(self.clock, starts).tolist()
        for first, last in pairwise(ends):
            if last - first > max(shortest * self.rate, 1.0):
                start = first / self.rate if self.clock is None else float(self.clock[first])
                yield Stretch(start=start, rate=self.rate, samples=self.samples[first:last])


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """Samples without a gap, as evenly spaced as the verdict says."""

    start: float  # [s] by the recording's time
    rate: float  # [Hz]
    samples: Array  # (m, k)


@dataclass(frozen=True, slots=True, kw_only=True)
class Resampled:
    """A recording on an even grid of time, and which of its samples are made up."""

    recording: Recording
    filled: NDArray[np.bool_]  # (n,) true where a gap was bridged by a straight line
    farthest: float  # from a sample of the grid to the nearest one recorded, outside gaps [s]


def resampled(recording: Recording, rate: float | None = None) -> Resampled:
    """Return the recording on an even grid of time, straight lines between samples.

    `rate` [Hz] is that of the grid, the recording's own unless given. Nothing is filtered: a lower
    rate folds what lies above half of it.
    """
    rate = recording.rate if rate is None else rate
    time = recording.time
    grid = np.arange(int(np.floor(time[-1] * rate * (1 + 1e-12))) + 1) / rate
    samples = np.column_stack([np.interp(grid, time, each) for each in recording.samples.T])
    filled = np.zeros(len(grid), dtype=bool)
    for start, long in recording.verdict.gaps:
        filled |= (grid > start + 1e-9) & (grid < start + long - 1e-9)
    after = np.clip(np.searchsorted(time, grid), 1, len(time) - 1)
    apart = np.minimum(np.abs(grid - time[after - 1]), np.abs(time[after] - grid))
    verdict = replace(recording.verdict, rate_hz=rate, jitter=0.0, gaps=())
    return Resampled(
        recording=replace(recording, clock=None, samples=samples, verdict=verdict),
        filled=filled,
        farthest=float(np.max(apart[~filled], initial=0.0)),
    )
