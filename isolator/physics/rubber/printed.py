"""Pads printed of flexible filament: modulus of the infill, and of infill and walls together."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array


def infill_modulus(
    solid: ArrayLike, infill: ArrayLike, factor: ArrayLike, power: ArrayLike
) -> Array:
    """Return the modulus [Pa] of an infill: C·E_s·ρ^n.

    `solid` [Pa] modulus of the filament printed solid, `infill` [-] relative density 0 to 1,
    `factor` C [-], `power` n [-]. n near 2 where cell walls bend, 1 where they stretch; printed
    coupons scatter about such a law by a factor of two. Walls and skins are not in it. At full
    infill the law is not meant to hold where C differs from 1.
    Source: L. J. Gibson, M. F. Ashby, Cellular Solids, 2nd ed. 1997, ch. 5.

    >>> round(float(infill_modulus(26e6, 0.2, 1.0, 2.0)))
    1040000
    """
    relative = np.asarray(infill, dtype=float)
    return np.asarray(np.asarray(factor) * np.asarray(solid) * relative ** np.asarray(power))


def walled_modulus(
    core: ArrayLike, solid: ArrayLike, area: ArrayLike, wall_area: ArrayLike
) -> Array:
    """Return the mean modulus [Pa] of a pad whose solid walls stand beside its infill.

    `core`, `solid` [Pa]; `area` [m²] of the whole pad, `wall_area` [m²] of the solid perimeter
    in it (clipped to `area`). Equal strain in wall and core (upper, Voigt bound): walls that
    buckle carry less. Top and bottom skins are taken as rigid.

    >>> float(walled_modulus(1.0e6, 26.0e6, 400e-6, 40e-6))
    3500000.0
    """
    whole = np.asarray(area, dtype=float)
    share = np.clip(np.asarray(wall_area, dtype=float) / whole, 0.0, 1.0)
    return np.asarray(share * np.asarray(solid) + (1.0 - share) * np.asarray(core))
