"""Dampers and what stands round them over samples drawn from all spreads at once."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Room
from isolator.cards import Material
from isolator.physics.arrays import Array, Complex
from isolator.physics.drive.chain import Drive
from isolator.physics.rubber.viscoelastic import dynamic_factor
from isolator.vibration.sampled import ROWS, THREADS, Sampled
from isolator.vibration.spectrum import THIN, between, every
from isolator.vibration.spreads import DAMPER, PadFactors, Samples, pad_factors

Rows = NDArray[np.intp]
"""Which samples, by their number."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A printer on its feet in n samples, the nominal one first."""

    samples: Samples
    feet: Sampled

    @property
    def drives(self) -> list[tuple[Drive, ...]]:
        """The belt drives in every sample."""
        return [above.excitation.drives for above in self.feet.above]

    def rubber(self, material: Material, room: Room, warm: float) -> PadFactors:
        """Return factors (n,) on a damper's rubber, which is `warm` [°C] at its warmest."""
        temperature = self.samples.motor_temperature(room, warm)
        return pad_factors(self.samples, material, temperature, DAMPER)


def dynamic_rise(
    material: Material, frequency: Array, ratio: Array | float = 1.0, loss: Array | float = 1.0
) -> Complex:
    """Return complex dynamic over static stiffness (..., f) at `frequency` (f,) [Hz].

    `ratio`, `loss`: factors (..., 1) on the card's dynamic ratio and loss factor.
    """
    lossy = loss * material.loss_factor.value
    rise = dynamic_factor(
        frequency, material.reference_frequency, ratio * material.dynamic_ratio.value, lossy
    )
    return np.asarray(rise * (1.0 + 1j * lossy), dtype=complex)


def side_by_side(energies: Callable[[Rows], Array], rows: Rows) -> Array:
    """Return what `energies` makes of some of `rows` at a time (n, ...), for all of them in order.

    Some of these groups are worked out at once.
    """
    groups = [rows[begin : begin + ROWS] for begin in range(0, len(rows), ROWS)]
    if len(groups) == 1:
        return energies(rows)
    with ThreadPoolExecutor(THREADS) as pool:
        return np.concatenate(list(pool.map(energies, groups)))


def over_samples(energies: Callable[[Rows, Array], Array], count: int, grid: Array) -> Array:
    """Return `energies` of samples at some frequencies (n, f, ...) for `count` samples.

    The first at all frequencies of `grid` (f,), the others at every third.
    """
    own = energies(np.array([0]), grid)
    if count == 1:
        return own
    some = grid[every(THIN, grid)]
    others = side_by_side(lambda rows: energies(rows, some), np.arange(1, count))
    return wide(own[0], others, grid)


def wide(nominal: Array, thin: Array, grid: Array) -> Array:
    """Return energies of all samples at all frequencies (n, f, ...): one nominal (f, ...), the
    others given at every third."""
    if not len(thin):
        return nominal[None]
    found = between(grid, grid[every(THIN, grid)], thin.reshape(*thin.shape[:2], -1))
    return np.concatenate([nominal[None], found.reshape(len(thin), *nominal.shape)])
