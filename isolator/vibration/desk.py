"""The desk under the feet: the brief's own, and a soft one beside a rigid one to compare with."""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Desk
from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies import receiver
from isolator.physics.bodies.plate import Plate, receptance

STAND_IN = 18e-3
"""Thickness of the fibreboard that stands in for a soft desk [m]."""
_SOFT = Desk(
    kind="plate",
    material="",
    thickness=STAND_IN,
    youngs_modulus=3.5e9,
    density=730.0,
    poisson=0.25,
    loss_factor=0.05,
)
"""Medium-density fibreboard, from memory."""


class StoodOn(NamedTuple):
    """A desk as it acts, where the printer stands on it, and its material."""

    plate: Plate
    thickness: float  # [m]
    position: tuple[float, float]  # of the printer's middle from the desk's [m]
    material: str  # empty: the stand-in


class Under(NamedTuple):
    """What lies under a set of feet."""

    receptance: Complex  # (f, 3s, 3s) of the desk, as `physics.bodies.plate` has it
    height: float  # of the printer's underside, unloaded, over the desk's middle plane [m]

    def take(self, some: NDArray[np.intp]) -> Under:
        """Return it at some of its frequencies."""
        return Under(self.receptance[some], self.height)


def stood_on(desk: Desk) -> StoodOn:
    """Return the desk as it acts; in place of a rigid one, a soft stand-in.

    So that a report always shows a stiff and a soft desk. Without a size it is endless. What it
    carries besides the printer makes it heavier, no stiffer.
    """
    own = _SOFT if desk.kind == "rigid" else desk
    spread = 0.0 if own.size is None else own.carries / math.prod(own.size)
    plate = Plate(
        bending=float(
            receiver.bending_stiffness(own.youngs_modulus, own.thickness, own.poisson, own.skin)
        ),
        mass_per_area=float(
            receiver.mass_per_area(own.density, own.thickness, own.skin, own.core_density)
        )
        + spread,
        poisson=own.poisson,
        loss=own.loss_factor,
        size=own.size,
        legs=own.leg_places,
    )
    return StoodOn(plate, own.thickness, own.position, own.material)


def under(desk: StoodOn, places: Array, widths: Array, height: float, frequency: Array) -> Under:
    """Return what lies under feet at `places` (s, 2) [m] from the printer's middle.

    `widths` (s,) [m] of their contacts; `height` [m] of the printer's underside over the desk,
    unloaded; `frequency` (f,) [Hz]. Worked out once for all cases of a stand. A foot that is drawn
    beside the desk stands on its edge.
    """
    at = places + np.array(desk.position)
    if desk.plate.size is not None:
        half = 0.5 * np.array(desk.plate.size)
        at = np.clip(at, -half, half)
    return Under(receptance(desk.plate, at, widths, frequency), height + 0.5 * desk.thickness)
