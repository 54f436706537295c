"""Third-octave bands of a spectrum: IEC 61260-1, base ten (from memory)."""

from __future__ import annotations

import math

import numpy as np

from isolator.physics.arrays import Array

STEP = 10.0**0.1
"""From one band's centre to the next: a tenth of a decade."""
_NOMINAL = (1.0, 1.25, 1.6, 2.0, 2.5, 3.15, 4.0, 5.0, 6.3, 8.0)


def centres(low: float, high: float) -> Array:
    """Return the exact centres (b,) [Hz] of all bands that lie whole between `low` and `high`.

    Centres are 1000 Hz times whole powers of 10^(1/10), edges half a step off either side.

    >>> [round(float(each), 3) for each in centres(80.0, 180.0)]
    [100.0, 125.893, 158.489]
    """
    half = math.sqrt(STEP)
    first = math.ceil(10.0 * math.log10(low * half / 1000.0) - 1e-9)
    last = math.floor(10.0 * math.log10(high / half / 1000.0) + 1e-9)
    return np.asarray(1000.0 * STEP ** np.arange(first, last + 1))


def edges(centre: Array) -> tuple[Array, Array]:
    """Return the lower and upper edges (b,) [Hz] of bands round `centre` (b,) [Hz]."""
    half = math.sqrt(STEP)
    return centre / half, centre * half


def nominal(centre: float) -> float:
    """Return what a band is called [Hz].

    >>> [nominal(each) for each in (31.6228, 63.0957, 125.893, 1584.89)]
    [31.5, 63.0, 125.0, 1600.0]
    """
    place = round(10.0 * math.log10(centre))
    return round(_NOMINAL[place % 10] * 10.0 ** (place // 10), 6)


def energy_between(density: Array, step: float, low: Array, high: Array) -> Array:
    """Return the energy (..., b) between `low` and `high` (b,) [Hz] of a `density` (..., f).

    The density stands at whole multiples of `step` [Hz] from 0 on; each of its lines is spread
    evenly over `step`, so that bands that touch add up.

    >>> float(energy_between(np.full(50, 3.0), 2.0, np.array([11.0]), np.array([16.5]))[0])
    16.5
    """
    grown = np.concatenate(
        [np.zeros((*density.shape[:-1], 1)), np.cumsum(density, axis=-1) * step], axis=-1
    )

    def up_to(frequency: Array) -> Array:
        place = np.clip(frequency / step + 0.5, 0.0, density.shape[-1])
        below = np.minimum(place.astype(int), density.shape[-1] - 1)
        share = place - below
        return np.asarray(grown[..., below] * (1.0 - share) + grown[..., below + 1] * share)

    return np.asarray(up_to(np.asarray(high)) - up_to(np.asarray(low)))
