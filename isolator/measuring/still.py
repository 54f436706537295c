"""What stands still in an order map: resonances that lines cross, and tones that never stop."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np

from isolator.measuring.energies import Take
from isolator.measuring.order_map import Map, Ridge, place
from isolator.measuring.steps import lines_of
from isolator.physics.arrays import Array

WIDE = 0.06
"""Of a resonance, as a share of its frequency: half the width over which levels are averaged."""
GROWN_DB = 5.0
"""Lines grow by so much where they cross a resonance."""
CROSSINGS = 3
"""Of lines with a resonance, so that it is one."""
HUM_DB = 10.0
"""A tone of the room stands so far over what lies beside it."""
BESIDE = 12
"""Lines of the spectrum beside one."""


class Resonance(NamedTuple):
    """Where lines grow, whichever they are."""

    frequency: float  # [Hz]
    grown: float  # [dB] over the same lines elsewhere
    crossings: int  # of lines and steps that tell it


def resonances(found: Map, ridges: Sequence[Ridge]) -> tuple[Resonance, ...]:
    """Return where the ridges' lines grow, lowest frequency first.

    Each line is taken over its own median, so that a loud source is no resonance.
    """
    points = _points(found, ridges)
    if len(points) < 2 * CROSSINGS:
        return ()
    log = np.log(points[:, 0])
    grid = np.arange(log.min(), log.max(), WIDE / 4.0)
    near = np.exp(-0.5 * ((grid[:, None] - log) / WIDE) ** 2)
    level = near @ points[:, 1] / np.maximum(near.sum(axis=1), 1e-9)
    told = []
    for at in range(1, len(grid) - 1):
        if level[at] < GROWN_DB or level[at] < level[at - 1 : at + 2].max():
            continue
        here = points[np.abs(log - grid[at]) < WIDE]
        around = (np.abs(grid - grid[at]) > 3.0 * WIDE) & (np.abs(grid - grid[at]) < 8.0 * WIDE)
        falls = level[at] - level[around].max() if around.any() else 0.0
        lines = {round(each) for each in here[:, 2]}
        if len(here) >= CROSSINGS and len(lines) > 1 and falls >= GROWN_DB / 2.0:
            told.append(Resonance(float(np.exp(grid[at])), float(level[at]), len(here)))
    return tuple(told)


def _points(found: Map, ridges: Sequence[Ridge]) -> Array:
    """Return frequency [Hz], level over its line's median [dB], and order of each crossing (p, 3).

    Energies grow with what a line pushes and with what it meets: only the second stands still.
    """
    points = []
    for ridge in ridges:
        own = []
        for row, (speed, _) in enumerate(found.keys):
            for factor in found.factors[row]:
                frequency = ridge.order * speed * factor
                at = place(found, np.array([frequency]))
                if len(at):
                    energy = found.energy[row, max(0, at[0] - 1) : at[0] + 2].max()
                    own.append((frequency, 10.0 * np.log10(max(energy, 1e-30)), ridge.order))
        if len(own) >= CROSSINGS:
            middle = float(np.median([level for _, level, _ in own]))
            points += [(frequency, level - middle, order) for frequency, level, order in own]
    return np.array(points).reshape(-1, 3)


def hums(own: Take) -> tuple[float, ...]:
    """Return the tones [Hz] that the room holds while nothing moves: fans, mains, other things."""
    room = own.room(own.steps[0].length) if own.steps else None
    if room is None:
        return ()
    from scipy.ndimage import median_filter

    level = 10.0 * np.log10(np.maximum(room.density.mean(axis=0), 1e-30))
    stands = level - median_filter(level, 2 * BESIDE + 1, mode="nearest")
    frequency, (low, high) = lines_of(room), own.band
    tops = [
        at
        for at in range(1, len(level) - 1)
        if stands[at] >= HUM_DB and level[at] == level[at - 1 : at + 2].max()
    ]
    step = frequency[1] - frequency[0]
    told = [float(frequency[at] + step * _between(level[at - 1 : at + 2])) for at in tops]
    return tuple(each for each in told if low <= each <= high)


def _between(levels: Array) -> float:
    """Return how many lines the top of a tone lies beside the middle one of three [dB].

    By a parabola through them, which a Hann window's lobe in decibels nearly is: off by no more
    than 0.02 lines. [derived]
    """
    left, middle, right = levels
    bend = left - 2.0 * middle + right
    return 0.0 if bend >= 0.0 else float(0.5 * (left - right) / bend)
