"""Motors on dampers on the frame on its feet: what reaches the floor, with and without each.

The same source, feet and energies as for every other tone: motors on dampers are inner coordinates
of the source, and without any it is the source of `isolator.vibration`. Bands are over the same
samples, one state of printer, feet and rubber each.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from isolator.brief import Motor
from isolator.motors.drive_train import body_of
from isolator.motors.mount import Damper
from isolator.motors.sampled import Drawn, Rows, dynamic_rise, over_samples
from isolator.motors.shaft import belt_arm, spacer_height
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import mass_matrix, support_matrix
from isolator.physics.drive.chain import Mounted
from isolator.vibration.drives import AXES
from isolator.vibration.isolation import floor_energy, rigid_energy
from isolator.vibration.pieces import point_inertia
from isolator.vibration.printer import MassCase
from isolator.vibration.source import Source, joined, motor_source

LEAST_INERTIA = 0.05
"""Share of its inertia that a frame must keep when its motors are taken out of it."""


class Floor(NamedTuple):
    """Squared norms (..., f, m) [N²] of the force of all feet for each 1 N·m at motor m."""

    neither: Array
    damper: Array  # rigid feet, dampers
    feet: Array  # the chosen feet, motors bolted on
    both: Array


def floor_energies(
    task: MotorTask, drawn: Drawn, dampers: Mapping[int, Damper], row: int, frequency: Array
) -> Floor:
    """Return what reaches a rigid floor in sample `row` at `frequency` (f,) [Hz].

    `dampers` by index into the task's `belts`; motors without one are bolted on.
    """
    rows, printer = np.array([row]), [room_for(task, drawn, dampers, row)]
    neither, feet = _rigid_and_feet(task, drawn, printer, {}, rows, frequency)[:, 0]
    damper, both = _rigid_and_feet(task, drawn, printer, dampers, rows, frequency)[:, 0]
    return Floor(neither=neither, damper=damper, feet=feet, both=both)


def _rigid_and_feet(
    task: MotorTask,
    drawn: Drawn,
    printers: Sequence[MassCase],
    dampers: Mapping[int, Damper],
    rows: Rows,
    frequency: Array,
) -> Array:
    """Return what reaches a rigid floor (2, n, f, m) on rigid feet and on the chosen ones.

    `printers` as in `through_feet`.
    """
    system = drawn.feet.system.take(rows)
    found = _source(task, drawn, printers, dampers, rows, frequency)
    return np.stack([rigid_energy(system, found), floor_energy(system, found)])


def through_feet(
    task: MotorTask,
    drawn: Drawn,
    printers: Sequence[MassCase],
    dampers: Mapping[int, Damper],
    rows: Rows,
    frequency: Array,
) -> Array:
    """Return what reaches a rigid floor (n, f, m) on the chosen feet in n samples, `rows`.

    `printers` are these samples of it, with room for the motors on dampers.
    """
    source = _source(task, drawn, printers, dampers, rows, frequency)
    return floor_energy(drawn.feet.system.take(rows), source)


def room_for(task: MotorTask, drawn: Drawn, held: Iterable[int], row: int) -> MassCase:
    """Return sample `row` of a printer with room for motors that are bodies of their own.

    `held` by index into the task's `belts`, whether they are on dampers or not.
    """
    return with_room(drawn.feet.above[row].case, [task.belts[index][1] for index in held])


def _source(
    task: MotorTask,
    drawn: Drawn,
    printers: Sequence[MassCase],
    dampers: Mapping[int, Damper],
    rows: Rows,
    frequency: Array,
) -> Source:
    """Return samples `rows` of a printer, motors on `dampers`, all others bolted to it."""
    motors = [mounted_on(task, index, one, rows, frequency) for index, one in dampers.items()]
    found = []
    for at, (row, printer) in enumerate(zip(rows, printers, strict=True)):
        above, mounted = drawn.feet.above[row], [each[at] for each in motors]
        found.append(
            motor_source(above.excitation, printer, frequency, above.frame, mounted, above.between)
        )
    return joined(found)


def with_room(case: MassCase, motors: list[Motor]) -> MassCase:
    """Return a printer that has the inertia of the motors in it, which are bodies of their own.

    Where the inertia that was typed is too small to hold motors at their places it is taken as
    that of the frame without them.
    """
    mass = case.mass - sum(motor.mass for motor in motors)
    arms = [np.array(motor.position) - case.com for motor in motors]
    carried, shift = np.zeros((3, 3)), np.zeros(3)
    for motor, arm in zip(motors, arms, strict=True):
        carried = carried + body_of(motor) + point_inertia(motor.mass, arm)
        shift = shift - motor.mass / mass * arm
    carried = carried + point_inertia(mass, shift)
    least = LEAST_INERTIA * np.linalg.eigvalsh(case.inertia)[0]
    if np.linalg.eigvalsh(case.inertia - carried)[0] >= least:
        return case
    return replace(case, inertia=case.inertia + carried)


def mounted_on(
    task: MotorTask, index: int, damper: Damper, rows: Rows, frequency: Array
) -> list[Mounted]:
    """Return a motor on its damper, in each of samples `rows`, as the source takes it.

    The motor is kept at the place it has now: a stack of some millimetres moves it by far less
    than its place is known to.
    """
    _, motor = task.belts[index]
    shaft, half = AXES[motor.axis] * float(motor.points), motor.body_length / 2.0
    rubber = half + damper.plates.motor + float(damper.offered.rubber[0]) / 2.0
    spacer = spacer_height(motor, float(damper.loaded.stack[0]), task.print.layer)
    linear, angular = stiffness_at(motor, damper, rows, frequency)
    stiffness = support_matrix((rubber * shaft)[None], linear[..., None, :], angular[..., None, :])
    nominal = Mounted(
        drive=index,
        com=np.array(motor.position),
        mass=mass_matrix(motor.mass, body_of(motor)),
        stiffness=stiffness[0],
        belt=(half + belt_arm(motor, spacer)) * shaft,
        pull=np.array(motor.pull),
        wrap=motor.wrap,
    )
    return [nominal._replace(stiffness=each) for each in stiffness]


def stiffness_at(
    motor: Motor, damper: Damper, rows: Rows, frequency: Array
) -> tuple[Complex, Complex]:
    """Return linear and angular stiffness (n, f, 3) of a damper along the printer's axes."""
    offered, (static, ratio, loss) = damper.offered, (each[rows, None] for each in damper.rubber)
    lossy = (static * dynamic_rise(offered.material, frequency, ratio, loss))[..., None]
    along = np.abs(AXES[motor.axis])
    linear = along * offered.axial + (1.0 - along) * offered.shear
    angular = along * offered.twist + (1.0 - along) * offered.tilt
    return lossy * linear, lossy * angular


