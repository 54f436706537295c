"""Motors on dampers on the frame on its feet: what reaches the floor, with and without each.

The same source, feet and energies as for every other tone: motors on dampers are inner coordinates
of the source, and without any it is the source of `isolator.vibration`.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace

import numpy as np

from isolator.brief import Motor
from isolator.motors.choose import Damper, dynamic_rise, torque_losses
from isolator.motors.drive_train import body_of, grid_of, mean_weights
from isolator.motors.results import DamperLine, DamperWorst
from isolator.motors.shaft import belt_arm, spacer_height
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import mass_matrix, support_matrix
from isolator.physics.drive.chain import Mounted
from isolator.physics.drive.stepper import belt_factors
from isolator.vibration import directions
from isolator.vibration.band import Band
from isolator.vibration.cases import NOMINAL, Case, Cases, band, framed
from isolator.vibration.drives import AXES
from isolator.vibration.isolation import decibel, floor_energy, rigid_energy
from isolator.vibration.pieces import point_inertia
from isolator.vibration.printer import MassCase
from isolator.vibration.source import motor_source
from isolator.vibration.spectrum import least_loss
from isolator.vibration.stand import ENDS

AS_TOLD = (*NOMINAL, 1.0)
"""Rubber and feet, mass, and frame as they are told."""
LEAST_INERTIA = 0.05
"""Share of its inertia that a frame must keep when its motors are taken out of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """Squared norms (f, m) [N²] of the force of all feet for each 1 N·m at motor m."""

    neither: Array
    damper: Array  # rigid feet, dampers
    feet: Array  # the chosen feet, motors bolted on
    both: Array


def floor_energies(
    task: MotorTask,
    case: Case,
    dampers: Mapping[int, Damper],
    end: str,
    frequency: Array,
    frame: float = 1.0,
) -> Floor:
    """Return what reaches a rigid floor at `frequency` (f,) [Hz].

    `dampers` by index into the task's `belts`, all at one `end` of their band; motors without one
    are bolted on. `frame` is a factor on the frequencies of a frame that bends.
    """
    mounted = [mounted_on(task, index, one, end, frequency) for index, one in dampers.items()]
    printer = with_room(case.system.case, [task.belts[index][1] for index in dampers])
    plain = motor_source(task.excitation, printer, frequency, frame)
    damped = motor_source(task.excitation, printer, frequency, frame, mounted)
    return Floor(
        neither=rigid_energy(case.system, plain)[0],
        damper=rigid_energy(case.system, damped)[0],
        feet=floor_energy(case.system, plain)[0],
        both=floor_energy(case.system, damped)[0],
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


def mounted_on(task: MotorTask, index: int, damper: Damper, end: str, frequency: Array) -> Mounted:
    """Return a motor on its damper as the source takes it.

    The motor is kept at the place it has now: a stack of some millimetres moves it by far less
    than its place is known to.
    """
    _, motor = task.belts[index]
    shaft, half = AXES[motor.axis] * float(motor.points), motor.body_length / 2.0
    rubber = half + damper.plates.motor + float(damper.offered.rubber[0]) / 2.0
    spacer = spacer_height(motor, float(damper.loaded.stack[0]), task.print.layer)
    linear, angular = stiffness_at(motor, damper, end, frequency)
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
    motor: Motor, damper: Damper, end: str, frequency: Array
) -> tuple[Complex, Complex]:
    """Return linear and angular stiffness (f, 3) of a damper along the printer's axes."""
    factor = {"soft": damper.ends[0], "nominal": 1.0, "stiff": damper.ends[1]}[end]
    offered = damper.offered
    lossy = (factor * dynamic_rise(offered.material, frequency))[:, None]
    along = np.abs(AXES[motor.axis])
    linear = along * offered.axial + (1.0 - along) * offered.shear
    angular = along * offered.twist + (1.0 - along) * offered.tilt
    return lossy * linear, lossy * angular


