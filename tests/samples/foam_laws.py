"""Published laws of foam, to hold cards and curves against: Gibson and Ashby, the gas in cells."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

ATMOSPHERE = 101_325.0
"""Standard pressure [Pa]."""


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
