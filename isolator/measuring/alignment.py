"""Where test moves lie in a recording, and how fast its clock runs: by the pauses between moves."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from isolator.measuring.course import EARS, HOP, Course, Ear, course, short
from isolator.measuring.evened import Evened
from isolator.physics.arrays import Array, Complex
from isolator.recordings.schedule import Schedule

CLOCKS = np.arange(0.94, 1.0605, 0.001)
"""Clock ratios that are tried first."""
FINE = np.arange(-0.0012, 0.00121, 0.0001)
OVERLAP = 0.6
"""Share of the moves that must lie in a recording."""
ALIKE = 0.25
"""Least correlation of levels with the schedule for its moves to be heard at all."""
APART = 1.5
"""Another place counts as another one from so far off [s]."""
CLEAR = 1.5
"""Of the best place over the next best one: of the right schedule twice and more, of another one
up to 1.3 (simulated)."""
PART, NEAR = 8.0, 0.2
"""Length of a part of the schedule [s], and how far from its place it may lie best."""
FEWEST_PARTS = 4
FITTING = 0.6
"""Of the parts have to; of the right schedule nine of ten do (simulated)."""


class Aligned(NamedTuple):
    """Where the schedule lies in a recording: at `start` + `ratio`·t for the schedule's t."""

    start: float  # [s] by the recording's clock
    ratio: float  # seconds of the recording in a second of the schedule
    alike: float  # correlation there
    next_best: float  # and at the best other place
    fitting: float  # share of parts of the schedule that lie best where the whole does

    @property
    def sure(self) -> bool:
        """Return whether this is plainly the place."""
        clear = self.alike >= max(ALIKE, CLEAR * self.next_best)
        return clear and self.fitting >= FITTING and CLOCKS[0] < self.ratio < CLOCKS[-1]

    def at(self, time: float) -> float:
        """Return when something of the schedule is in the recording [s]."""
        return self.start + self.ratio * time


def align(evened: Evened, schedule: Schedule, usable: tuple[float, float]) -> Aligned:
    """Return where the moves lie; `usable` [Hz] of the recording. See `Aligned.sure`."""
    return max(
        (_align(course(evened, usable, ear), schedule, ear) for ear in EARS),
        key=lambda found: found.alike - found.next_best,
    )


def _align(heard: Course, schedule: Schedule, ear: Ear) -> Aligned:
    from scipy.stats import theilslopes

    coarse = [_best(heard, _moving(schedule, ratio, ear)) for ratio in CLOCKS]
    at = int(np.argmax([each.alike for each in coarse]))
    ratios = CLOCKS[at] + FINE
    fine = [_best(heard, _moving(schedule, ratio, ear)) for ratio in ratios]
    found = max(range(len(fine)), key=lambda i: fine[i].alike)
    best, ratio = fine[found], float(ratios[found])
    parts = _parts(heard, _moving(schedule, ratio, ear), best.start)
    fitting = parts[np.abs(parts[:, 1]) <= NEAR]
    shift, turn = 0.0, 0.0
    if len(fitting) >= FEWEST_PARTS:
        # what the parts tell together is finer than the steps that were tried
        turn, shift, _, _ = theilslopes(fitting[:, 1], fitting[:, 0])
    return Aligned(
        start=best.start + float(shift),
        ratio=ratio * (1.0 + float(turn)),
        alike=best.alike,
        next_best=max(each.others(best.start) for each in coarse),
        fitting=len(fitting) / len(parts) if len(parts) else 0.0,
    )