class Floors:
    """What reaches a rigid floor in all samples at the frequencies `grid` (f,) [Hz].

    What does so with all motors bolted on is worked out once for the same motors.
    """

    def __init__(self, task: MotorTask, drawn: Drawn, grid: Array) -> None:
        self.task, self.drawn, self.grid = task, drawn, grid
        self._bolted: dict[tuple[int, ...], Array] = {}

    def over(self, dampers: Mapping[int, Damper]) -> Floor:
        """Return squared forces (n, f, m) with these dampers."""
        held, every = tuple(dampers), range(len(self.drawn.samples))
        rooms = [room_for(self.task, self.drawn, held, row) for row in every]
        if held not in self._bolted:
            self._bolted[held] = self._energies({}, rooms)
        neither, feet = self._bolted[held]
        damper, both = self._energies(dampers, rooms)
        return Floor(neither=neither, damper=damper, feet=feet, both=both)

    def _energies(self, dampers: Mapping[int, Damper], rooms: Sequence[MassCase]) -> Array:
        """Return the same (2, n, f, m) on rigid feet and on the chosen ones."""

        def energies(rows: Rows, frequency: Array) -> Array:
            own = [rooms[row] for row in rows]
            found = _rigid_and_feet(self.task, self.drawn, own, dampers, rows, frequency)
            return np.moveaxis(found, 0, -1)

        both = over_samples(energies, len(rooms), self.grid)
        # laid out as sums read them
        return np.ascontiguousarray(np.moveaxis(both, -1, 0))
