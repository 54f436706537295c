"""The hardness factor of the published table of natural rubber."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

HARDNESS = (30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 75.0)
FACTOR = (0.93, 0.89, 0.85, 0.80, 0.73, 0.64, 0.57, 0.54, 0.53, 0.52)


def table_factor(irhd: ArrayLike) -> Array:
    """Return the k [-] of E0(1 + 2kS²) that belongs to the table's E0 at a hardness.

    `irhd` from 30 to 75, linear between rows; NaN outside. The table's E0 is a small-strain figure
    of filled rubber and exceeds 3G, and k takes that back off the bulging part: with a modulus
    from anywhere else (a relation from hardness, a test) k is 1, as of E = 3G. Source: P. B.
    Lindley, Engineering Design with Natural Rubber, 4th ed. 1978 (part of the table seen, the rest
    from memory).

    >>> [round(float(k), 3) for k in table_factor([50.0, 52.5])]
    [0.73, 0.685]
    """
    return np.asarray(
        np.interp(np.asarray(irhd, dtype=float), HARDNESS, FACTOR, left=np.nan, right=np.nan)
    )
