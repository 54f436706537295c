"""Speeds that a recording says to avoid: louder than those on either side."""

from __future__ import annotations

from collections.abc import Collection
from typing import NamedTuple

import numpy as np

from isolator.measuring.order_map import Map, Ridge, place
from isolator.physics.arrays import Array

LOUDER_DB = 3.0
"""Plainly louder; common practice, no source."""
AROUND = 3
"""Speeds either way that one is held against."""


class Loud(NamedTuple):
    """A range of speeds to avoid [m/s]."""

    low: float
    high: float
    over: float  # [dB] the speeds around, mean over directions
    source: str  # the line that is loudest there; empty: none of the motors'
    directions_deg: tuple[float, ...]  # along which it is so [°]


class Levels(NamedTuple):
    """How loud each speed is, mean over directions, over the quietest [dB]."""

    speed: Array  # (v,) [m/s]
    level: Array  # (v,) [dB]


def levels(found: Map) -> Levels:
    """Return how loud each speed is."""
    return _levels(found, {direction for _, direction in found.keys})


def _levels(found: Map, directions: Collection[float]) -> Levels:
    """Return how loud each speed is along some directions; those that were not moved at are not
    told."""
    whole = found.energy.sum(axis=1)
    own = [row for row, (_, direction) in enumerate(found.keys) if direction in directions]
    speeds = sorted({found.keys[row][0] for row in own})
    each = [np.mean([whole[row] for row in own if found.keys[row][0] == v]) for v in speeds]
    level = 10.0 * np.log10(np.maximum(each, 1e-30))
    return Levels(np.array(speeds), level - level.min())


def loud_speeds(found: Map, ridges: tuple[Ridge, ...]) -> tuple[Loud, ...]:
    """Return ranges of speeds that are louder than those around, slowest first."""
    speed, level = levels(found)
    over = np.array([_over(level, at) for at in range(len(level))])
    along = sorted({direction for _, direction in found.keys})
    alone = {direction: _levels(found, {direction}) for direction in along}
    told: list[Loud] = []
    loud = np.flatnonzero(over >= LOUDER_DB)
    for run in np.split(loud, np.flatnonzero(np.diff(loud) > 1) + 1):
        if not len(run):
            continue
        first, last = int(run[0]), int(run[-1])
        top = int(run[np.argmax(over[run])])
        low = speed[first] if first == 0 else (speed[first - 1] + speed[first]) / 2.0
        high = speed[last] if last == len(speed) - 1 else (speed[last] + speed[last + 1]) / 2.0
        source = loudest(found, ridges, float(speed[top]))
        directions = _loud_along(alone, speed[run])
        told.append(Loud(float(low), float(high), float(over[top]), source, directions))
    return tuple(told)


def _loud_along(alone: dict[float, Levels], speeds: Array) -> tuple[float, ...]:
    """Return the directions in which one of `speeds` (k,) is loud; at least where it is most."""
    most = {
        direction: max(
            (_over(level, at) for at, each in enumerate(own) if each in speeds), default=-np.inf
        )
        for direction, (own, level) in alone.items()
    }
    least = min(LOUDER_DB, max(most.values()))
    return tuple(direction for direction, over in most.items() if over >= least)


def loudest(found: Map, ridges: tuple[Ridge, ...], speed: float) -> str:
    """Return the known line that holds most energy at a speed [m/s]; empty where none is known."""
    best, name = 0.0, ""
    for ridge in ridges:
        energy = 0.0
        for row in _rows(found, speed):
            at = place(found, ridge.order * speed * np.array(found.factors[row]))
            energy += float(found.energy[row, at].sum())
        if energy > best:
            best, name = energy, ridge.source
    return name


def _over(level: Array, at: int) -> float:
    """Return how far a speed stands over the median of those around it [dB]."""
    around = [*level[max(0, at - AROUND) : at], *level[at + 1 : at + 1 + AROUND]]
    return float(level[at] - np.median(around)) if len(around) >= AROUND else 0.0


def _rows(found: Map, speed: float) -> list[int]:
    return [row for row, (own, _) in enumerate(found.keys) if own == speed]
