"""Motors on dampers on the frame on its feet: what reaches the floor, with and without each.

The same source, feet and energies as for every other tone: motors on dampers are inner coordinates
of the source, and without any it is the source of `isolator.vibration`. Bands are over the same
samples, one state of printer, feet and rubber each.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import NamedTuple

import numpy as np

from isolator.brief import Motor
from isolator.motors.choose import Damper
from isolator.motors.drive_train import body_of, grid_of, mean_weights
from isolator.motors.results import DamperLine, DamperWorst
from isolator.motors.sampled import Drawn, dynamic_rise, over_samples
from isolator.motors.shaft import belt_arm, spacer_height
from isolator.motors.task import MotorTask
from isolator.motors.torque import Torque
from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import mass_matrix, support_matrix
from isolator.physics.drive.chain import Mounted
from isolator.physics.drive.stepper import belt_factors
from isolator.vibration import directions
from isolator.vibration.band import Band
from isolator.vibration.drives import AXES
from isolator.vibration.isolation import decibel, floor_energy, rigid_energy
from isolator.vibration.pieces import point_inertia
from isolator.vibration.printer import MassCase
from isolator.vibration.sampled import sample_band
from isolator.vibration.source import motor_source
from isolator.vibration.spectrum import least_loss
from isolator.vibration.spreads import SHARP

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
    above, system = drawn.feet.above[row], drawn.feet.system.take(np.array([row]))
    printer = with_room(above.case, [task.belts[index][1] for index in dampers])
    mounted = [mounted_on(task, index, one, row, frequency) for index, one in dampers.items()]
    plain, damped = (
        motor_source(above.excitation, printer, frequency, above.frame, motors, above.between)
        for motors in ((), mounted)
    )
    return Floor(
        neither=rigid_energy(system, plain)[0],
        damper=rigid_energy(system, damped)[0],
        feet=floor_energy(system, plain)[0],
        both=floor_energy(system, damped)[0],
    )


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


def mounted_on(task: MotorTask, index: int, damper: Damper, row: int, frequency: Array) -> Mounted:
    """Return a motor on its damper, in sample `row`, as the source takes it.

    The motor is kept at the place it has now: a stack of some millimetres moves it by far less
    than its place is known to.
    """
    _, motor = task.belts[index]
    shaft, half = AXES[motor.axis] * float(motor.points), motor.body_length / 2.0
    rubber = half + damper.plates.motor + float(damper.offered.rubber[0]) / 2.0
    spacer = spacer_height(motor, float(damper.loaded.stack[0]), task.print.layer)
    linear, angular = stiffness_at(motor, damper, row, frequency)
    return Mounted(
        drive=index,
        com=np.array(motor.position),
        mass=mass_matrix(motor.mass, body_of(motor)),
        stiffness=support_matrix(
            (rubber * shaft)[None], linear[..., None, :], angular[..., None, :]
        ),
        belt=(half + belt_arm(motor, spacer)) * shaft,
        pull=np.array(motor.pull),
        wrap=motor.wrap,
    )


def stiffness_at(
    motor: Motor, damper: Damper, row: int, frequency: Array
) -> tuple[Complex, Complex]:
    """Return linear and angular stiffness (f, 3) of a damper along the printer's axes."""
    offered, (static, ratio, loss) = damper.offered, (float(each[row]) for each in damper.rubber)
    lossy = (static * dynamic_rise(offered.material, frequency, ratio, loss))[:, None]
    along = np.abs(AXES[motor.axis])
    linear = along * offered.axial + (1.0 - along) * offered.shear
    angular = along * offered.twist + (1.0 - along) * offered.tilt
    return lossy * linear, lossy * angular


def floor_over(task: MotorTask, drawn: Drawn, dampers: Mapping[int, Damper], grid: Array) -> Floor:
    """Return what reaches a rigid floor in all samples at the frequencies `grid`: (n, f, m)."""

    def energies(row: int, frequency: Array) -> Array:
        return np.stack(floor_energies(task, drawn, dampers, row, frequency), axis=-1)

    found = over_samples(energies, len(drawn.samples), grid)
    return Floor(*np.moveaxis(found, -1, 0))


