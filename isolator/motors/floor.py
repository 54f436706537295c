"""Motors on dampers on the frame on its feet: what reaches the floor, with and without each."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from isolator.brief import Motor
from isolator.motors.choose import Damper, dynamic_rise
from isolator.motors.drive_train import body_of
from isolator.motors.results import DamperLine
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import GROUND, Support, assemble, mass_matrices
from isolator.physics.bodies.statics import G
from isolator.physics.drive import chain
from isolator.vibration.band import Band
from isolator.vibration.cases import Case
from isolator.vibration.drives import AXES
from isolator.vibration.pieces import point_inertia
from isolator.vibration.printer import MassCase
from isolator.vibration.stand import ENDS

LEAST_INERTIA = 0.05
"""Share of its inertia that a frame must keep when its motors are taken out of it."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Floor:
    """Norms (f,) of the force of all feet [N] under one motor's ripple."""

    neither: Array
    damper: Array  # rigid feet, dampers
    feet: Array  # the chosen feet, motors bolted on
    both: Array


def floor_forces(
    task: MotorTask,
    case: Case,
    dampers: dict[int, Damper],
    end: str,
    index: int,
    frequency: Array,
    torque: Array,
) -> Floor:
    """Return what reaches a rigid floor under the ripple of motor `index` at `frequency` (f,).

    `dampers` by index into the task's `belts`, all at one `end` of their band; motors without one
    are bolted on. `torque` (f,) [N·m].
    """
    motors = [motor for _, motor in task.belts]
    coms = [np.array(motor.position) for motor in motors]
    frame = parted(case.system.case, motors)
    feet = case.system.feet
    factor = case.system.factor(frequency)[0][:, None, None]
    lossy = 1.0 + 1j * feet.loss[0][:, None]
    springs, tilts = factor * feet.linear[0] * lossy, factor * feet.angular[0] * lossy
    supports, loads = _feet(feet.centres[0], springs, tilts, feet.load[0])
    for number, damper in dampers.items():
        supports.append(_damper(motors[number], damper, end, frequency, number + 1))
        loads.append(np.array([0.0, 0.0, motors[number].mass * G]))
    stiffness = assemble([frame.com, *coms], supports, loads)
    mass = mass_matrices(
        [frame.mass, *(motor.mass for motor in motors)],
        [frame.inertia, *(body_of(motor) for motor in motors)],
    )
    full = chain.augment(stiffness, mass, frame.com, task.drives, task.carriage)
    omega = 2.0 * np.pi * frequency
    push = np.zeros((len(omega), len(motors), 1))
    push[:, index, 0] = torque
    arms = feet.centres[0] - frame.com
    found = []
    for free in (set[int](), set(dampers)):
        joint = chain.bolted(frame.com, coms, [number not in free for number in range(len(motors))])
        k, m = joint.T @ full[0] @ joint, joint.T @ full[1] @ joint
        moved, _ = chain.response(k, m, omega, push)
        _, wrench = chain.fixed_frame(k, m, omega, push)
        found += [
            chain.rigid_floor_force(wrench, arms, springs, tilts),
            chain.floor_force(moved, arms, springs),
        ]
    neither, alone, damped, both = found
    return Floor(neither=neither, damper=damped, feet=alone, both=both)


def parted(case: MassCase, motors: list[Motor]) -> MassCase:
    """Return the printer without its motors, which are bodies of their own.

    Where the inertia that was typed is too small to hold motors at their places it is kept whole.
    """
    mass = case.mass - sum(motor.mass for motor in motors)
    moment = case.mass * case.com - sum(
        (motor.mass * np.array(motor.position) for motor in motors), np.zeros(3)
    )
    com = moment / mass
    inertia = case.inertia - mass * point_inertia(1.0, com - case.com)
    for motor in motors:
        arm = np.array(motor.position) - case.com
        inertia = inertia - body_of(motor) - point_inertia(motor.mass, arm)
    least = np.linalg.eigvalsh(inertia)[0]
    if least < LEAST_INERTIA * np.linalg.eigvalsh(case.inertia)[0]:
        inertia = case.inertia
    return MassCase(name=case.name, mass=mass, com=com, inertia=inertia)


def _feet(
    centres: Array, springs: Complex, tilts: Complex, carried: Array
) -> tuple[list[Support], list[Array]]:
    supports, loads = [], []
    for number, centre in enumerate(centres):
        block = _block(springs[:, number], tilts[:, number])
        supports.append(Support(GROUND, 0, centre, block))
        loads.append(np.array([0.0, 0.0, carried[number]]))
    return supports, loads


def _block(linear: Complex, angular: Complex) -> Complex:
    """Return the stiffness (f, 6, 6) of a support from its own (f, 3) along and about each axis."""
    along = np.concatenate([linear, angular], axis=-1)
    return np.asarray(along[..., None] * np.eye(6), dtype=complex)


def rubber_middle(motor: Motor, damper: Damper) -> Array:
    """Return the middle of a damper's rubber (3,) [m], printer's axes, seen from its motor.

    The motor is kept at the place it has now: a stack of some millimetres moves it by far less
    than its place is known to.
    """
    shaft = AXES[motor.axis] * float(motor.points)
    out = motor.body_length / 2.0 + damper.plates.motor + float(damper.offered.rubber[0]) / 2.0
    return np.array(motor.position) + out * shaft


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


def _damper(motor: Motor, damper: Damper, end: str, frequency: Array, body: int) -> Support:
    block = _block(*stiffness_at(motor, damper, end, frequency))
    return Support(0, body, rubber_middle(motor, damper), block)


def damper_lines(
    task: MotorTask, cases: dict[tuple[str, str], Case], dampers: dict[int, Damper], index: int
) -> tuple[DamperLine, ...]:
    """Return every drone line of motor `index` with what damper and feet take of it.

    The band runs over both ends of rubber and feet together, and over the mass range.
    """
    own = dampers[index]
    tones = own.tones
    losses: dict[tuple[str, str], tuple[Array, Array, Array]] = {}
    for end in ENDS:
        for mass in dict.fromkeys(mass for _, mass in cases):
            # feet whose stiffness was given have no band
            case = cases.get((end, mass)) or cases["nominal", mass]
            floor = floor_forces(task, case, dampers, end, index, tones.frequency, tones.torque)
            losses[end, mass] = tuple(
                20.0 * np.log10(floor.neither / each)
                for each in (floor.damper, floor.feet, floor.both)
            )  # type: ignore[assignment]

    def band(which: int, line: int) -> Band:
        values = [float(each[which][line]) for each in losses.values()]
        middle = float(losses["nominal", "nominal"][which][line])
        return Band(low=min(values), nominal=middle, high=max(values))

    return tuple(
        DamperLine(
            source=source,
            speed=float(tones.speed[line]),
            direction_deg=float(tones.direction[line]),
            frequency=float(tones.frequency[line]),
            torque=Band(
                low=float(own.low[line]),
                nominal=float(own.nominal[line]),
                high=float(own.high[line]),
            ),
            damper=band(0, line),
            feet=band(1, line),
            both=band(2, line),
        )
        for line, source in enumerate(tones.source)
    )
