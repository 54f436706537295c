"""One mass on one spring: the textbook curves every other result must fall back to.

`ratio` r is the exciting frequency over the natural frequency, ζ the viscous damping ratio, η the
loss factor of a spring whose damping does not depend on frequency.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

STANDARD_GRAVITY = 9.80665
"""[m/s²], ISO 80000-3."""


def natural_frequency(stiffness: ArrayLike, mass: ArrayLike) -> Array:
    """Return (1/2π)·√(k/m) [Hz]; `stiffness` [N/m], `mass` [kg]."""
    return np.asarray(np.sqrt(np.asarray(stiffness) / np.asarray(mass)) / (2 * np.pi))


def frequency_of_deflection(deflection: ArrayLike, gravity: float = STANDARD_GRAVITY) -> Array:
    """Return (1/2π)·√(g/δ) [Hz] of a linear spring that sags by `deflection` [m].

    Linear springs alone: rubber and foam are stiffer in motion than at rest, so true values lie
    higher. Harris' Shock and Vibration Handbook, ch. 30 (equation number not recalled).

    >>> round(float(frequency_of_deflection(0.0025)), 5)
    9.96806
    """
    return np.asarray(np.sqrt(gravity / np.asarray(deflection)) / (2 * np.pi))


def deflection_of_frequency(frequency: ArrayLike, gravity: float = STANDARD_GRAVITY) -> Array:
    """Return the sag g/(2πf)² [m] of a linear spring with natural frequency `frequency` [Hz]."""
    return np.asarray(gravity / np.square(2 * np.pi * np.asarray(frequency)))


def viscous_transmissibility(ratio: ArrayLike, damping_ratio: ArrayLike) -> Array:
    """Return √((1 + (2ζr)²)/((1 − r²)² + (2ζr)²)), of force and of base motion alike.

    Inman, Engineering Vibration, eq. 2.71.
    """
    r, loss = np.asarray(ratio, dtype=float), 2 * np.asarray(damping_ratio) * np.asarray(ratio)
    return np.asarray(np.sqrt((1 + loss**2) / ((1 - r**2) ** 2 + loss**2)))


def hysteretic_transmissibility(ratio: ArrayLike, loss_factor: ArrayLike) -> Array:
    """Return √((1 + η²)/((1 − r²)² + η²)).

    Snowdon, Vibration and Shock in Damped Mechanical Systems, 1968 (from memory).
    """
    r, eta = np.asarray(ratio, dtype=float), np.asarray(loss_factor)
    return np.asarray(np.sqrt((1 + eta**2) / ((1 - r**2) ** 2 + eta**2)))


def viscous_peak(damping_ratio: ArrayLike) -> tuple[Array, Array]:
    """Return the ratio at which the viscous curve peaks, and the peak; ζ > 0.

    r_p² = (√(1 + 8ζ²) − 1)/(4ζ²); Harris ch. 30 (from memory). At r = 1 the curve is lower,
    √(1 + 4ζ²)/(2ζ): designing by it and by the true peak are two methods.
    """
    zeta = np.asarray(damping_ratio, dtype=float)
    ratio = np.sqrt((np.sqrt(1 + 8 * zeta**2) - 1) / (4 * zeta**2))
    return np.asarray(ratio), viscous_transmissibility(ratio, zeta)


def hysteretic_peak(loss_factor: ArrayLike) -> Array:
    """Return the peak √(1 + 1/η²) of the hysteretic curve; it lies at r = 1."""
    return np.asarray(np.sqrt(1 + 1 / np.square(np.asarray(loss_factor, dtype=float))))


def required_ratio_viscous(transmissibility: ArrayLike, damping_ratio: ArrayLike) -> Array:
    """Return the ratio above which the viscous curve stays under T < 1.

    The larger root of T²((1 − s)² + 4ζ²s) = 1 + 4ζ²s, s = r²; ζ = 0 gives √(1 + 1/T). [derived]
    """
    t2 = np.square(np.asarray(transmissibility, dtype=float))
    loss = 4 * np.square(np.asarray(damping_ratio, dtype=float))
    half = 1 - loss / 2 + loss / (2 * t2)
    return np.asarray(np.sqrt(half + np.sqrt(half**2 - 1 + 1 / t2)))


def required_ratio_hysteretic(transmissibility: ArrayLike, loss_factor: ArrayLike) -> Array:
    """Return √(1 + √((1 + η²)/T² − η²)), above which the hysteretic curve stays under T < 1."""
    eta2 = np.square(np.asarray(loss_factor, dtype=float))
    t2 = np.square(np.asarray(transmissibility, dtype=float))
    return np.asarray(np.sqrt(1 + np.sqrt((1 + eta2) / t2 - eta2)))


def base_force_ratio(ratio: ArrayLike, damping_ratio: ArrayLike) -> Array:
    """Return r²·T: force on a shaken base over k times its displacement.

    Not the transmissibility, with which it is easily mistaken. Inman, Engineering Vibration, §2.4.
    """
    return np.asarray(np.square(ratio) * viscous_transmissibility(ratio, damping_ratio))


def level(ratio: ArrayLike) -> Array:
    """Return 20·log10 of a ratio of amplitudes [dB]."""
    return np.asarray(20 * np.log10(np.asarray(ratio, dtype=float)))
