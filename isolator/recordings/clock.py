"""A file's clock: what of it can be believed, where samples are lost, where it only comes late."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.reading.faults import refused
from isolator.recordings.recording import LATE, Note

GAP = 3.5
"""An interval of so many usual ones is a gap: two samples may be lost before it counts as one."""
LAGS = (64, 80, 96, 112, 75, 91, 107, 123)
"""Intervals over which the usual one is told; over many, so that bunched stamps do not shift it."""
AROUND = 4
"""How many times as many samples as an interval could have held are looked at either side of it."""
SWAPPED = 5.0
"""Usual intervals by which a stamp may go back: packets that overtook each other."""
BUNCHED = 0.2
"""Share of stamps equal to the one before from which the clock only tells when samples came."""


class Clock(NamedTuple):
    """When samples were taken, and what their stamps were like."""

    time: Array  # (n,) [s] from 0 on, rising
    order: NDArray[np.intp]  # (n,) which sample of the file each one is
    interval: float  # usual one [s]
    jitter: float  # of the stamps: standard deviation as a share of the interval
    gaps: tuple[tuple[float, float], ...]  # start and length [s]
    notes: tuple[Note, ...]


def read_clock(file: str, stamps: Array, lines: Sequence[int]) -> Clock:
    """Return the clock that stamps (n,) [s] tell, which stand in `lines` (n,) of the file.

    Raises InputError where they tell none.
    """
    interval = _usual(stamps)
    if not interval > 0.0:
        raise refused(
            file,
            "",
            "a column of time that does not rise",
            "times in order",
            "name its column with --columns, or leave it out and say --rate 100",
        )
    order = np.arange(len(stamps))
    notes: list[Note] = []
    back = np.diff(stamps)
    if back.min() < 0.0:
        if -back.min() > SWAPPED * interval:
            raise refused(
                file,
                f"line {lines[int(np.argmin(back)) + 1]}",
                f"a clock that goes back by {-back.min():.3g} s",
                "one recording, times in order",
                "cut the file there",
            )
        order = np.argsort(stamps, kind="stable")
        stamps = stamps[order]
        notes.append(Note("swapped", float(np.sum(back < 0.0))))
    wide = _lost(stamps, interval)
    bounds = [0, *(wide + 1), len(stamps)]
    inner = np.delete(np.diff(stamps), wide)
    jitter = float(np.std(inner)) / float(np.mean(inner))
    gaps = [(float(stamps[i]), float(stamps[i + 1] - stamps[i])) for i in wide]
    if np.mean(inner <= 0.0) > BUNCHED or _bunched(inner, interval):
        # stamps tell when a packet came: within a stretch samples are evenly spaced
        stamps = _even(stamps, bounds)
        gaps = [(float(stamps[i]), float(stamps[i + 1] - stamps[i])) for i in wide]
        inner = np.delete(np.diff(stamps), wide)
        notes.append(Note("bunched"))
    elif jitter > LATE and _stays_near(stamps, bounds):
        notes.append(Note("late-stamps", jitter * interval))
    return Clock(
        stamps - stamps[0], order, float(np.mean(inner)), jitter, tuple(gaps), tuple(notes)
    )


def _usual(stamps: Array) -> float:
    """Return the usual interval [s]: the mean of medians over several at once."""
    most = max(LAGS)
    lags = [max(1, min(lag, lag * len(stamps) // (4 * most))) for lag in LAGS]
    return float(np.mean([np.median(stamps[lag:] - stamps[:-lag]) / lag for lag in lags]))


def _lost(stamps: Array, interval: float) -> NDArray[np.intp]:
    """Return the intervals in which samples are lost: what follows one only late catches up."""
    apart: Array = np.diff(stamps)
    wide = np.flatnonzero(apart > GAP * interval)
    behind = stamps - interval * np.arange(len(stamps))
    kept = []
    for at in wide.tolist():
        # after lateness alone the stamps run on as if nothing had been
        reach = AROUND * (int(np.ceil(apart[at] / interval)) + 2)
        before = np.median(behind[max(0, at + 1 - reach) : at + 1])
        after = np.median(behind[at + 1 : at + 1 + reach])
        if after - before > (GAP - 1.0) * interval:
            kept.append(at)
    return np.array(kept, dtype=np.intp)


def _bunched(inner: Array, interval: float) -> bool:
    """Return whether most intervals are far below the usual one, and a few far above it."""
    return bool(np.median(inner) < 0.5 * interval)


def _even(stamps: Array, bounds: list[int]) -> Array:
    even = stamps.copy()
    for first, last in pairwise(bounds):
        if last - first > 2:
            n = np.arange(last - first)
            slope, start = np.polyfit(n, stamps[first:last], 1)
            even[first:last] = start + slope * n
    return even


def _stays_near(stamps: Array, bounds: list[int]) -> bool:
    """Return whether stamps stay about evenly spaced times: those of uneven samples drift."""
    off = stamps - _even(stamps, bounds)
    apart = np.delete(np.diff(stamps), np.array(bounds[1:-1], dtype=int) - 1)
    return float(np.std(off)) < 2.0 * float(np.std(apart))
