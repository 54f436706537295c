"""Rattle: broadband bursts that come back at a rate that follows the speed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from isolator.brief import Motion
from isolator.measuring.energies import Take
from isolator.measuring.steps import GUARD
from isolator.measuring.tones import belts_of
from isolator.physics.arrays import Array
from isolator.recordings.schedule import Step
from isolator.vibration.excitation import motor_lines

LOWEST = 500.0
"""Bursts are looked for above [Hz]: below it tones drown them; common practice, no source."""
LEAST_WIDE = 1.5
"""Of the band above, from end to end, for bursts to be told from tones."""
BURSTS = 5.0
"""Kurtosis of bursts; noise has 3, a tone 1.5."""
STANDS_OUT = 6.0
"""The envelope's line holds so many times what lies beside it."""
FASTEST = 200.0
"""Bursts that come more often [Hz] are a tone."""
HARMONICS = 3
"""Of a burst's rate that are added up."""


class Rattle(NamedTuple):
    """Bursts in one step."""

    speed: float  # [m/s]
    direction_deg: float
    kurtosis: float
    rate: float  # at which they come back [Hz]
    source: str  # the motors' line that comes as often


def can_hear(own: Take) -> bool:
    """Return whether a recording reaches high enough for bursts."""
    return own.band[1] >= LEAST_WIDE * LOWEST


def rattles(own: Take, motion: Motion) -> tuple[Rattle, ...]:
    """Return the steps with bursts that come back at a motors' line's rate, in their order."""
    found = []
    for each in own.steps:
        bursts = _bursts(own, each.step)
        if not bursts:
            continue
        kurtosis = float(np.median([_kurtosis(burst) for burst in bursts]))
        if kurtosis < BURSTS:
            continue
        told = _rate(own, each.step, bursts, motion)
        if told is not None:
            rate, source = told
            step = each.step
            found.append(Rattle(step.speed, step.direction_deg, kurtosis, rate, source))
    return tuple(found)


def _bursts(own: Take, step: Step) -> list[Array]:
    """Return what each stroke of a step holds above `LOWEST`, (n,) of the loudest channel."""
    from scipy.signal import butter, sosfiltfilt

    rate = own.evened.rate
    band = (LOWEST, min(own.band[1] / own.aligned.ratio, 0.49 * rate))
    filtered = butter(4, band, "bandpass", fs=rate, output="sos")
    found = []
    for stroke in step.strokes:
        start, end = own.aligned.at(stroke.start) + GUARD, own.aligned.at(stroke.end) - GUARD
        samples = own.evened.between(start, end)
        if samples is not None and len(samples) > 0.2 * rate:
            passed = sosfiltfilt(filtered, samples, axis=0)
            found.append(passed[:, int(np.argmax(passed.var(axis=0)))])
    return found


def _kurtosis(samples: Array) -> float:
    square = np.square(samples - samples.mean())
    return float(np.mean(square**2) / max(float(np.mean(square)) ** 2, 1e-300))


def _rate(
    own: Take, step: Step, bursts: Sequence[Array], motion: Motion
) -> tuple[float, str] | None:
    """Return the rate of the motors' line at which bursts come back [Hz], and its name.

    The spectrum of the envelope, mean over strokes, at the line and its harmonics.
    """
    rate, length = own.evened.rate, min(len(each) for each in bursts)
    envelopes = [np.square(each[:length]) for each in bursts]
    window = np.hanning(length)
    swings = [(each / each.mean() - 1.0) * window for each in envelopes]
    power = np.mean([np.abs(np.fft.rfft(each)) ** 2 for each in swings], axis=0)
    width = rate / length * own.aligned.ratio
    best: tuple[float, str] | None = None
    most = STANDS_OUT
    for factor in belts_of(motion, step.direction_deg):
        for source, line in motor_lines(motion, step.speed * factor).items():
            if not 3.0 * width < line < FASTEST:
                continue
            stands = [_stands(power, n * line / width) for n in range(1, HARMONICS + 1)]
            if float(np.mean(stands)) > most and stands[0] > STANDS_OUT:
                best, most = (line, source), float(np.mean(stands))
    return best


def _stands(power: Array, place: float) -> float:
    """Return how many times a line of a spectrum holds the median of what lies beside it."""
    at = round(place)
    if at + 2 >= len(power):
        return 0.0
    beside = np.concatenate([power[max(1, at - 12) : max(1, at - 2)], power[at + 3 : at + 13]])
    return float(power[at - 1 : at + 2].max() / max(float(np.median(beside)), 1e-300))
