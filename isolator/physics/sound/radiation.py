"""How well a plate that bends radiates sound: its radiation factor for free waves.

EN ISO 12354-1, annex B (form from memory). Below the critical frequency edges and corners radiate
alone; the standard's two ways to count them differ there by up to 3.5 dB.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

SOUND = 343.0
"""Speed of sound in air at 20 °C [m/s]."""
MOST = 2.0
"""The factor's ceiling near the critical frequency."""


def critical_frequency(bending: float, mass_per_area: float) -> float:
    """Return the frequency [Hz] at which bending waves are as fast as sound.

    `bending` [N·m], `mass_per_area` [kg/m²] of the plate.
    """
    return SOUND**2 / (2.0 * math.pi) * math.sqrt(mass_per_area / bending)


def radiation_factor(frequency: ArrayLike, critical: float, size: tuple[float, float]) -> Array:
    """Return the radiation factor σ (...) at `frequency` (...) [Hz], above 0.

    `critical` [Hz]; `size` [m] the plate's sides. Power radiated is ρ·c·S·σ·⟨v²⟩.
    """
    hertz = np.asarray(frequency, dtype=float)
    long, short = size
    first = SOUND**2 / (4.0 * critical) * (1.0 / long**2 + 1.0 / short**2)
    small = 4.0 * long * short * (hertz / SOUND) ** 2
    with np.errstate(divide="ignore", invalid="ignore"):
        above = 1.0 / np.sqrt(1.0 - critical / hertz)
    if first > critical / 2.0:
        edge = np.sqrt(2.0 * math.pi * hertz * (long + short) / (16.0 * SOUND))
        found = np.where(hertz < critical, np.minimum(small, edge), np.fmin(above, edge))
        return np.asarray(np.minimum(found, MOST))
    below = _edges(hertz, critical, size)
    below = np.where(hertz < first, np.minimum(below, small), below)
    return np.asarray(np.minimum(np.where(hertz < critical, below, above), MOST))


def _edges(hertz: Array, critical: float, size: tuple[float, float]) -> Array:
    """Return what edges and corners radiate below the critical frequency; unlimited there."""
    long, short = size
    ratio = np.sqrt(np.minimum(hertz / critical, 1.0 - 1e-9))
    rest = 1.0 - ratio**2
    edges = (rest * np.log((1.0 + ratio) / (1.0 - ratio)) + 2.0 * ratio) / (
        4.0 * math.pi**2 * rest**1.5
    )
    corners = np.where(
        hertz > critical / 2.0,
        0.0,
        8.0
        * SOUND**2
        * (1.0 - 2.0 * ratio**2)
        / (critical**2 * math.pi**4 * long * short * ratio * np.sqrt(rest)),
    )
    sides = 2.0 * (long + short) / (long * short) * SOUND / critical
    return np.asarray(sides * edges + corners)