def _least_loss(drawn: Drawn, dampers: Mapping[int, Damper]) -> float:
    """Return the smallest loss factor of what resonates."""
    rubber = [damper.offered.material.loss_factor.value for damper in dampers.values()]
    return min(least_loss(drawn.feet.system), *rubber)


def damper_lines(
    task: MotorTask, drawn: Drawn, dampers: Mapping[int, Damper]
) -> dict[int, tuple[DamperLine, ...]]:
    """Return every drone tone of each motor on a damper with what damper and feet take of it."""
    tones, motion = next(iter(dampers.values())).tones, task.motion
    loss = _least_loss(drawn, dampers)
    grid = grid_of(motion, tones.frequency, loss)
    lowest = max(float(drawn.feet.modes.frequency[0, 0]), directions.LOWEST)
    angles = directions.looked_at(
        motion.layout, motion.infill_angles, lowest, float(grid[-1]), loss
    )

    floor = floor_over(task, drawn, dampers, grid)
    told = {
        index: _Told(task, drawn, floor, damper, index, grid, angles)
        for index, damper in dampers.items()
    }
    return {
        index: tuple(each.line(line) for line in range(len(tones.source)))
        for index, each in told.items()
    }


class _Told:
    """What is told of the tones of one motor on its damper."""

    def __init__(
        self,
        task: MotorTask,
        drawn: Drawn,
        floor: Floor,
        damper: Damper,
        index: int,
        grid: Array,
        angles: Array,
    ) -> None:
        belt, _ = task.belts[index]
        tones, motion = damper.tones, task.motion
        self.damper, self.grid, self.angles = damper, grid, angles
        self.floor = Floor(*(each[..., index] for each in floor))  # (n, f)
        torque = Torque(task, index, drawn, grid)
        self.torque = torque.energies(damper.offered, damper.rubber)  # (n, f)
        self.weights = mean_weights(motion, belt, tones.frequency.tolist(), grid)
        self.factors = belt_factors(motion.layout, angles)[belt]
        gained = decibel(self.floor.feet[0], self.floor.both[0])
        self.least = np.minimum(decibel(self.torque[0][0], self.torque[1][0]), gained)

    def line(self, line: int) -> DamperLine:
        """Return tone number `line`."""
        own, tones, floor = self.damper, self.damper.tones, self.floor
        weights = self.weights[:, line]
        return DamperLine(
            source=tones.source[line],
            speed=float(tones.speed[line]),
            frequency=float(tones.frequency[line]),
            torque=Band(
                low=float(own.low[line]),
                nominal=float(own.nominal[line]),
                high=float(own.high[line]),
            ),
            damper=_loss(floor.neither, floor.damper, weights),
            feet=_loss(floor.neither, floor.feet, weights),
            both=_loss(floor.neither, floor.both, weights),
            worst=self._worst(float(tones.frequency[line])),
        )

    def _worst(self, frequency: float) -> DamperWorst:
        """Return the direction in which torque or floor gains least, of a tone at `frequency`."""
        heard = self.factors * frequency
        at = int(np.argmin(np.interp(heard, self.grid, self.least)))
        there = directions.point_weights(self.grid, heard[at : at + 1])
        return DamperWorst(
            direction_deg=float(np.degrees(self.angles[at])),
            frequency=float(heard[at]),
            torque=_loss(self.torque[0], self.torque[1], there),
            beyond=_loss(self.floor.feet, self.floor.both, there),
        )


def _loss(before: Array, after: Array, weights: Array) -> Band:
    """Return by how many dB one energy (n, f) is less than another, as means by `weights` (f,)."""
    return sample_band(decibel(before @ weights, after @ weights), SHARP)
