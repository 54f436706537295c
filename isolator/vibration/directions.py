"""Moves over the half turn: which frequencies a line runs through, and means over directions.

A line of a belt motor follows the belt's speed, and that follows the direction ψ of the move:
v·|cos ψ| or v·|sin ψ| for a motor of its own for each axis, √2·v·|cos(ψ ∓ 45°)| for two crossed
belts. So over all directions every motor's line runs from zero up to a top frequency, F =
F_top·|cos(ψ − ψ₀)|, and a mean over directions is an integral over frequency: the share of
directions below F is (2/π)·asin(F/F_top). [derived]
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from functools import lru_cache

import numpy as np

from isolator.physics.arrays import Array
from isolator.physics.drive.stepper import belt_factors

STEPS_A_WIDTH = 4.0
"""Frequencies looked at in the half-power width of the narrowest resonance."""
LARGEST_STEP = 0.05
"""Between neighbouring frequencies, as a share; no smooth curve needs more."""
LOWEST = 0.5
"""Lines below [Hz] are counted there: so slow a turn passes on next to nothing."""
MOST_DIRECTIONS = 200_000


def frequency_grid(highest: float, loss: float, lowest: float = LOWEST) -> Array:
    """Return frequencies (f,) [Hz] from `lowest` to `highest`; no resonance is stepped over.

    `loss` is the smallest loss factor of what resonates: a half-power width is that share of the
    resonance's frequency.
    """
    step = min(LARGEST_STEP, max(loss, 0.005) / STEPS_A_WIDTH)
    top = max(highest, 1.001 * lowest)
    return np.geomspace(lowest, top, 2 + math.ceil(math.log(top / lowest) / step))


def turn_weights(grid: Array, top: float) -> Array:
    """Return weights (f,) that make the mean over all directions of a curve given on `grid`.

    `grid` (f,) [Hz] rising, to `top` [Hz] at least; the curve is taken as straight between its
    points. Σ weights = 1.
    """
    low, high = np.minimum(grid[:-1], top), np.minimum(grid[1:], top)
    # ∫dμ and ∫F dμ over each piece, μ = (2/π)·asin(F/top)
    share = 2.0 / math.pi * (np.arcsin(high / top) - np.arcsin(low / top))
    left = [np.sqrt(np.maximum(top**2 - end**2, 0.0)) for end in (low, high)]
    moment = 2.0 / math.pi * (left[0] - left[1])
    width = grid[1:] - grid[:-1]
    upper = (moment - grid[:-1] * share) / width
    weights = np.zeros(len(grid))
    weights[1:] += upper
    weights[:-1] += share - upper
    weights[0] += 2.0 / math.pi * math.asin(min(grid[0] / top, 1.0))
    return weights


def point_weights(grid: Array, frequencies: Array) -> Array:
    """Return weights (f,) that make the mean of a curve given on `grid` at `frequencies` (k,)."""
    weights = np.zeros(len(grid))
    at = np.clip(frequencies, grid[0], grid[-1])
    left = np.clip(np.searchsorted(grid, at, side="right") - 1, 0, len(grid) - 2)
    upper = (at - grid[left]) / (grid[left + 1] - grid[left])
    np.add.at(weights, left, (1.0 - upper) / len(at))
    np.add.at(weights, left + 1, upper / len(at))
    return weights


def top_factor(layout: str) -> float:
    """Return the fastest belt speed over all directions, over the tool's speed."""
    return math.sqrt(2.0) if layout == "crossed-belt" else 1.0


def mean_weights(
    layout: str, belt: int, line: float, grid: Array, angles: Sequence[float]
) -> Array:
    """Return weights (f,) over `grid` for the mean of one motor's line over directions.

    `belt` 0 or 1, `line` [Hz] of a belt that runs as fast as the tool; `angles` [rad] of the
    moves, none for all directions alike.
    """
    if not angles:
        return _kept_weights(grid.tobytes(), top_factor(layout) * line)
    return point_weights(grid, line * belt_factors(layout, np.array(angles))[belt])


@lru_cache(maxsize=4096)
def _kept_weights(grid: bytes, top: float) -> Array:
    """Return `turn_weights`: belts, charts and comparisons ask for the same ones."""
    weights = turn_weights(np.frombuffer(grid), top)
    weights.flags.writeable = False
    return weights


def looked_at(
    layout: str, angles: Sequence[float], resonance: float, top: float, loss: float
) -> Array:
    """Return the directions (k,) [rad] to look at: `angles`, or `swept` ones where none are."""
    return np.array(angles) if angles else swept(layout, resonance, top, loss)


def swept(layout: str, resonance: float, top: float, loss: float) -> Array:
    """Return directions (k,) [rad] over the half turn, so close that no resonance is stepped over.

    `resonance` [Hz] the lowest with its loss factor `loss`, `top` [Hz] the fastest line. A line
    crosses a resonance within loss·resonance/top of a turn [rad]: a quarter of that is the step.
    """
    width = max(loss, 0.005) * max(resonance, LOWEST) / max(top, LOWEST)
    count = min(MOST_DIRECTIONS, max(360, math.ceil(math.pi * STEPS_A_WIDTH / width)))
    return np.asarray((np.arange(count) + 0.5) * (math.pi / count))
