"""What a stand passes on over frequency, under a torque ripple of 1 N·m at each belt motor."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array
from isolator.vibration import directions
from isolator.vibration.desk import StoodOn, Under
from isolator.vibration.drives import BELT_LOSS
from isolator.vibration.excitation import Excitation, motor_lines
from isolator.vibration.isolation import (
    LEAST,
    OnDesk,
    Passed,
    desk_power,
    floor_energy,
    on_desk,
    passed,
)
from isolator.vibration.sampled import Sampled, over_motors
from isolator.vibration.source import Source
from isolator.vibration.system import System

THIN = 3
"""Of so many frequencies one is enough for the samples: a band is a quantile of means over
directions, and what a resonance's tip loses here it gains there."""
NARROW_TO = 600.0
"""No narrow resonance lies above [Hz]: belts and frames are lower, a rotor's field is broad."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spectrum:
    """Energies over frequency in c samples, the nominal one first."""

    grid: Array  # (f,) [Hz]
    feet: Array  # (c, f, m) squared norm of all foot forces [N²] for each 1 N·m at motor m
    rigid: Array  # (c, f, m) on rigid feet
    static: Array  # (c, f, m) blocked force alone, grown slowly
    desk: Array  # (c, f, m) what the desk feels on these feet
    desk_rigid: Array  # (c, f, m) and on rigid ones
    loss: float  # smallest loss factor of what resonates
    lowest: float  # lowest mode, nominal [Hz]


def grid_for(
    excitation: Excitation, speeds: Sequence[float], loss: float, lowest: float = 0.0
) -> Array:
    """Return the frequencies [Hz] that all lines at `speeds` [m/s] run through.

    `loss` is the smallest loss factor of what resonates, `lowest` [Hz] lies below all of that.
    """
    motion = excitation.motion
    lines = motor_lines(motion, max(speeds) * directions.top_factor(motion.layout))
    top = max(1.001 * max(lines.values()), 2.0 * directions.LOWEST)
    first = min(max(lowest, directions.LOWEST), top)
    last = min(max(NARROW_TO, first), top)
    parts = [np.array([directions.LOWEST])]
    for low, high, own in ((directions.LOWEST, first, 1.0), (first, last, loss), (last, top, 1.0)):
        if high > low:
            parts.append(directions.frequency_grid(high, own, low)[1:])
    return np.concatenate(parts)


def least_loss(system: System) -> float:
    """Return the smallest loss factor of feet, frame and belts, of the first of n sets of feet."""
    bending = system.case.bending
    return min(
        float(system.feet.loss[0].min()),
        BELT_LOSS,
        math.inf if bending is None else float(bending.loss.min()),
    )


def spectrum(stand: Sampled, desk: StoodOn | None, grid: Array) -> Spectrum:
    """Return what a stand passes on in all samples at the frequencies `grid` (f,) [Hz].

    Without a desk, on a rigid floor alone: a desk costs most of the time. Samples beside the
    nominal one are worked out at every third frequency, and on the desk at every fourth.
    """
    below = None if desk is None else stand.desk(desk, grid)
    nominal = _energies(stand.take(np.array([0])), below, grid)
    rest = stand.take(np.arange(1, len(stand.above)))
    some = every(THIN, grid)
    others = _spread(grid, some, _energies(rest, None, grid[some]))
    if below is not None:
        few = every(THIN + 1, grid)
        felt = _spread(grid, few, _energies(rest, below.take(few), grid[few]))
        others |= {name: felt[name] for name in ("desk", "desk_rigid")}
    energies = {name: np.concatenate([own, others[name]]) for name, own in nominal.items()}
    return Spectrum(
        grid=grid,
        **energies,
        loss=least_loss(stand.system),
        lowest=max(float(stand.modes.frequency[0, 0]), directions.LOWEST),
    )


def way_out(stand: Sampled, desk: StoodOn | None, grid: Array) -> Array:
    """Return what leaves through the feet (c, f, m) for 1 N·m at each motor, at `grid` (f,) [Hz].

    Power into `desk` [W], or the squared foot forces [N²] on a rigid floor. Samples beside the
    nominal one are worked out at every fourth frequency.
    """
    below = None if desk is None else stand.desk(desk, grid)
    few = every(THIN + 1, grid)
    nominal = _way_out(stand.take(np.array([0])), below, grid)
    rest = stand.take(np.arange(1, len(stand.above)))
    thin = _way_out(rest, None if below is None else below.take(few), grid[few])
    return np.concatenate([nominal, between(grid, grid[few], thin)])


def _way_out(stand: Sampled, below: Under | None, grid: Array) -> Array:
    def out(system: System, source: Source) -> Array:
        return floor_energy(system, source) if below is None else desk_power(system, source, below)

    return np.concatenate(over_motors(stand, grid, out))


def _energies(stand: Sampled, below: Under | None, grid: Array) -> dict[str, Array]:
    """Return the energies of a `Spectrum`, by name."""

    def both(system: System, source: Source) -> tuple[Passed, Passed | OnDesk]:
        own = passed(system, source)
        return own, own if below is None else on_desk(system, source, below)

    found, felt = zip(*over_motors(stand, grid, both), strict=True)
    return {
        "feet": np.concatenate([each.feet for each in found]),
        "rigid": np.concatenate([each.rigid for each in found]),
        "static": np.concatenate([each.static for each in found]),
        "desk": np.concatenate([each.feet for each in felt]),
        "desk_rigid": np.concatenate([each.rigid for each in felt]),
    }


def every(step: int, grid: Array) -> NDArray[np.intp]:
    """Return the indices of every `step`th frequency, the last one too."""
    return np.append(np.arange(0, len(grid) - 1, step), len(grid) - 1)


def _spread(grid: Array, some: NDArray[np.intp], found: dict[str, Array]) -> dict[str, Array]:
    """Return energies that are given at the frequencies `some` of `grid` at all of them."""
    return {name: between(grid, grid[some], each) for name, each in found.items()}


def between(grid: Array, thin: Array, energies: Array) -> Array:
    """Return `energies` (n, k, m), given at `thin` (k,), at `grid` (f,): straight in logarithms."""
    left = np.clip(np.searchsorted(thin, grid, side="right") - 1, 0, len(thin) - 2)
    share = np.log(grid / thin[left]) / np.log(thin[left + 1] / thin[left])
    level = np.log(np.maximum(energies, LEAST))
    step = level[:, left + 1] - level[:, left]
    return np.asarray(np.exp(level[:, left] + share[:, None] * step))
