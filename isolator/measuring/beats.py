"""Steps in which two motors turn at one speed: their tones add up or cancel, nobody knows which.

How far the two are apart in phase hangs on where each stopped last, and on the way from each to the
recorder, which other feet change. A mean over phases is what the model tells; one step of one
recording shows one phase.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from isolator.brief import Motion
from isolator.measuring.chance import SHARE
from isolator.measuring.change import Change
from isolator.measuring.energies import Key
from isolator.physics.arrays import Array
from isolator.physics.drive.stepper import LAYOUTS, belt_factors
from isolator.vibration.band import Band

STILL = 1e-6
"""A belt slower than this share of the tool stands."""
ALIKE = 2e-3
"""Of two speeds, as a share: what is farther apart runs through all phases in one step."""
DRAWS = 20_000
"""Of phases, as many of each."""


def beating(motion: Motion, belts: Sequence[int], keys: Iterable[Key]) -> frozenset[Key]:
    """Return the steps in which two motors turn at one speed; `belts` is what each of them drives,
    A or x 0 and B or y 1."""
    return frozenset(key for key in keys if _alike(motion.layout, belts, key[1]))


def may_beat(keys: Iterable[Key]) -> frozenset[Key]:
    """Return the steps in which two motors turn at one speed on one kind of printer or another."""
    return frozenset(
        key for key in keys if any(_alike(layout, (0, 1), key[1]) for layout in LAYOUTS)
    )


def _alike(layout: str, belts: Sequence[int], direction_deg: float) -> bool:
    factors = belt_factors(layout, math.radians(direction_deg))
    runs = sorted(float(factors[belt]) for belt in belts if factors[belt] > STILL)
    return any(b - a <= ALIKE * b for a, b in pairwise(runs))


class Beats:
    """How far a sum of steps may lie from its mean over phases.

    Two equal motors: their energy is 1 + cos φ times the mean, φ anything; unequal ones, several
    lines and strokes at several phases come nearer to it. Steps have phases of their own, as the
    ways from both motors turn over frequency. [derived]
    """

    def __init__(self, keys: Sequence[Key], beats: frozenset[Key]) -> None:
        self.any = any(key in beats for key in keys)
        if self.any:
            even = (np.arange(DRAWS) + 0.5) * np.pi / DRAWS
            phases = np.broadcast_to(even[:, None], (2, DRAWS, len(keys)))
            phases = np.random.default_rng(1).permuted(phases, axis=1)
            own = np.array([key in beats for key in keys])
            self._grown = np.where(own, 1.0 + np.cos(phases), 1.0)

    def widened(self, told: Change, before: Array, after: Array) -> Change:
        """Return the change of a sum of the steps' energies (k,), its band as wide as phases may
        shift it and noise may besides."""
        if not self.any or min(before.sum(), after.sum()) <= 0.0:
            return told
        first, then = (
            10.0 * np.log10(grown @ own / own.sum())
            for grown, own in zip(self._grown, (before, after), strict=True)
        )
        down, up = np.quantile(then - first, (1.0 - SHARE, SHARE))
        band = told.change
        low = band.nominal - math.hypot(band.nominal - band.low, up)
        high = band.nominal + math.hypot(band.high - band.nominal, down)
        return replace(told, change=Band(low=low, nominal=band.nominal, high=high))
