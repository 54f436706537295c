"""The modes that the model has of a printer on its feet, its frame bending, as a tap shows them."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.frame import bend, bent_mode_names
from isolator.physics.bodies.rigid import modes
from isolator.vibration.printer import MassCase
from isolator.vibration.supports import FeetBatch
from isolator.vibration.system import build

STEPS = 4
"""Times that a mode's stiffness is taken again at its own frequency."""
START, LEAST = 10.0, 0.1  # [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class Scales:
    """Factors on what the model takes: feet along x and y, upright, and the frame's frequencies."""

    sideways: float = 1.0
    upright: float = 1.0
    frame: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelModes:
    """m modes, ascending."""

    frequency: Array  # (m,) [Hz]
    names: tuple[str, ...]  # of `physics.bodies.frame.BENT_NAMES`, each once
    feet: Array  # (m,) damping ratio that the feet's loss makes
    frame: Array  # (m,) damping ratio that the frame's loss makes
    # (m, 3), or (m, 0) of a rigid frame: kinetic energy of its bending along x, y and in twist over
    # that of the mode
    bending: Array


def model_modes(case: MassCase, feet: FeetBatch, scales: Scales) -> ModelModes:
    """Return the modes of a printer in a mass case on one set of feet.

    A rigid frame leaves six, one that bends nine.
    """
    across = np.array([scales.sideways, scales.sideways, scales.upright])
    # rocking of a single pad goes with its upright stiffness, its twist with the other
    turning = np.array([scales.upright, scales.upright, scales.sideways])
    system = build(replace(feet, linear=feet.linear * across, angular=feet.angular * turning), case)
    held: Array = system.mass

    def matrices(hertz: Array) -> tuple[Complex, Array]:
        stiff = system.stiffness(hertz)[0]
        if case.bending is None:
            return stiff, np.broadcast_to(held, stiff.shape)
        mass = np.broadcast_to(held, stiff.shape)
        return bend(stiff, mass, case.bending.racking(case.com, scales.frame), [])

    count = 6 if case.bending is None else 9
    each, hertz = np.arange(count), np.full(count, START)
    for _ in range(STEPS):
        stiff, mass = matrices(np.maximum(hertz, LEAST))
        found, shapes = modes(stiff, mass)
        hertz = found[each, each]
    shape, lost = shapes[each, :, each], stiff.imag
    doubled = 2.0 * (2.0 * math.pi * hertz) ** 2
    body, bent = shape[:, :6], shape[:, 6:]
    return ModelModes(
        frequency=hertz,
        names=tuple(bent_mode_names(shape.T, mass[0])),
        feet=np.einsum("ni,nij,nj->n", body, lost[:, :6, :6], body) / doubled,
        frame=np.einsum("ni,nij,nj->n", bent, lost[:, 6:, 6:], bent) / doubled,
        bending=np.einsum("ni,nij,nj->ni", bent, mass[:, 6:, 6:], bent),
    )
