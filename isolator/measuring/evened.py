"""A recording as pieces without gaps on even time, whatever its clock was like."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.recordings.recording import LATE, Recording, Stretch, resampled

SILENT = 1e-4
"""Of the loudest channel, 80 dB below it: one that moves by less is off."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evened:
    """Stretches of even time, in order; `bridged` where samples came so unevenly that straight
    lines were laid between them."""

    stretches: tuple[Stretch, ...]
    rate: float  # [Hz]
    bridged: bool
    silent: tuple[str, ...] = ()  # channels that do not move beside others that do

    @property
    def end(self) -> float:
        """Return when the last sample is [s]."""
        last = self.stretches[-1]
        return last.start + len(last.samples) / last.rate

    def between(self, start: float, end: float) -> Array | None:
        """Return the samples (m, k) of a span [s], None where it is not recorded whole."""
        for each in self.stretches:
            first = round((start - each.start) * each.rate)
            last = round((end - each.start) * each.rate)
            if first >= 0 and last <= len(each.samples):
                return each.samples[first:last]
        return None


def evened(recording: Recording) -> Evened:
    """Return a recording as stretches on even time."""
    bridged = recording.verdict.jitter > LATE
    if bridged:
        made = resampled(recording)
        stretches = tuple(_kept(made.recording, made.filled))
    else:
        stretches = tuple(recording.stretches())
    return Evened(
        stretches=stretches, rate=recording.rate, bridged=bridged, silent=_silent(recording)
    )


def _silent(recording: Recording) -> tuple[str, ...]:
    sizes = np.ptp(recording.samples, axis=0)
    dead = sizes <= SILENT * sizes.max()
    return tuple(name for name, off in zip(recording.channels, dead, strict=True) if off)


def _kept(recording: Recording, filled: NDArray[np.bool_]) -> Iterator[Stretch]:
    """Yield what lies between the gaps that were bridged."""
    ends = np.flatnonzero(np.diff(np.concatenate([[True], filled, [True]]).astype(int)))
    for first, last in zip(ends[::2], ends[1::2], strict=True):
        yield Stretch(
            start=float(first / recording.rate),
            rate=recording.rate,
            samples=recording.samples[first:last],
        )
