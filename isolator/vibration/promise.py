"""How much loss may be promised at all: no more than a rigid frame gives where it begins to bend.

A rigid printer isolates better and better above its modes. Where its frame begins to bend that
gain ends: the parts of the frame answer one after another, each at its own mode, and only the
first three are in the model. So no loss is promised beyond what a rigid printer on these feet has
at its frame's first mode, for a push where the tool moves. Common practice, no source.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from isolator.physics.arrays import Array
from isolator.vibration.drives import AXES, move_points
from isolator.vibration.excitation import Excitation, force_at
from isolator.vibration.frame_mode import first_frame_mode
from isolator.vibration.isolation import decibel, floor_energy, rigid_energy
from isolator.vibration.printer import MassCase
from isolator.vibration.source import Source, push_source
from isolator.vibration.system import System


def bending_source(excitation: Excitation, case: MassCase) -> Source | None:
    """Return a rigid printer at its frame's first mode, pushed along x and y; None if rigid.

    The frame's nominal frequency counts; the bands of losses run over the frame's own band.
    """
    if case.bending is None:
        return None
    places = zip(("x", "y"), move_points(excitation.motion), strict=True)
    pushes = [force_at(AXES[axis], place) for axis, place in places]
    stiff = replace(case, bending=None)
    return push_source(excitation, stiff, np.array([first_frame_mode(case)]), pushes)


def promised(system: System, source: Source | None, most: float) -> Array:
    """Return the loss (n,) [dB] beyond which nothing is promised: 0 at least, `most` at most.

    `system` n sets of feet, `source` as `bending_source` has it.
    """
    if source is None:
        return np.full(len(system.static), most)
    loss = decibel(rigid_energy(system, source), floor_energy(system, source))
    return np.asarray(np.clip(loss.min(axis=(1, 2)), 0.0, most))
