"""What the model says of a change of feet, in the very steps and band of frequencies recorded."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from isolator.measuring.energies import Key
from isolator.physics.arrays import Array
from isolator.vibration.band import Band
from isolator.vibration.compared import QUICK, Compared
from isolator.vibration.desk import StoodOn, stood_on
from isolator.vibration.excitation import Excitation
from isolator.vibration.heard import desk_ear, strengths
from isolator.vibration.installation import Installation
from isolator.vibration.sampled import sample_band, sampled
from isolator.vibration.spectrum import grid_for, least_loss, way_out
from isolator.vibration.spreads import draw
from isolator.vibration.stand import Stand


def predicted(
    installation: Installation,
    before: Stand,
    after: Stand,
    keys: Sequence[Key],
    band: tuple[float, float],
    ear: bool,
) -> dict[Key, Band]:
    """Return by how many dB each step is louder on `after` than on `before`, of what leaves through
    the feet.

    Lines outside `band` [Hz] do not count. `ear`: as heard of the desk, A-weighted; else as the
    desk shakes. Nothing where no motor drives a belt.
    """
    excitation = installation.excitation
    if not excitation.belts or not keys:
        return {}
    samples, desk = (
        draw(installation.printer.extras, QUICK),
        stood_on(installation.surroundings.desk),
    )
    soft = desk if desk.material else None
    stands = [
        sampled(stand, installation.printer, excitation, samples, which)
        for stand, which in ((before, "now"), (after, "feet"))
    ]
    loss = min(least_loss(each.system) for each in stands)
    lowest = min(float(each.modes.frequency[0, 0]) for each in stands)
    grid = grid_for(excitation, [speed for speed, _ in keys], loss, lowest)
    # lines beyond the grid count at its end, which lies outside the band
    grid = grid[: int(np.searchsorted(grid, band[1], side="right")) + 1]
    counts = desk_ear(desk, grid) if ear else _shakes(desk, grid)
    counts = counts * ((grid >= band[0]) & (grid <= band[1]))
    both = [way_out(each, soft, grid) for each in stands]
    found: dict[Key, Band] = {}
    for direction in dict.fromkeys(each for _, each in keys):
        speeds = [speed for speed, each in keys if each == direction]
        compared = Compared(
            excitation=_along(excitation, direction),
            grid=grid,
            before=both[0],
            after=both[1],
            ear=counts,
            strong=strengths(excitation, samples),
            ceiling=math.inf,
        )
        levels = compared.changes(speeds)
        found |= {(speed, direction): sample_band(levels[:, at]) for at, speed in enumerate(speeds)}
    return found


def _along(excitation: Excitation, direction_deg: float) -> Excitation:
    """Return an excitation whose moves all go along one line."""
    motion = replace(excitation.motion, infill_angles=(math.radians(direction_deg),))
    return replace(excitation, motion=motion)


def _shakes(desk: StoodOn, grid: Array) -> Array:
    """Return what a unit of what the desk feels counts (f,) in its mean squared acceleration.

    Power P into a plate makes v² = P/(ω·η·m), so a² goes with ω·P; under a rigid desk the squared
    force stands for it. [derived]
    """
    return 2.0 * np.pi * grid if desk.material else np.ones(len(grid))
