"""What shakes the printer: the tones of its motors and fans, and the user's own forces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Brief, Fan, Load, Motion, Motor
from isolator.design.axes import Pair
from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import cross_matrix
from isolator.physics.drive import drivetrain, stepper

DIRECTIONS = (0.0, 45.0, 90.0)
"""Directions of a move [°] from the x axis for which every tone is told."""
MOTOR_SOURCES = ("turn", "belt tooth", "electrical", "twice electrical", "full step", "microstep")
AXES = {"x": np.array([1.0, 0.0, 0.0]), "y": np.array([0.0, 1.0, 0.0]), "z": np.array([0, 0, 1.0])}


@dataclass(frozen=True, slots=True, kw_only=True)
class HarmonicPush:
    """Harmonic forces and moments of one independent source, each at its own point.

    Leading dimensions run over frequencies of one line.
    """

    forces: Complex  # (..., p, 3) [N]
    moments: Complex  # (..., p, 3) [N·m]
    points: Array  # (p, 3) [m]

    def about(self, com: Array) -> Complex:
        """Return force and moment about `com` (3,) as one vector (..., 6)."""
        turned = (cross_matrix(self.points - com) @ self.forces[..., None])[..., 0]
        moment = (self.moments + turned).sum(axis=-2)
        return np.concatenate([self.forces.sum(axis=-2), moment], axis=-1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tone:
    """One line over t frequencies: pushes that share a frequency but not a phase."""

    source: str
    frequency: Array  # (t,) [Hz]
    direction_deg: float | None
    pushes: tuple[HarmonicPush, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Excitation:
    """What shakes a printer."""

    motion: Motion
    motors: tuple[Motor, ...]
    fans: tuple[Fan, ...]
    loads: tuple[Load, ...]  # forces of the user's own
    strokes: Pair  # shortest and longest that reverse again and again [m]


def build_excitation(brief: Brief) -> Excitation:
    """Return what shakes the printer of a brief."""
    return Excitation(
        motion=brief.motion,
        motors=brief.motors,
        fans=brief.fans,
        loads=brief.loads,
        strokes=brief.limits.strokes,
    )


def travel_per_turn(motion: Motion) -> float:
    """Return how far the belt moves in one motor turn [m]."""
    return motion.belt_pitch * motion.pulley_teeth


def moved_masses(motion: Motion) -> tuple[float, float]:
    """Return the masses [kg] that a move along x and along y accelerates."""
    if motion.layout == "moving-bed":
        return motion.tool_mass, motion.bed_mass
    return motion.tool_mass, motion.tool_mass + motion.gantry_mass


def move_points(motion: Motion) -> tuple[Array, Array]:
    """Return the points (3,) [m] where moves along x and along y push the frame."""
    tool = np.array([0.0, 0.0, motion.gantry_height])
    bed = np.array([0.0, 0.0, motion.bed_height])
    return tool, bed if motion.layout == "moving-bed" else tool


def belt_motors(motion: Motion, motors: Sequence[Motor]) -> tuple[tuple[int, Motor], ...]:
    """Return (belt index, motor) for the motors that drive a belt: 0 is A or x, 1 is B or y.

    On a crossed-belt machine motors count in their order; elsewhere by the axis they drive.
    """
    if motion.layout == "crossed-belt":
        return tuple(enumerate(motors[:2]))
    return tuple((0 if motor.drives == "x" else 1, motor) for motor in motors)


def motor_tones(excitation: Excitation, speeds: Array, direction_deg: float) -> tuple[Tone, ...]:
    """Return the tones of the belt motors for moves at `speeds` (t,) [m/s] in one direction.

    A motor that stands still in that direction makes none. Motors turning at one speed share
    their tones, with phases that nobody knows.
    """
    motion = excitation.motion
    driving = belt_motors(motion, excitation.motors)
    belts = stepper.belt_speeds(motion.layout, 1.0, math.radians(direction_deg))
    gathered: dict[tuple[str, float], list[HarmonicPush]] = {}
    for index, motor in driving:
        belt = abs(belts[index])
        if belt < 1e-9:
            continue
        lines = motor_lines(motion, belt)
        for source in MOTOR_SOURCES:
            frequency = lines[source] * speeds
            push = _ripple(motion, driving, index, motor, source, frequency)
            gathered.setdefault((source, round(lines[source], 9)), []).append(push)
    return tuple(
        Tone(
            source=source,
            frequency=per_metre * speeds,
            direction_deg=direction_deg,
            pushes=tuple(pushes),
        )
        for (source, per_metre), pushes in gathered.items()
    )


def motor_lines(motion: Motion, belt_speed: float) -> dict[str, float]:
    """Return the frequency [Hz] of every line of a motor whose belt runs at `belt_speed` [m/s]."""
    return stepper.lines(
        belt_speed,
        travel_per_turn(motion),
        motion.pulley_teeth,
        motion.steps_per_turn,
        motion.microsteps,
    )


def _ripple(
    motion: Motion,
    driving: tuple[tuple[int, Motor], ...],
    belt: int,
    motor: Motor,
    source: str,
    frequency: Array,
) -> HarmonicPush:
    """Return what torque ripple at one motor does to the frame at `frequency` (t,)."""
    radius = travel_per_turn(motion) / (2.0 * math.pi)
    masses, places = moved_masses(motion), move_points(motion)
    drive: dict[str, Any] = {
        "torque": ripple_share(source, motion.microsteps) * motor.holding_torque,
        "omega": 2.0 * math.pi * frequency,
        "rotor_inertia": motor.rotor_inertia,
        "pulley_radius": radius,
        "belt_stiffness": motion.belt_stiffness,
        "magnetic_stiffness": stepper.magnetic_stiffness(
            motor.holding_torque, motion.steps_per_turn
        ),
    }
    along: tuple[Complex, Complex]
    if motion.layout == "crossed-belt":
        plane = drivetrain.crossed_response(mass_x=masses[0], mass_y=masses[1], **drive)
        # ripple at motor B is ripple at A with y mirrored
        mirror = 1.0 if belt == 0 else -1.0
        turning = {belt: plane.rotor_a, 1 - belt: plane.rotor_b}
        along = (plane.carriage_x, mirror * plane.carriage_y)
    else:
        single = drivetrain.axis_response(moving_mass=masses[belt], **drive)
        turning = {belt: single.rotor}
        still = np.zeros_like(single.carriage)
        along = (single.carriage, still) if belt == 0 else (still, single.carriage)
    rotors = [(other, turning[index]) for index, other in driving if index in turning]
    shape = (*np.shape(frequency), 2 + len(rotors), 3)
    forces, moments = np.zeros(shape, dtype=complex), np.zeros(shape, dtype=complex)
    forces[..., 0, 0] = -masses[0] * along[0]
    forces[..., 1, 1] = -masses[1] * along[1]
    for row, (turned, alpha) in enumerate(rotors, start=2):
        torque = -turned.rotor_inertia * np.asarray(alpha)
        moments[..., row, :] = torque[..., None] * AXES[turned.axis]
    points = [*places, *(np.array(turned.position) for turned, _ in rotors)]
    return HarmonicPush(forces=forces, moments=moments, points=np.array(points))


def ripple_share(source: str, microsteps: int) -> float:
    """Return a line's torque ripple as a share of holding torque: the middle of its range.

    The middle of the logarithm, as the ranges are factors; estimated. Ratios between feet do not
    depend on it.
    """
    line = stepper.microstep_ripple(microsteps) if source == "microstep" else stepper.RIPPLE[source]
    return math.sqrt(line.low * line.high)


def fan_tones(fans: Sequence[Fan]) -> tuple[Tone, ...]:
    """Return the tones of the fans: unbalance once a turn, blades as often as they pass."""
    tones: list[Tone] = []
    for fan in fans:
        omega = 2.0 * math.pi * fan.speed
        spin = _spinning(fan, fan.unbalance * omega**2)
        tones.append(
            Tone(source=fan.name, frequency=np.array([fan.speed]), direction_deg=None, pushes=spin)
        )
        if fan.blades > 0:
            # a blade's push on the air has no size here: losses are ratios and need none
            axial = single_push(AXES[fan.axis], np.zeros(3), np.array(fan.position))
            tones.append(
                Tone(
                    source=f"{fan.name} blades",
                    frequency=np.array([fan.speed * fan.blades]),
                    direction_deg=None,
                    pushes=(axial,),
                )
            )
    return tuple(tones)


def _spinning(fan: Fan, force: float) -> tuple[HarmonicPush, ...]:
    """Return a rotating force as its two perpendicular parts."""
    others = [unit for name, unit in AXES.items() if name != fan.axis]
    place = np.array(fan.position)
    turning = force * (others[0] + 1j * others[1])
    return (single_push(turning, np.zeros(3), place),)


def single_push(
    force: NDArray[np.number], moment: NDArray[np.number], point: Array
) -> HarmonicPush:
    """Return one force (3,) [N] and moment (3,) [N·m] at `point` (3,) [m]."""
    return HarmonicPush(
        forces=np.asarray(force, dtype=complex).reshape(1, 3),
        moments=np.asarray(moment, dtype=complex).reshape(1, 3),
        points=np.asarray(point, dtype=float).reshape(1, 3),
    )


def all_tones(excitation: Excitation, speed: float) -> tuple[Tone, ...]:
    """Return every tone at `speed` [m/s]: motors in all directions, then fans."""
    each = np.array([speed])
    motors = [tone for angle in DIRECTIONS for tone in motor_tones(excitation, each, angle)]
    return (*motors, *fan_tones(excitation.fans))
