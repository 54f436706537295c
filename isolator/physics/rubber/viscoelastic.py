"""Stiffness against frequency, time and temperature."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def springpot_exponent(loss_factor: ArrayLike) -> Array:
    """Return α [-] of a springpot, k ∝ (jω)^α, whose loss factor is η at every frequency.

    `loss_factor` η [-], 0 or more. α = (2/π)·atan η is the only rise of stiffness with frequency
    that is causal beside a constant η (Kramers–Kronig). Limits: real materials keep one η over a
    few decades at most. Source: L. Gaul, Mech. Syst. Signal Process. 5 (1991) 81, from memory;
    algebra: (j)^α = cos(πα/2) + j·sin(πα/2).

    >>> round(float(springpot_exponent(0.1)), 6)
    0.063451
    """
    return np.asarray(2.0 / np.pi * np.arctan(np.asarray(loss_factor, dtype=float)))


def dynamic_factor(
    frequency: ArrayLike, reference_frequency: ArrayLike, ratio: ArrayLike, loss_factor: ArrayLike
) -> Array:
    """Return dynamic over static stiffness [-] at `frequency` [Hz]: ratio·(f/f_ref)^α.

    `ratio` [-] holds at `reference_frequency` [Hz]; `loss_factor` η sets α. Limits: a decade or
    two round the reference; the real part of the springpot is meant.

    >>> round(float(dynamic_factor(40.0, 10.0, 1.25, 0.1)), 6)
    1.364933
    """
    rise = np.asarray(frequency, dtype=float) / np.asarray(reference_frequency, dtype=float)
    return np.asarray(np.asarray(ratio) * rise ** springpot_exponent(loss_factor))


def creep_factor(time: ArrayLike, per_decade: ArrayLike, reference_time: float = 60.0) -> Array:
    """Return sag after `time` over sag at `reference_time` [-]: 1 + c·log10(t/t0).

    `time`, `reference_time` [s]; `per_decade` c [-] is the sag added per decade of time. Before
    the reference time the factor is 1. Limits: constant load and temperature; physical creep
    only, chemical ageing comes on top after months. Source: P. B. Lindley, Engineering Design with
    Natural Rubber, 4th ed. 1978, from memory.

    >>> round(float(creep_factor(365 * 86400.0, 0.05)), 6)
    1.286033
    """
    decades = np.log10(np.maximum(np.asarray(time, dtype=float) / reference_time, 1.0))
    return np.asarray(1.0 + np.asarray(per_decade) * decades)


def temperature_factor(
    temperature: ArrayLike, per_kelvin: ArrayLike, reference: float = 20.0
) -> Array:
    """Return stiffness at `temperature` over stiffness at `reference` [°C] [-].

    `per_kelvin` [1/K] is the fractional change per kelvin, negative where warmth softens.
    exp(c·ΔT) keeps it positive and has the slope c at the reference. Limits: some 30 K round the
    reference, well above the glass transition. No source; first-order law.

    >>> round(float(temperature_factor(40.0, -0.004)), 6)
    0.923116
    """
    change = np.asarray(temperature, dtype=float) - reference
    return np.asarray(np.exp(np.asarray(per_kelvin) * change))
