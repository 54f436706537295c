"""Foam: how its stress grows with compression, and Gibson and Ashby's first guesses."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.rubber.plain_pads import (
    compression_stiffness,
    shear_stiffness,
    tilt_stiffness,
    twist_stiffness,
)

__all__ = [
    "ATMOSPHERE",
    "closed_cell_modulus",
    "collapse_stress",
    "compression_stiffness",
    "curve_slope",
    "densification_strain",
    "gas_stress",
    "natural_frequency",
    "open_cell_modulus",
    "shear_stiffness",
    "smooth_law",
    "strain_under",
    "stress_at",
    "tilt_stiffness",
    "twist_stiffness",
]

Array = NDArray[np.float64]

ATMOSPHERE = 101_325.0
"""Standard pressure [Pa]."""

_NODES = 20_001


def curve_slope(strain: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the tangent modulus [Pa] of a measured curve at `strain` [-].

    `curve_strain` [-] and `curve_stress` [Pa] rise strictly from 0; between points monotone cubic
    (PCHIP). Beyond the last point the slope stays at its last value. Errors: the cubic is read
    from 20 001 nodes, slope to 1e-3 of the curve's steepest slope. Source: F. N. Fritsch,
    R. E. Carlson, SIAM J. Numer. Anal. 17 (1980) 238.

    >>> round(float(curve_slope(0.2, [0.0, 0.1, 0.2, 0.3], [0.0, 20e3, 40e3, 60e3])))
    200000
    """
    grid, _, slope = _dense(_points(curve_strain), _points(curve_stress))
    return np.asarray(np.interp(np.asarray(strain, dtype=float), grid, slope))


