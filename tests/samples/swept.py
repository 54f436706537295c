"""Recordings of test moves as they would be: tones that follow speed, a room, a bad recorder."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from isolator.recordings.clock import read_clock
from isolator.recordings.recording import FULL_SCALE, Recording
from isolator.recordings.schedule import Schedule, Step
from isolator.recordings.verdict import judge, judge_even

Array = NDArray[np.float64]
Tones = Callable[[Step], list[tuple[float, float]]]
"""Frequencies [Hz] and amplitudes of a step."""
LEAD = 7.3
"""Before the moves begin [s]: homing."""


def swept(
    schedule: Schedule,
    rate: float,
    tones: Tones,
    *,
    room: float = 0.0,
    clock: float = 1.0,
    seed: int = 1,
    tail: float = 4.0,
    extra: Callable[[Array], Array] | None = None,
) -> Array:
    """Return what a recorder (n,) takes at `rate` by its own clock, `clock` of its seconds in one.

    `room` is the rms of white noise; `extra` more of true time.
    """
    random = np.random.default_rng(seed)
    count = round((LEAD + schedule.length + tail) * clock * rate)
    time = np.arange(count) / rate / clock - LEAD  # by the printer's clock
    out = room * random.standard_normal(count)
    # homing and the ways between steps are heard as well
    loud = max(amount for step in schedule.steps for _, amount in tones(step))
    for span in (*schedule.moves,):
        _add(out, time, span.start, span.end, [(43.0, 0.5 * loud), (71.0, 0.4 * loud)], random)
    _add(out, time, -LEAD + 1.0, -2.0, [(37.0, loud)], random)
    for step in schedule.steps:
        for stroke in step.strokes:
            _add(out, time, stroke.start, stroke.end, tones(step), random)
    return out if extra is None else out + extra(time)


def _add(
    out: Array,
    time: Array,
    start: float,
    end: float,
    tones: list[tuple[float, float]],
    random: np.random.Generator,
) -> None:
    first, last = np.searchsorted(time, (start, end))
    for frequency, amount in tones:
        phase = random.uniform(0.0, 2.0 * np.pi)
        out[first:last] += amount * np.sin(2.0 * np.pi * frequency * time[first:last] + phase)


def automatic(samples: Array, rate: float, target: float, back: float = 6.0) -> Array:
    """Return samples behind an automatic gain: loud is turned down at once to `target` rms, and
    quiet is turned up again by `back` [dB/s], to four times at most."""
    out, gain, block = samples.copy(), 4.0, round(0.02 * rate)
    power = 0.0
    for first in range(0, len(samples), block):
        part = samples[first : first + block]
        power += (float(np.mean(part**2)) - power) * 0.4
        wanted = target / max(np.sqrt(power), 1e-12)
        grown = gain * 10.0 ** (back * 0.02 / 20.0)
        gain = min(grown, wanted, 4.0) if wanted > gain else max(wanted, gain * 0.7)
        out[first : first + block] *= gain
    return out


def recording(
    samples: Array, rate: float, gaps: tuple[tuple[float, float], ...] = (), unit: str = FULL_SCALE
) -> Recording:
    """Return samples (n,) as a recording; what lies in `gaps` (begin, end) [s] is lost."""
    time = np.arange(len(samples)) / rate
    kept = np.ones(len(samples), dtype=bool)
    for begin, end in gaps:
        kept &= (time < begin) | (time > end)
    time, samples = time[kept], samples[kept][:, None]
    clock = read_clock("r.csv", time, list(range(len(time)))) if gaps else None
    return Recording(
        clock=None if clock is None else clock.time,
        samples=samples,
        channels=("mono",),
        unit=unit,
        calibrated=False,
        verdict=judge_even(rate, samples) if clock is None else judge(clock, samples, 0),
    )
