"""Samples that only repeat the one before: an app asks faster than its sensor answers."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array

NATURAL = 1.0
"""Rows that equal the one before may be so many times those that differ from it by one step."""


def repeated(samples: Array, stamps: Array | None) -> NDArray[np.bool_]:
    """Return which samples (n, k) only repeat the one before; none where they may be so by chance.

    With coarse steps two readings in a row are equal by chance, but then they are about as often
    one step apart. `stamps` (n,) are their times: what is equal in time and reading is doubled.
    """
    steps = np.abs(np.diff(samples, axis=0))
    equal = np.concatenate(([False], ~steps.any(axis=1)))
    if not equal.any():
        return equal
    finest = np.array([_step(column) for column in steps.T])
    near = (steps <= 1.5 * finest).all(axis=1) & ~equal[1:]
    if np.count_nonzero(equal) > NATURAL * np.count_nonzero(near):
        return equal
    if stamps is None:
        return np.zeros_like(equal)
    return equal & np.concatenate(([False], np.diff(stamps) == 0.0))


def _step(steps: Array) -> float:
    return float(np.min(steps[steps > 0.0], initial=np.inf))