def _parts(heard: Course, moving: Array, start: float) -> Array:
    """Return where parts of a pattern (m,) lie best (p, 2): middle [s] and shift [s].

    Counted from `start`, where the whole lies. Each part is tried as far as `APART` either way;
    parts of which too little is recorded do not count.
    """
    wide, far = round(PART / HOP), round(APART / HOP)
    place, shifts = round(start / HOP), np.arange(-far, far + 1)
    found = []
    for first in range(0, len(moving) - wide + 1, wide // 2):
        part = moving[first : first + wide]
        at = place + first + shifts[:, None] + np.arange(wide)
        if at.min() < 0 or at.max() >= len(heard.level) or heard.known[at].mean() < 1.0:
            continue
        taken = heard.level[at]
        taken = taken - taken.mean(axis=1, keepdims=True)
        length = np.sqrt(np.sum(taken**2, axis=1)) + 1e-9
        alike = taken @ (part - part.mean()) / length
        top = int(np.argmax(alike))
        shift = (shifts[top] + _vertex(alike, top) + place) * HOP - start
        found.append(((first + wide / 2.0) * HOP, shift))
    return np.array(found).reshape(-1, 2)


def _moving(schedule: Schedule, ratio: float, ear: Ear) -> Array:
    """Return 1 where something moves and 0 in pauses, in steps of `HOP` of the recording's time.

    Edges are shares of a step.
    """
    fine = 5
    time = np.arange(0.0, schedule.length * ratio, HOP / fine) / ratio
    edges = np.array([[each.start, each.end] for each in schedule.pauses]).ravel()
    moving = 1.0 - np.searchsorted(edges, time, side="right") % 2
    moving = moving[: len(moving) // fine * fine]
    window = np.hanning(round(ear.frame / HOP * fine) + 2)[1:-1] ** 2
    # a level is that of a frame: it is smoothed as frames are
    steps = np.convolve(moving, window / window.sum(), "same")
    steps = steps[::fine]
    return short(steps, np.ones(len(steps)))


class _Best(NamedTuple):
    start: float
    alike: float
    lags: Array
    all: Array

    def others(self, start: float) -> float:
        """Return the best correlation away from `start` [s]."""
        away = np.abs(self.lags - start) > APART
        return float(self.all[away].max(initial=0.0))


def _best(heard: Course, moving: Array) -> _Best:
    """Return where a pattern (m,) is most alike: correlation over what is known of both.

    Masked normalised correlation by Fourier transforms (D. Padfield, IEEE Trans. Image Process.
    21 (2012) 2706, from memory).
    """
    from scipy.fft import irfft, next_fast_len, rfft

    count, wide = len(heard.level), len(moving)
    size = next_fast_len(count + wide, real=True)
    one, two = rfft(np.ones(wide), size).conj(), rfft(moving, size).conj()
    both = rfft(moving**2, size).conj()
    known, level = rfft(heard.known, size), rfft(heard.level * heard.known, size)
    square = rfft(heard.level**2 * heard.known, size)

    def lagged(first: Complex, second: Complex) -> Array:
        found = irfft(first * second, size)
        # lags from −(m − 1) to n − 1
        return np.asarray(np.concatenate([found[size - wide + 1 :], found[:count]]))

    number = np.maximum(lagged(known, one), 1e-9)
    x, y = lagged(level, one), lagged(known, two)
    xx, yy = lagged(square, one) - x**2 / number, lagged(known, both) - y**2 / number
    xy = lagged(level, two) - x * y / number
    good = (number >= OVERLAP * wide) & (xx > 1e-6) & (yy > 1e-6)
    alike = np.where(good, xy / np.sqrt(np.where(good, xx * yy, 1.0)), 0.0)
    lags = np.asarray(np.arange(-wide + 1, count) * HOP, dtype=float)
    top = int(np.argmax(alike))
    return _Best(float(lags[top] + HOP * _vertex(alike, top)), float(alike[top]), lags, alike)


def _vertex(values: Array, top: int) -> float:
    """Return how far the top of a parabola through three values lies from the middle one."""
    if not 0 < top < len(values) - 1:
        return 0.0
    left, middle, right = values[top - 1 : top + 2]
    bend = left - 2.0 * middle + right
    return 0.0 if bend >= 0.0 else float(np.clip(0.5 * (left - right) / bend, -0.5, 0.5))
