"""The frame's own first mode, and what may be promised above it."""

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


def frame_ceiling(frame_mode: float, highest_mode: float, most: float) -> float:
    """Return how much loss [dB] may be promised at the frame's first mode and above.

    `frame_mode` [Hz] of the frame at the low end of its band, `highest_mode` [Hz] of the printer
    on its feet, `most` [dB] promised in any case. A rigid printer isolates by (f/f_n)² above its
    modes, 40·lg(f/f_n) dB. Where its frame begins to bend that gain ends: the parts of the frame
    answer one after another, each at its own mode, and only the first is in the model. So the loss
    is taken to grow no further than a rigid printer on these feet has brought it at the frame's
    mode. Common practice, no source; damping of the feet, which takes some of it away, is in the
    losses that are cut off here.

    >>> round(frame_ceiling(40.0, 10.0, 30.0), 2), frame_ceiling(8.0, 10.0, 30.0)
    (24.08, 0.0)
    """
    if math.isinf(frame_mode):
        return most
    gained = 40.0 * math.log10(max(frame_mode, 1e-3) / max(highest_mode, 1e-3))
    return min(max(gained, 0.0), most)
