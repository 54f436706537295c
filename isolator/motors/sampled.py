"""Dampers and what stands round them over samples drawn from all spreads at once."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from typing import TypeVar

import numpy as np

from isolator.brief import Room
from isolator.cards import Material
from isolator.physics.arrays import Array, Complex
from isolator.physics.drive.chain import Drive
from isolator.physics.rubber.viscoelastic import dynamic_factor
from isolator.vibration.sampled import THREADS, Sampled
from isolator.vibration.spectrum import THIN, between, every
from isolator.vibration.spreads import DAMPER, PadFactors, Samples, pad_factors

T = TypeVar("T")


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


def side_by_side(one: Callable[[int], T], rows: Iterable[int]) -> list[T]:
    """Return what `one` makes of every row, rows in order, some at a time."""
    with ThreadPoolExecutor(THREADS) as pool:
        return list(pool.map(one, rows))


def over_samples(energies: Callable[[int, Array], Array], count: int, grid: Array) -> Array:
    """Return `energies` of a sample at some frequencies (f,) for `count` samples: (n, f, ...).

    The first at all frequencies of `grid`, the others at every third.
    """
    some = every(THIN, grid)
    nominal = energies(0, grid)
    others = side_by_side(lambda row: energies(row, grid[some]), range(1, count))
    return wide(nominal, others, grid)


def wide(nominal: Array, others: Sequence[Array] | Array, grid: Array) -> Array:
    """Return energies of all samples at all frequencies (n, f, ...): one nominal (f, ...), the
    others given at every third."""
    if not len(others):
        return nominal[None]
    thin = np.asarray(others)
    found = between(grid, grid[every(THIN, grid)], thin.reshape(*thin.shape[:2], -1))
    return np.concatenate([nominal[None], found.reshape(len(thin), *nominal.shape)])
