"""The verdict on the data: true rate, jitter, gaps, repeats, clipping, usable band."""

from __future__ import annotations

import numpy as np

from isolator.physics.arrays import Array
from isolator.recordings.clock import Clock
from isolator.recordings.recording import Note, Verdict

HIGHEST = 0.4
"""Of the rate: above it filters fall off and tones fold down; common practice, no source."""
BLURRED = 0.3
"""Phase [rad] by which jitter may blur a tone: what it leaves lies 10 dB below the tone."""
CYCLES = 4.0
"""Of a tone must lie in the longest stretch for its frequency to be told."""
PILED = 4.0
"""How many times more samples must stand at the end of the range than a step before it. A sine in
coarse steps piles up 2.4 times."""
RUN = 3
"""So many samples in a row must stand there somewhere."""


def judge(clock: Clock, samples: Array, repeats: int, notes: tuple[Note, ...] = ()) -> Verdict:
    """Return the verdict on samples (n, k) taken by `clock`, repeats left out already."""
    at = np.searchsorted(clock.time, [start + 1e-9 for start, _ in clock.gaps])
    longest = int(np.max(np.diff([0, *at, len(samples)]))) * clock.interval
    return Verdict(
        rate_hz=1.0 / clock.interval,
        jitter=clock.jitter,
        gaps=clock.gaps,
        repeats=repeats,
        clipped=count_clipped(samples),
        usable_hz=usable(1.0 / clock.interval, clock.jitter, longest),
        notes=notes,
    )


def judge_even(rate: float, samples: Array, notes: tuple[Note, ...] = ()) -> Verdict:
    """Return the verdict on samples (n, k) that are evenly spaced at `rate` [Hz]."""
    return Verdict(
        rate_hz=rate,
        jitter=0.0,
        gaps=(),
        repeats=0,
        clipped=count_clipped(samples),
        usable_hz=usable(rate, 0.0, len(samples) / rate),
        notes=notes,
    )


def usable(rate: float, jitter: float, longest: float) -> tuple[float, float]:
    """Return the frequencies [Hz] between which spectra can be believed.

    `longest` is the longest stretch without a gap [s].
    """
    highest = HIGHEST * rate
    if jitter > 0.0:
        highest = min(highest, BLURRED * rate / (2.0 * np.pi * jitter))
    return min(CYCLES / longest, highest), float(highest)


def count_clipped(samples: Array) -> int:
    """Return how many samples (n, k) stand at the end of the range, in any channel."""
    found = np.zeros(len(samples), dtype=bool)
    for channel in samples.T:
        for end in (np.max(channel), np.min(channel)):
            there = channel == end
            if _is_cut(channel, there, float(end)):
                found |= there
    return int(np.count_nonzero(found))


def _is_cut(channel: Array, there: np.ndarray, end: float) -> bool:
    """Return whether so many samples stand at `end` that something must have cut them off."""
    if there.all() or not _longest_run(there, RUN):
        return False
    inner = channel[~there]
    nearest = float(np.max(inner) if end > inner[0] else np.min(inner))
    beside = np.count_nonzero(channel == nearest)
    return bool(np.count_nonzero(there) >= PILED * beside)


def _longest_run(there: np.ndarray, least: int) -> bool:
    """Return whether `least` in a row are true somewhere."""
    run = there[least - 1 :].copy()
    for back in range(1, least):
        run &= there[least - 1 - back : len(there) - back]
    return bool(run.any())
