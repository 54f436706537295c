"""The frame's own first mode."""

from __future__ import annotations

import math

import numpy as np

from isolator.physics.bodies.frame import bend
from isolator.physics.bodies.rigid import mass_matrix, modes
from isolator.vibration.printer import MassCase


def first_frame_mode(case: MassCase, scale: float = 1.0) -> float:
    """Return the lowest natural frequency [Hz] at which the frame bends, infinite if it is rigid.

    Of the printer as it floats: feet that isolate hardly hold it, so its base moves against its
    top, and the mode lies above that of a printer that stands hard on a hard floor, which taps and
    the estimate tell. `scale` is a factor on all of the frame's frequencies.
    """
    if case.bending is None:
        return math.inf
    racking = case.bending.racking(case.com, scale)
    held = mass_matrix(case.mass, case.inertia)
    stiffness, mass = bend(np.zeros((6, 6)), held, racking, [])
    return float(modes(stiffness, mass)[0][6])
