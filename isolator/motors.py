"""Every motor: a damper, a plain plate or neither, with all that follows from it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from isolator.brief import Brief, Motor
from isolator.design.damper import FREE, MotorDamper
from isolator.evaluate.cases import all_cases
from isolator.evaluate.stands import Stand
from isolator.evaluate.verdict import raised
from isolator.figures import Check
from isolator.machine import Machine
from isolator.materials import Material
from isolator.motor_drive import drive, drive_words
from isolator.motor_heat import PLATE_CONDUCTIVITY, heat, heat_checks, rubber_conductivity
from isolator.motor_mount.choose import LEAST_LOSS, Choice, Damper, choose, helps_from
from isolator.motor_mount.drawn import drawn
from isolator.motor_mount.modes import damper_modes
from isolator.motor_mount.pull import SHEAR_STRAIN
from isolator.motor_mount.told import chosen_words, damper_title, none_words, plate_words
from isolator.motor_mount.whole import damper_lines
from isolator.motor_result import Belt, DamperLine, DamperState, Heat, MotorResult, Screws
from isolator.motor_screws import damper_screws, plate_screws
from isolator.physics.belts import shaft_pull, softened_stiffness
from isolator.physics.drivetrain import held_belt_resonance
from isolator.shakers import belt_motors, moved_masses, travel_per_turn
from isolator.stack_up import spacer_height, stack_checks, stack_of, stack_words

SHEET_TOLERANCE = 0.1
"""Share of its thickness by which rubber sheet is off; common practice, no source."""
PRINT_TOLERANCE = 0.15e-3
"""How far a stack of printed plates and a spacer is off [m]; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mounted:
    """What was found of all motors, and the dampers to draw."""

    results: tuple[MotorResult, ...]
    dampers: tuple[MotorDamper, ...]


def mount(
    brief: Brief, machine: Machine, cards: dict[str, Material], stand: Stand
) -> Mounted:  # fmt: skip
    """Design a damper for every belt motor that is better off with one, on the chosen feet.

    A damper that makes a drone line worse at the brief's speeds, or that fails a check, loses to
    none unless the brief wants one always.
    """
    belts = {motor.name: index for index, (_, motor) in enumerate(belt_motors(brief))}
    choices = {
        belts[motor.name]: _choice(brief, motor, belts[motor.name], cards)
        for motor in brief.motors
        if motor.name in belts and _wanted(motor)
    }
    cases = all_cases(stand, machine)
    taken = {index: found for index, each in choices.items() if (found := _taken(brief, index, each))}
    while True:
        lines = {index: damper_lines(brief, cases, taken, index) for index in taken}
        worse = [
            index
            for index, damper in taken.items()
            if belt_motors(brief)[index][1].damper != "always"
            and (_raises(lines[index]) or not _holds(brief, index, damper))
        ]
        if not worse:
            break
        del taken[worse[0]]
    results, dampers = [], []
    for motor in brief.motors:
        index = belts.get(motor.name, -1)
        if index in taken:
            result, sheet = _damped(brief, motor, index, taken[index], lines[index])
            dampers.append(sheet)
        elif motor.spacer_plate > 0:
            result = _plated(brief, motor)
        else:
            result = _bare(brief, motor, index, choices.get(index))
        results.append(result)
    return Mounted(results=tuple(results), dampers=tuple(dampers))


def _wanted(motor: Motor) -> bool:
    return motor.damper != "none" and motor.spacer_plate == 0


def _choice(brief: Brief, motor: Motor, index: int, cards: dict[str, Material]) -> Choice:
    bare = stack_of(motor, 0.0, brief.print.layer, 0.0)
    # rubber lies between a motor that no longer cools through its bracket and the bracket
    alone = heat(brief, motor, ((1.0, 1e-3, 1e-3),))
    warm = (alone.case_after + brief.room.temperature_high) / 2.0
    return choose(brief, index, cards, bare.tallest, warm)


def _taken(brief: Brief, index: int, choice: Choice) -> Damper | None:
    """Return the damper that is taken as far as torque tells, None for none."""
    best = choice.best
    always = belt_motors(brief)[index][1].damper == "always"
    return best if best is not None and (always or (best.clear and best.worth)) else None


def _raises(lines: tuple[DamperLine, ...]) -> bool:
    """Return whether a damper makes a drone line worse on the floor, on the chosen feet."""
    return any(
        bool(raised(line.both.nominal - line.feet.nominal, line.both.low - line.feet.low))
        for line in lines
    )


def _damped(
    brief: Brief, motor: Motor, index: int, damper: Damper, lines: tuple[DamperLine, ...]
) -> tuple[MotorResult, MotorDamper]:
    """Return all that is told of a motor on its damper, and the sheet."""
    held, offered = damper.held, damper.offered
    built = _build(brief, motor, damper)
    modes = damper_modes(motor, damper)
    twist = next(mode.frequency for mode in modes if mode.name == "twist")
    from_speed = helps_from(brief, index, damper)
    angle, tilt = float(held.wedge_angle[0]), float(offered.tilt[0])
    shear = float(offered.shear[0])
    state = DamperState(
        title=damper_title(damper), axial=float(offered.axial[0]), shear=(shear, shear),
        tilt=(tilt, tilt), twist=float(offered.twist[0]), modes=modes, lines=lines,
        shift=float(held.shift[0]), wedge_angle=angle,
        wedge_step=2.0 * math.tan(angle) * outline_side(motor.frame_size) / 2.0,
        tilt_left=float(held.tilt_left[0]), helps_from=from_speed,
    )  # fmt: skip
    result = MotorResult(
        name=motor.name, kind="damper",
        words=(
            *chosen_words(motor, damper, lines, (twist.low, twist.high),
                          brief.limits.promise_ceiling_db, from_speed),
            *drive_words(built.drive, motor),
        ),
        stack_height=float(held.stack[0]), pulley_spacer_height=built.spacer,
        shaft_left=motor.shaft_length - built.spacer, stack=built.stack,
        belt=_belt(brief, motor, float(held.stack[0]), damper), tilt=float(held.tilt[0]),
        pulley_shift=float(held.pulley_shift[0]), damper=state, screws=built.screws,
        heat=built.heat, drive=built.drive,
        checks=(*_damper_checks(brief, motor, damper), *built.checks),
    )  # fmt: skip
    sheet = drawn(
        brief, motor, damper, spacer=built.spacer, motor_screw=built.screws[0].length,
        frame_screw=built.screws[1].length,
    )  # fmt: skip
    return result, sheet
