"""How strongly the ear counts a tone: A-weighting by IEC 61672-1, annex E (form from memory)."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

POLES = (20.598997, 107.65265, 737.86223, 12194.217)
"""f₁ to f₄ [Hz]; the outer two are double."""
AT_1_KHZ = -2.000
"""Of the four poles alone at 1 kHz [dB], where the weighting is 0 by definition."""


def a_weighting(frequency: ArrayLike) -> Array:
    """Return the A-weighting (...) [dB] at `frequency` (...) [Hz], above 0.

    >>> round(float(a_weighting(100.0)), 1)
    -19.1
    """
    return np.asarray(10.0 * np.log10(a_energy(frequency)))


def a_energy(frequency: ArrayLike) -> Array:
    """Return what the energy of a tone at `frequency` (...) [Hz], above 0, counts: 1 at 1 kHz."""
    square = np.square(np.asarray(frequency, dtype=float))
    f1, f2, f3, f4 = (pole**2 for pole in POLES)
    passed = f4 * square**2 / ((square + f1) * (square + f4))
    return np.asarray(passed**2 / ((square + f2) * (square + f3)) * 10.0 ** (-AT_1_KHZ / 10.0))