def strain_under(stress: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the compression strain [-] at which a measured curve carries `stress` [Pa].

    Curve as in `curve_slope`. A stress beyond the last point gives the last strain: check the
    strain against the card's limit. Errors: 1e-4 of the curve's last strain.

    >>> round(float(strain_under(30e3, [0.0, 0.1, 0.2, 0.3], [0.0, 20e3, 40e3, 60e3])), 6)
    0.15
    """
    grid, values, _ = _dense(_points(curve_strain), _points(curve_stress))
    return np.asarray(np.interp(np.asarray(stress, dtype=float), values, grid))


def stress_at(strain: ArrayLike, curve_strain: ArrayLike, curve_stress: ArrayLike) -> Array:
    """Return the stress [Pa] that a measured curve carries at `strain` [-].

    Inverse of `strain_under`; beyond the last point the last stress. Errors: 1e-6 of it.

    >>> round(float(stress_at(0.15, [0.0, 0.1, 0.2, 0.3], [0.0, 20e3, 40e3, 60e3])))
    30000
    """
    grid, values, _ = _dense(_points(curve_strain), _points(curve_stress))
    return np.asarray(np.interp(np.asarray(strain, dtype=float), grid, values))


def _points(values: ArrayLike) -> tuple[float, ...]:
    return tuple(np.asarray(values, dtype=float).tolist())


@lru_cache(maxsize=64)
def _dense(strain: tuple[float, ...], stress: tuple[float, ...]) -> tuple[Array, Array, Array]:
    """Return strain, stress and slope of the cubic at even strains; a card has one curve."""
    from scipy.interpolate import PchipInterpolator

    if len(strain) < 2 or min(np.diff(strain)) <= 0 or min(np.diff(stress)) <= 0:
        raise ValueError(
            "the stress-strain curve does not rise at every point; wanted two points or more, "
            "strain and stress each larger than the one before"
        )
    curve = PchipInterpolator(np.array(strain), np.array(stress))
    grid = np.linspace(strain[0], strain[-1], _NODES)
    return grid, curve(grid), curve(grid, 1)


def gas_stress(
    strain: ArrayLike,
    relative_density: ArrayLike,
    *,
    poisson: ArrayLike = 0.0,
    pressure: float = ATMOSPHERE,
) -> Array:
    """Return the stress [Pa] of the air shut in closed cells: p0·ε'/(1 − ε' − φ).

    `strain` ε [-], ε' = ε(1 − 2ν) the volume lost; `relative_density` φ [-] of solid; `pressure`
    p0 [Pa]. Isothermal, no gas lost: under a lasting load half of it leaks out within hours
    to weeks. Source: L. J. Gibson, M. F. Ashby, Cellular Solids, 2nd ed. 1997, ch. 5, from memory.

    >>> round(float(gas_stress(0.25, 0.1)))
    38971
    """
    lost = np.asarray(strain, dtype=float) * (1.0 - 2.0 * np.asarray(poisson, dtype=float))
    return np.asarray(pressure * lost / (1.0 - lost - np.asarray(relative_density)))


def open_cell_modulus(solid: ArrayLike, relative_density: ArrayLike) -> Array:
    """Return Young's modulus [Pa] of open-cell foam: E_s·φ².

    `solid` E_s [Pa] of the cell walls, `relative_density` φ [-] below 0.3. A guess to a factor
    of two. Source: Gibson and Ashby as in `gas_stress`.

    >>> round(float(open_cell_modulus(45e6, 0.03)))
    40500
    """
    return np.asarray(np.asarray(solid) * np.asarray(relative_density, dtype=float) ** 2)


def collapse_stress(solid: ArrayLike, relative_density: ArrayLike) -> Array:
    """Return the stress [Pa] at which the walls of elastic foam buckle: 0.05·E_s·φ².

    Arguments, limits and source as `open_cell_modulus`.

    >>> round(float(collapse_stress(45e6, 0.03)))
    2025
    """
    return 0.05 * open_cell_modulus(solid, relative_density)


def densification_strain(relative_density: ArrayLike) -> Array:
    """Return the strain [-] at which the cells are closed up: 1 − 1.4φ.

    Limits and source as `open_cell_modulus`.

    >>> round(float(densification_strain(0.03)), 3)
    0.958
    """
    return np.asarray(1.0 - 1.4 * np.asarray(relative_density, dtype=float))


def closed_cell_modulus(
    solid: ArrayLike,
    relative_density: ArrayLike,
    edge_share: ArrayLike,
    *,
    poisson: ArrayLike = 1.0 / 3.0,
    pressure: float = ATMOSPHERE,
) -> Array:
    """Return Young's modulus [Pa] of closed-cell foam: edges bend, faces stretch, gas presses.

    `solid` E_s [Pa], `relative_density` φ [-], `edge_share` [-] of the solid that sits in cell
    edges, `poisson` [-], `pressure` [Pa]. A guess to a factor of two. Source as `gas_stress`.

    >>> round(float(closed_cell_modulus(20e6, 0.1, 0.6)))
    909528
    """
    phi, edge = np.asarray(relative_density, dtype=float), np.asarray(edge_share, dtype=float)
    walls = np.asarray(solid) * ((edge * phi) ** 2 + (1.0 - edge) * phi)
    return np.asarray(walls + pressure * (1.0 - 2.0 * np.asarray(poisson)) / (1.0 - phi))


def smooth_law(
    strain: ArrayLike,
    *,
    modulus: float,
    plateau: float,
    densification: float,
    power: float = 3.0,
) -> Array:
    """Return the stress [Pa] of a curve that starts elastic, flattens, and closes up.

    σ_p(1 − exp(−Eε/σ_p)) + σ_p(ε/(ε_D − ε))ⁿ with `modulus` E [Pa] the slope at zero, `plateau`
    σ_p [Pa], `densification` ε_D [-] the strain it cannot pass, `power` n above 1. Rises
    everywhere below ε_D; stress is 2σ_p or just less at ε_D/2. Own choice of form, to draw points
    for cards whose source gives few; infinite at ε_D and beyond.

    >>> round(float(smooth_law(0.25, modulus=1e6, plateau=50e3, densification=0.75)))
    55913
    """
    e = np.asarray(strain, dtype=float)
    room = densification - e
    packed = np.where(room > 0, e / np.where(room > 0, room, 1.0), np.inf)
    return np.asarray(plateau * (1.0 - np.exp(-modulus * e / plateau) + packed**power))


def natural_frequency(
    modulus: ArrayLike, stress: ArrayLike, thickness: ArrayLike, gravity: float = 9.80665
) -> Array:
    """Return the bounce frequency [Hz] of a load on foam: √(g·E/(σ·t))/2π, whatever its mass.

    `modulus` E [Pa] tangent (times the dynamic ratio), `stress` σ [Pa] = load over area,
    `thickness` t [m] unloaded. One body, rigid ground, linear about the load. Over a foam's curve
    it has a minimum: the pressure at which that foam isolates best.

    >>> round(float(natural_frequency(200e3, 20e3, 0.010)), 4)
    15.7609
    """
    sag = np.asarray(stress, dtype=float) * np.asarray(thickness) / np.asarray(modulus)
    return np.asarray(np.sqrt(gravity / sag) / (2.0 * np.pi))
