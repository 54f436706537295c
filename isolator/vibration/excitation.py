"""What shakes the printer: the lines of its motors, its fans, and the user's own forces."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Brief, Fan, Load, Motion, Motor
from isolator.design.axes import Pair
from isolator.physics.arrays import Array, Complex
from isolator.physics.drive import stepper
from isolator.physics.drive.belts import held_belt_resonance
from isolator.physics.drive.chain import Carriage, Drive
from isolator.vibration.drives import (
    AXES,
    belt_motors,
    build_carriage,
    build_drives,
    travel_per_turn,
)

DIRECTIONS = (0.0, 45.0, 90.0)
"""Moves along the axes and the diagonal [°] from the x axis."""
MOTOR_SOURCES = stepper.LINES


@dataclass(frozen=True, slots=True, kw_only=True)
class Push:
    """A harmonic force and moment at one point of the printer."""

    force: Complex  # (3,) [N]
    moment: Complex  # (3,) [N·m]
    point: Array  # (3,) [m]

    def about(self, com: Array) -> Complex:
        """Return force and moment about `com` (3,) as one vector (6,)."""
        turned = np.cross(self.point - com, self.force)
        return np.concatenate([self.force, self.moment + turned])


@dataclass(frozen=True, slots=True, kw_only=True)
class FanTone:
    """One line of a fan, which does not follow the move."""

    source: str
    frequency: float  # [Hz]
    push: Push


@dataclass(frozen=True, slots=True, kw_only=True)
class Excitation:
    """What shakes a printer."""

    motion: Motion
    motors: tuple[Motor, ...]
    belts: tuple[tuple[int, Motor], ...]  # (belt, motor) of those that drive one: A or x is 0
    drives: tuple[Drive, ...]  # of the motors in `belts`
    carriage: Carriage
    fans: tuple[Fan, ...]
    loads: tuple[Load, ...]  # forces of the user's own
    strokes: Pair  # shortest and longest that reverse again and again [m]


def build_excitation(brief: Brief) -> Excitation:
    """Return what shakes the printer of a brief."""
    motion = brief.motion
    belts = belt_motors(motion, brief.motors)
    return Excitation(
        motion=motion,
        motors=brief.motors,
        belts=belts,
        drives=build_drives(motion, belts),
        carriage=build_carriage(motion),
        fans=brief.fans,
        loads=brief.loads,
        strokes=brief.limits.strokes,
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


def ripple_of(source: str, microsteps: int) -> stepper.Ripple:
    """Return the range of a line's torque ripple as a share of holding torque; estimated."""
    return stepper.microstep_ripple(microsteps) if source == "microstep" else stepper.RIPPLE[source]


def ripple_share(source: str, microsteps: int) -> float:
    """Return a line's torque ripple as a share of holding torque: the middle of its range.

    The middle of the logarithm, as the ranges are factors; estimated. Ratios between feet do not
    depend on it.
    """
    line = ripple_of(source, microsteps)
    return math.sqrt(line.low * line.high)


def ripples(excitation: Excitation, source: str) -> Array:
    """Return the torque ripple (m,) [N·m] of every belt motor at one line; estimated."""
    share = ripple_share(source, excitation.motion.microsteps)
    return share * np.array([motor.holding_torque for _, motor in excitation.belts])


def belt_resonances(excitation: Excitation) -> list[float]:
    """Return the resonances of the moving masses on their belts [Hz], rotors held."""
    found = []
    for along, mass in enumerate(excitation.carriage.masses):
        held = sum(
            np.real(drive.belt_stiffness) * drive.pulls[along] ** 2 for drive in excitation.drives
        )
        if held > 0.0:
            found.append(float(held_belt_resonance(held, mass)))
    return found


def fan_tones(fans: Sequence[Fan]) -> tuple[FanTone, ...]:
    """Return the tones of the fans: unbalance once a turn, blades as often as they pass."""
    tones: list[FanTone] = []
    for fan in fans:
        omega, place = 2.0 * math.pi * fan.speed, np.array(fan.position)
        # a rotating force is two perpendicular ones a quarter turn apart
        across = [unit for name, unit in AXES.items() if name != fan.axis]
        spin = fan.unbalance * omega**2 * (across[0] + 1j * across[1])
        tones.append(FanTone(source=fan.name, frequency=fan.speed, push=force_at(spin, place)))
        if fan.blades > 0:
            # a blade's push on the air has no size here: losses are ratios and need none
            blades = FanTone(
                source=f"{fan.name} blades",
                frequency=fan.speed * fan.blades,
                push=force_at(AXES[fan.axis], place),
            )
            tones.append(blades)
    return tuple(tones)


def force_at(force: NDArray[np.number], point: Array) -> Push:
    """Return a force (3,) [N] at `point` (3,) [m]."""
    return Push(
        force=np.asarray(force, dtype=complex),
        moment=np.zeros(3, dtype=complex),
        point=np.asarray(point, dtype=float),
    )


def load_push(load: Load) -> Push:
    """Return a force of the user's own as a push."""
    return Push(
        force=np.array(load.force, dtype=complex),
        moment=np.array(load.moment, dtype=complex),
        point=np.array(load.position),
    )
