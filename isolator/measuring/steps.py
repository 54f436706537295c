"""What a recording holds in each step of the test moves, and in the pauses between."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.measuring.alignment import Aligned
from isolator.measuring.evened import Evened
from isolator.physics.arrays import Array
from isolator.physics.signals.pieces import Pieces, pieces
from isolator.physics.signals.third_octaves import energy_between
from isolator.recordings.schedule import Schedule, Span, Step

PIECE = 0.5
"""Of a stroke, that gets a spectrum of its own [s]: lines 2 Hz apart, enough of them to average."""
GUARD = 0.1
"""Left out at both ends of a stroke [s]: ramps, and how well the clock is known."""
SETTLE, BEFORE = 0.25, 0.15
"""Left out at the begin and the end of a pause [s]: what rings down, and the clock again."""
LEAST = 0.08
"""A stroke of which less is left [s] is not looked at."""
HIGHEST = 10_000.0
"""Frequencies looked at end here [Hz]."""
KEPT = 1.1
"""Times that are spectra kept, for the memory."""
FEWEST = 16
"""Samples of a piece."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """One step that is recorded: the spectra of its strokes, by the printer's clock."""

    step: Step
    found: Pieces
    length: int  # samples of a piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Rested:
    """One pause that is recorded, less what rings down."""

    pause: Span  # by the schedule [s]
    samples: Array  # (n, k)


def moved(evened: Evened, aligned: Aligned, schedule: Schedule) -> list[Moved]:
    """Return the steps that are recorded, in their order."""
    found = []
    for step in schedule.steps:
        spans = [_within(aligned, each, GUARD, GUARD) for each in step.strokes]
        spans = [each for each in spans if each.length >= LEAST]
        shortest = min((each.length for each in spans), default=PIECE)
        # where a stroke begins and ends is rounded to samples: none is lost for one too few
        whole = min(round(evened.rate * PIECE), int(evened.rate * shortest) - 1)
        length = whole // 2 * 2
        cuts = (evened.between(each.start, each.end) for each in spans)
        parts = [
            pieces(each, evened.rate, length)
            for each in cuts
            if each is not None and len(each) >= length >= FEWEST
        ]
        joined = _joined(parts, aligned.ratio)
        if joined is not None and len(joined.density) > 1:
            found.append(Moved(step=step, found=joined, length=length))
    return found


def rested(evened: Evened, aligned: Aligned, schedule: Schedule) -> list[Rested]:
    """Return the pauses that are recorded."""
    found = []
    for pause in schedule.pauses:
        span = _within(aligned, pause, SETTLE, BEFORE)
        samples = evened.between(span.start, span.end) if span.length > LEAST else None
        if samples is not None:
            found.append(Rested(pause=pause, samples=samples))
    return found


def room_pieces(rests: Sequence[Rested], rate: float, length: int, ratio: float) -> Pieces | None:
    """Return the spectra of pauses in pieces of `length` samples; None where they are too short."""
    parts = [pieces(each.samples, rate, length) for each in rests if len(each.samples) >= length]
    return _joined(parts, ratio)


def in_band(found: Pieces, band: tuple[float, float], weight: Array) -> Array:
    """Return the energy (p,) of pieces in a band [Hz], their lines weighed by `weight` (f,)."""
    low, high = (np.array([each]) for each in band)
    return energy_between(found.density * weight, found.step, low, high)[:, 0]


def lines_of(found: Pieces) -> Array:
    """Return the frequencies (f,) [Hz] of spectra."""
    return np.asarray(np.arange(found.density.shape[1]) * found.step, dtype=float)


def _joined(parts: Sequence[Pieces], ratio: float) -> Pieces | None:
    """Return all pieces together, told by the printer's clock: its seconds are `ratio` of theirs
    in the recording."""
    if not parts:
        return None
    kept = int(KEPT * HIGHEST / (parts[0].step * ratio)) + 1
    density = np.concatenate([each.density[:, :kept] for each in parts])
    return Pieces(density / ratio, parts[0].step * ratio)


def _within(aligned: Aligned, span: Span, begin: float, end: float) -> Span:
    """Return a span of the schedule by the recording's clock, less something at its ends."""
    return Span(start=aligned.at(span.start) + begin, end=aligned.at(span.end) - end)
