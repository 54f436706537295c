"""A smooth law of foam under compression: elastic, then its cells fold, close up and press air."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

ATMOSPHERE = 101_325.0
"""Standard pressure [Pa]."""
POWER = 3.0
"""How sharply cells close up; own choice of form."""


def foam_stress(
    strain: ArrayLike,
    *,
    modulus: float,
    plateau: float,
    packed: float,
    gas: float = 0.0,
    solid: float = 0.1,
    poisson: float = 0.0,
) -> Array:
    """Return the engineering stress [Pa] of foam at a compression `strain` ε [-] below `packed`.

    σ_p(1 − exp(−Eε/σ_p)) + σ_p(ε/(ε_D − ε))³ + p·ε'/(1 − ε' − φ), ε' = ε(1 − 2ν): `modulus` E [Pa]
    the slope of the walls at zero, `plateau` σ_p [Pa] where they fold, `packed` ε_D [-] the strain
    that cannot be passed, `gas` p [Pa] the pressure of air shut in (that of the room where no cell
    leaks, 0 where all are open), `solid` φ [-] the share of solid, `poisson` ν [-]. Rises
    everywhere below ε_D. The gas term: L. J. Gibson, M. F. Ashby, Cellular Solids, 2nd ed. 1997,
    ch. 5, from memory; the rest is a form of our own for smooth curves, no theory.

    >>> round(float(foam_stress(0.25, modulus=1e6, plateau=50e3, packed=0.75)))
    55913
    >>> round(float(foam_stress(0.25, modulus=1e-3, plateau=1e-3, packed=9.0, gas=ATMOSPHERE)))
    38971
    """
    e = np.asarray(strain, dtype=float)
    walls = plateau * (1.0 - np.exp(-modulus * e / plateau) + (e / (packed - e)) ** POWER)
    lost = e * (1.0 - 2.0 * poisson)
    return np.asarray(walls + gas * lost / (1.0 - lost - solid))
