"""A recording made with the motors off: tones that stay, whose they may be, its hiss."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.recordings.recording import Recording
from isolator.vibration.excitation import FanTone

HISS = 2000.0
"""[Hz] above which it counts as a hiss."""
SEGMENT = 1.0
"""Seconds of a segment: tones are told to about a hertz."""
STANDS_OUT = 10.0 ** (12.0 / 10.0)
"""Density of a tone over the middle of what lies about it; 12 dB, estimated."""
ABOUT = 40
"""Lines about a tone that it is held against."""
MOST = 5
NEAR = 0.05
"""By how much a fan may run off the speed that is told."""
MAINS = (50.0, 60.0)
MAINS_MOST = 3
LOWEST = 20.0
REACH = 1000.0
"""[Hz] up to which a recording has to reach before no tone means no fan; estimated, no source."""
PARTS = 4
"""Stretches, of `PART` segments at least, that are held against each other."""
PART = 2
CHANGES = 10.0
"""Ratio of a tone's density in two parts from which it changes; 10 dB, estimated, no source."""
WANDERS = 0.03
"""By how much a fan may wander in speed within a recording."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Tone:
    """A tone that stays with the motors off."""

    frequency: float  # [Hz]
    over: float  # what lies about it [dB]
    likely: str  # what it may be of; empty: unknown
    fan: bool  # whether that is a fan of the brief


@dataclass(frozen=True, slots=True, kw_only=True)
class Still:
    """What a recording with motors off holds."""

    tones: tuple[Tone, ...]  # the loudest first
    hiss: float | None  # share of the energy above `HISS`; None: the recording does not reach it
    usable: tuple[float, float]  # [Hz]
    changes: bool  # whether tones come or go within it, which fans' do not

    @property
    def fans(self) -> bool | None:
        """Return whether fans are heard; None where the recording does not tell."""
        if self.changes:
            return None
        if any(tone.fan for tone in self.tones):
            return True
        # hum of the mains comes with the supply, not with a fan
        unknown = any(not tone.likely for tone in self.tones)
        return None if unknown or self.usable[1] < REACH else False


def heard_still(recording: Recording, fans: Sequence[FanTone]) -> Still:
    """Return the tones of a recording made with the motors off."""
    # slow to load
    from isolator.physics.signals.spectra import density

    usable = recording.verdict.usable_hz
    longest = max(recording.stretches(), key=lambda each: len(each.samples))
    segment = min(len(longest.samples), max(64, round(SEGMENT * longest.rate)))
    frequency, power, _ = density(longest.samples, longest.rate, segment)
    heard: Array = power.sum(axis=1)
    within = (frequency >= max(LOWEST, usable[0])) & (frequency <= usable[1])
    hiss = None
    if usable[1] > 2.0 * HISS and heard[within].sum() > 0:
        hiss = float(heard[within & (frequency >= HISS)].sum() / heard[within].sum())
    tones = []
    for at, ratio in _peaks(heard, within):
        likely, fan = _likely(float(frequency[at]), fans)
        over = float(10.0 * np.log10(ratio))
        tones.append(Tone(frequency=float(frequency[at]), over=over, likely=likely, fan=fan))
    count = min(PARTS, len(longest.samples) // (PART * segment))
    parts = [
        density(part, longest.rate, segment)[1].sum(axis=1)
        for part in (np.array_split(longest.samples, count) if count > 1 else ())
    ]
    return Still(tones=tuple(tones), hiss=hiss, usable=usable, changes=_change(parts, within))


def _change(parts: Sequence[Array], within: NDArray[np.bool_]) -> bool:
    """Return whether a tone that stands out in one part is far weaker in another."""
    for part in parts:
        for at, _ in _peaks(part, within):
            wide = max(2, round(WANDERS * at))
            levels = [each[max(at - wide, 0) : at + wide + 1].max() for each in parts]
            if max(levels) > CHANGES * min(levels):
                return True
    return False


def _peaks(heard: Array, within: NDArray[np.bool_]) -> list[tuple[int, float]]:
    """Return where tones stand out and by what ratio, the loudest first."""
    found = []
    for at in np.flatnonzero(within):
        low, high = max(at - ABOUT, 0), at + ABOUT + 1
        if heard[at] < heard[max(at - 2, 0) : at + 3].max() or heard[at] <= 0:
            continue
        ratio = float(heard[at] / max(float(np.median(heard[low:high])), 1e-300))
        if ratio > STANDS_OUT:
            found.append((int(at), ratio))
    return sorted(found, key=lambda each: -float(heard[each[0]]))[:MOST]


def _likely(frequency: float, fans: Sequence[FanTone]) -> tuple[str, bool]:
    """Return what a tone may be of, and whether that is a fan."""
    for fan in fans:
        if abs(frequency / fan.frequency - 1.0) < NEAR:
            return fan.source, True
    for mains in MAINS:
        for times in range(1, MAINS_MOST + 1):
            if abs(frequency - times * mains) <= 1.0:
                return f"{times} × {mains:.0f} Hz of the mains", False
    return "", False