def damper_lines(
    task: MotorTask, cases: Cases, dampers: Mapping[int, Damper]
) -> dict[int, tuple[DamperLine, ...]]:
    """Return every drone tone of each motor on a damper with what damper and feet take of it.

    The band runs over both ends of rubber and feet together, over the mass range, and over a
    bending frame's band.
    """
    tones = next(iter(dampers.values())).tones
    rubber = [damper.offered.material.loss_factor.value for damper in dampers.values()]
    loss, motion = min(least_loss(cases[NOMINAL].system), *rubber), task.motion
    grid = grid_of(motion, tones.frequency, loss)
    lowest = max(float(cases[NOMINAL].modes.frequency[0, 0]), directions.LOWEST)
    angles = directions.looked_at(
        motion.layout, motion.infill_angles, lowest, float(grid[-1]), loss
    )
    masses = dict.fromkeys(mass for _, mass in cases)
    rows = [(end, mass, 1.0) for end in ENDS for mass in masses]
    rows += [(*NOMINAL, frame) for _, frame in framed(cases) if frame != 1.0]
    floors = {}
    for end, mass, frame in rows:
        # feet whose stiffness was given have no band
        case = cases.get((end, mass)) or cases["nominal", mass]
        floors[end, mass, frame] = floor_energies(task, case, dampers, end, grid, frame)
    found = {}
    for index, damper in dampers.items():
        told = _Told(task, floors, damper, index, grid, angles)
        found[index] = tuple(told.line(line) for line in range(len(tones.source)))
    return found


class _Told:
    """What is told of the tones of one motor on its damper."""

    def __init__(
        self,
        task: MotorTask,
        floors: Mapping[tuple[str, str, float], Floor],
        damper: Damper,
        index: int,
        grid: Array,
        angles: Array,
    ) -> None:
        belt, _ = task.belts[index]
        tones, motion = damper.tones, task.motion
        self.floors, self.damper, self.index, self.grid = floors, damper, index, grid
        self.weights = mean_weights(motion, belt, tones.frequency.tolist(), grid)
        each = np.eye(len(grid))
        curves = torque_losses(task, index, damper.offered, (1.0, *damper.ends), grid, each)
        self.torque: Array = curves[:, 0]  # (3, f)
        feet, both = floors[AS_TOLD].feet[:, index], floors[AS_TOLD].both[:, index]
        self.least = np.minimum(self.torque[0], decibel(feet, both))
        self.angles = angles
        self.factors = belt_factors(motion.layout, angles)[belt]

    def line(self, line: int) -> DamperLine:
        """Return tone number `line`."""
        own, tones = self.damper, self.damper.tones
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
            damper=self._loss(weights, lambda floor: (floor.neither, floor.damper)),
            feet=self._loss(weights, lambda floor: (floor.neither, floor.feet)),
            both=self._loss(weights, lambda floor: (floor.neither, floor.both)),
            worst=self._worst(float(tones.frequency[line])),
        )

    def _loss(self, weights: Array, pair: Callable[[Floor], tuple[Array, Array]]) -> Band:
        """Return by how many dB the second of two energies is less, as means by `weights`."""
        levels = {}
        for key, floor in self.floors.items():
            before, after = pair(floor)
            levels[key] = float(
                decibel(weights @ before[:, self.index], weights @ after[:, self.index])
            )
        return band(list(levels.values()), levels[AS_TOLD])

    def _worst(self, frequency: float) -> DamperWorst:
        """Return the direction in which torque or floor gains least, of a tone at `frequency`."""
        heard = self.factors * frequency
        at = int(np.argmin(np.interp(heard, self.grid, self.least)))
        there = directions.point_weights(self.grid, heard[at : at + 1])
        torque = (self.torque @ there).tolist()
        return DamperWorst(
            direction_deg=float(np.degrees(self.angles[at])),
            frequency=float(heard[at]),
            torque=band(torque, torque[0]),
            beyond=self._loss(there, lambda floor: (floor.feet, floor.both)),
        )
