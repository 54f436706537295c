"""The desk under the feet: the brief's own, and a soft one beside a rigid one to compare with."""

from __future__ import annotations

from typing import NamedTuple

from isolator.brief import Desk
from isolator.physics.bodies import receiver

STAND_IN = 18e-3
"""Thickness of the fibreboard that stands in for a soft desk [m]."""


class StoodOn(NamedTuple):
    """A desk as it acts under one foot: its point mobility [m/(N·s)] and its material."""

    mobility: float
    material: str  # empty: the stand-in


def stood_on(desk: Desk) -> StoodOn:
    """Return the desk as it acts; in place of a rigid one, a soft stand-in.

    The stand-in is medium-density fibreboard of 18 mm (3.5 GPa, 730 kg/m³, ν 0.25, from memory),
    so that a report always shows a stiff and a soft desk.
    """
    if desk.kind == "rigid":
        return StoodOn(_mobility(3.5e9, STAND_IN, 0.25, 730.0), "")
    own = _mobility(desk.youngs_modulus, desk.thickness, desk.poisson, desk.density)
    return StoodOn(own, desk.material)


def _mobility(modulus: float, thickness: float, poisson: float, density: float) -> float:
    bending = receiver.bending_stiffness(modulus, thickness, poisson)
    return float(receiver.point_mobility(bending, density * thickness))
