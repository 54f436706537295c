"""Everything above the feet as one source: dynamic stiffness and blocked forces over frequency.

Worked out once for a printer and a list of frequencies; every candidate then costs one 6×6 solve
a frequency. Belt drives recoil: rotors and moving masses are inner coordinates of the source, so
a tone near the belts' resonance moves the whole printer, not a frame that stands still. So are
the three coordinates of a frame that bends; what lies in its upper half rides on its top. Where the
printer stands on its own feet on a slab, the six are the slab's.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.condense import condense
from isolator.physics.bodies.frame import bend, bent_push
from isolator.physics.bodies.rigid import mass_matrix
from isolator.physics.drive.chain import Mounted, augment
from isolator.vibration.excitation import Excitation, Push
from isolator.vibration.on_slab import NOMINAL as AS_TOLD
from isolator.vibration.on_slab import Between
from isolator.vibration.printer import MassCase

NEAR = 0.08
"""Heights of a motor and of what it moves that differ by less are one [m]; estimated."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Source:
    """The printer above its feet, about its centre of mass, at f frequencies."""

    frequency: Array  # (f,) [Hz]
    dynamic: Complex  # (n, f, 6, 6) dynamic stiffness; n is 1, or as many as there are systems
    blocked: Complex  # (n, f, 6, p) blocked force and moment of p sources of unknown phase


def joined(sources: Sequence[Source]) -> Source:
    """Return sources at the same frequencies as one, in order."""
    return Source(
        frequency=sources[0].frequency,
        dynamic=np.concatenate([each.dynamic for each in sources]),
        blocked=np.concatenate([each.blocked for each in sources]),
    )


def motor_source(
    excitation: Excitation,
    case: MassCase,
    frequency: Array,
    frame: float = 1.0,
    mounted: Sequence[Mounted] = (),
    between: Between = AS_TOLD,
) -> Source:
    """Return the source under a torque ripple of 1 N·m at each belt motor in turn, (f, 6, m).

    `frame` is a factor on all natural frequencies of a frame that bends. `mounted` are the motors
    on dampers, stiffness (f, 6, 6); all others are bolted to the frame. `between` are factors
    on what a printer's own feet on its slab are.
    """
    motors = len(excitation.drives)
    torque = np.zeros((8 + 6 * len(mounted) + motors, motors))
    torque[-2 - motors : -2] = np.eye(motors)
    return _source(excitation, case, frequency, torque, [False] * motors, frame, between, mounted)


def push_source(
    excitation: Excitation,
    case: MassCase,
    frequency: Array,
    pushes: Sequence[Push],
    frame: float = 1.0,
    between: Between = AS_TOLD,
) -> Source:
    """Return the source under each of p pushes on the frame, the motors silent, (f, 6, p).

    `frame`, `between` as in `motor_source`.
    """
    force = np.zeros((8 + len(excitation.drives), len(pushes)), dtype=complex)
    for column, push in enumerate(pushes):
        force[:6, column] = push.about(case.com)
    on_top = [rides_on_top(case, float(push.point[2])) for push in pushes]
    return _source(excitation, case, frequency, force, on_top, frame, between, ())


def _source(
    excitation: Excitation,
    case: MassCase,
    frequency: Array,
    force: Array | Complex,
    on_top: Sequence[bool],
    frame: float,
    between: Between,
    mounted: Sequence[Mounted],
) -> Source:
    whole = mass_matrix(case.mass, case.inertia)
    held = whole if case.on_slab is None else case.on_slab.printer
    stiffness, mass = augment(held, case.com, excitation.drives, excitation.carriage, mounted)
    _hold_idle(stiffness, mass, excitation)
    if case.bending is not None:
        racking = case.bending.racking(case.com, frame)
        stiffness, mass = bend(stiffness, mass, racking, _riders(excitation, case, mounted))
        force = bent_push(force, racking, on_top)
    found = condense(stiffness, mass, 2.0 * math.pi * frequency, force)
    if case.on_slab is not None:
        found = case.on_slab.stand(found, frequency, between)
    return Source(frequency=frequency, dynamic=found.dynamic[None], blocked=found.blocked[None])


def rides_on_top(case: MassCase, height: float) -> bool:
    """Return whether what lies at `height` [m] rides on the top of a frame that bends."""
    return case.bending is not None and height > case.bending.middle


def _riders(excitation: Excitation, case: MassCase, mounted: Sequence[Mounted]) -> list[int]:
    """Return which inner coordinates ride on the frame's top: motors, rotors, moving masses.

    A motor near the height of what its belt moves rides with that: it may sit on the gantry.
    """
    carried = [float(point[2]) for point in excitation.carriage.points]
    heights = []
    for belt, motor in excitation.belts:
        own = motor.position[2]
        heights.append(carried[belt] if abs(own - carried[belt]) < NEAR else own)
    motors = [heights[each.drive] for each in mounted for _ in range(6)]
    places = enumerate([*motors, *heights, *carried])
    return [6 + row for row, at in places if rides_on_top(case, at)]


def _hold_idle(stiffness: Complex, mass: Array, excitation: Excitation) -> None:
    """Lock the moving masses that no belt holds, in place: they ride on the frame as one."""
    pulled = np.zeros(2, dtype=bool)
    for drive in excitation.drives:
        pulled |= drive.pulls != 0.0
    for along in np.flatnonzero(~pulled):
        at = stiffness.shape[-1] - 2 + along
        stiffness[..., at, :] = stiffness[..., :, at] = 0.0
        mass[at, :] = mass[:, at] = 0.0
        stiffness[..., at, at] = 1.0
