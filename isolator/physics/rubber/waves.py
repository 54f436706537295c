"""Waves in a pad: where a pad is no longer a spring without mass.

A bar of dynamic stiffness k and mass m between two faces passes on k·x/sin x of a motion of one
face to the other, held, with x = ω·√(m/k); k is complex by its loss. At x = π it swings as a half
wave and passes on far more than its stiffness. J. C. Snowdon, Vibration and Shock in Damped
Mechanical Systems (1968), ch. 4, from memory; the bar's equation solved. Waves across, in shear,
are not looked at: a pad's faces turn them into motion along the desk, which it hardly radiates.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Complex


def wave_factor(omega: ArrayLike, mass: ArrayLike, stiffness: ArrayLike) -> Complex:
    """Return x/sin x (...), what waves make of a pad's transfer stiffness.

    `omega` (...) [rad/s], `mass` (...) [kg] of the pad, `stiffness` (...) [N/m], complex.

    >>> abs(complex(wave_factor(0.0, 0.01, 1e5)))
    1.0
    >>> round(abs(complex(wave_factor(1e3, 0.02, 8e4))), 4)
    1.0429
    """
    x = np.asarray(omega, dtype=float) * np.sqrt(np.asarray(mass) / np.asarray(stiffness, complex))
    return np.asarray(1.0 / np.sinc(x / np.pi))
