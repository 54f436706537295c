"""A recorder's clock against a tone of known frequency: nothing else in a recording tells it."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from isolator.physics.signals.spectra import density
from isolator.reading.command_words import COMMAND_LINE
from isolator.reading.faults import refused
from isolator.reading.units import format_quantity
from isolator.recordings.recording import Recording
from isolator.recordings.verdict import usable

FARTHEST = 0.08
"""By which share a clock may be off."""
LONG = 10.0
"""Of one piece of the spectrum [s]."""
PLAIN = 20.0
"""So many times the usual density about it must a tone stand out."""


def clock_ratio(file: str, recording: Recording, known: float) -> float:
    """Return how fast the recorder's clock runs: its seconds for each true one.

    `known` is the true frequency [Hz] of a steady tone in the recording. Raises InputError where no
    such tone stands out near it.
    """
    longest = max(recording.stretches(), key=lambda each: len(each.samples))
    segment = min(len(longest.samples), round(LONG * longest.rate))
    frequency, found, _ = density(longest.samples, longest.rate, segment)
    total = found.sum(axis=1)
    near = np.flatnonzero(np.abs(frequency / known - 1.0) <= FARTHEST)
    near = near[(near > 0) & (near < len(total) - 1)]
    if len(near) < 8 or (total[near].max() < PLAIN * float(np.median(total[near]))):
        raise refused(
            COMMAND_LINE,
            "--known-tone",
            format_quantity(known, "Hz"),
            f"a steady tone that stands out in {file} within {FARTHEST:.0%} of it",
            "name another tone, or leave it out",
        )
    at = int(near[np.argmax(total[near])])
    before, top, after = np.log(total[at - 1 : at + 2])
    bend = before - 2.0 * top + after
    shift = 0.5 * (before - after) / bend if bend < 0.0 else 0.0
    return float(known / ((at + shift) * longest.rate / segment))


def with_clock(recording: Recording, ratio: float) -> Recording:
    """Return the recording by true time; its clock runs `ratio` seconds for each true one."""
    old = recording.verdict
    rate = old.rate_hz * ratio
    longest = max(len(each.samples) for each in recording.stretches()) / rate
    verdict = replace(
        old,
        rate_hz=rate,
        gaps=tuple((start / ratio, long / ratio) for start, long in old.gaps),
        usable_hz=usable(rate, old.jitter, longest),
    )
    clock = None if recording.clock is None else recording.clock / ratio
    return replace(recording, clock=clock, verdict=verdict)
