"""What a thin panel takes up under a motor: power of a force and of a moment on an endless plate.

Cremer, Heckl & Petersson, Structure-Borne Sound, ch. 5: the real parts of the point mobilities,
1/(8√(B·m″)) of a force and ω/(16·B) of a moment.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def force_power(force: ArrayLike, bending: float, mass_per_area: float) -> Array:
    """Return the power (...) [W] of a force of amplitude `force` (...) [N] across a plate.

    `bending` [N·m], `mass_per_area` [kg/m²].
    """
    return np.asarray(np.square(np.abs(force)) / (16.0 * np.sqrt(bending * mass_per_area)))


def moment_power(moment: ArrayLike, bending: float, frequency: ArrayLike) -> Array:
    """Return the power (...) [W] of a moment of amplitude `moment` (...) [N·m] about an axis in
    the plate, at `frequency` (...) [Hz]; `bending` [N·m]."""
    omega = 2.0 * np.pi * np.asarray(frequency, dtype=float)
    return np.asarray(np.square(np.abs(moment)) * omega / (32.0 * bending))
