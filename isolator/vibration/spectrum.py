"""What a stand passes on over frequency, under a torque ripple of 1 N·m at each belt motor."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
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
    desk_power,
    floor_energy,
    on_desk,
    passed,
    rigid_energy,
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
    static: Array  # (1, f, m) blocked force alone, grown slowly, in the nominal sample
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


def spectrum(stand: Sampled, desk: StoodOn, grid: Array) -> Spectrum:
    """Return what a stand passes on in all samples at the frequencies `grid` (f,) [Hz].

    Samples beside the nominal one are worked out at every third frequency, and on the desk, which
    costs most of the time, at every fourth.
    """
    below = stand.desk(desk, grid)
    some, few = every(THIN, grid), every(THIN + 1, grid)
    first, rest = _apart(stand)
    (own,) = over_motors(first, grid, passed)
    (felt,) = over_motors(first, grid, lambda system, source: on_desk(system, source, below))
    floor = over_motors(
        rest,
        grid[some],
        lambda system, source: (floor_energy(system, source), rigid_energy(system, source)),
    )
    under = below.take(few)
    desks = over_motors(rest, grid[few], lambda system, source: on_desk(system, source, under))

    def whole(nominal: Array, others: Iterable[Array], at: NDArray[np.intp]) -> Array:
        thin = np.concatenate(list(others))
        return np.concatenate([nominal, between(grid, grid[at], thin)])

    return Spectrum(
        grid=grid,
        feet=whole(own.feet, (feet for feet, _ in floor), some),
        rigid=whole(own.rigid, (rigid for _, rigid in floor), some),
        static=own.static,
        desk=whole(felt.feet, (each.feet for each in desks), few),
        desk_rigid=whole(felt.rigid, (each.rigid for each in desks), few),
        loss=least_loss(stand.system),
        lowest=max(float(stand.modes.frequency[0, 0]), directions.LOWEST),
    )


def way_out(stand: Sampled, desk: StoodOn | None, grid: Array, step: int = THIN + 1) -> Array:
    """Return what leaves through the feet (c, f, m) for 1 N·m at each motor, at `grid` (f,) [Hz].

    Power into `desk` [W], or the squared foot forces [N²] on a rigid floor. Samples beside the
    nominal one are worked out at every `step`th frequency.
    """
    below = None if desk is None else stand.desk(desk, grid)
    few = every(step, grid)
    first, rest = _apart(stand)
    nominal = _way_out(first, below, grid)
    thin = _way_out(rest, None if below is None else below.take(few), grid[few])
    return np.concatenate([nominal, between(grid, grid[few], thin)])


def _way_out(stand: Sampled, below: Under | None, grid: Array) -> Array:
    def out(system: System, source: Source) -> Array:
        return floor_energy(system, source) if below is None else desk_power(system, source, below)

    return np.concatenate(over_motors(stand, grid, out))


def _apart(stand: Sampled) -> tuple[Sampled, Sampled]:
    """Return the nominal sample and all others."""
    return stand.take(np.array([0])), stand.take(np.arange(1, len(stand.above)))


def every(step: int, grid: Array) -> NDArray[np.intp]:
    """Return the indices of every `step`th frequency, the last one too."""
    return np.append(np.arange(0, len(grid) - 1, step), len(grid) - 1)


def between(grid: Array, thin: Array, energies: Array) -> Array:
    """Return `energies` (n, k, m), given at `thin` (k,), at `grid` (f,): straight in logarithms."""
    left = np.clip(np.searchsorted(thin, grid, side="right") - 1, 0, len(thin) - 2)
    share = np.log(grid / thin[left]) / np.log(thin[left + 1] / thin[left])
    level = np.log(np.maximum(energies, LEAST))
    # taken, not indexed, which would lay them out so that every sum over them copies them first
    low, high = level.take(left, axis=1), level.take(left + 1, axis=1)
    return np.asarray(np.exp(low + share[:, None] * (high - low)))
