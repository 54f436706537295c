"""Every motor: a damper, a plain plate or neither, with all that follows from it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from isolator.brief import Motor
from isolator.cards import Material
from isolator.design.damper import BOND_RING, MotorDamper, bond_screw, outline_side
from isolator.design.faceplates import FACEPLATES
from isolator.design.phrases import speed_text
from isolator.motors.belt_load import plates_of
from isolator.motors.choose import Damper, DamperChoice, choose, helps_from
from isolator.motors.consequences import (
    PRINT_TOLERANCE,
    Built,
    belt_of,
    build,
    damper_checks,
    stacked,
)
from isolator.motors.drive import drive_words
from isolator.motors.floor import damper_lines
from isolator.motors.heat import PLATE_CONDUCTIVITY, heat
from isolator.motors.modes import damper_modes
from isolator.motors.results import DamperLine, DamperState, MotorResult, Screws
from isolator.motors.screws import Fastened, plate_screws
from isolator.motors.sentences import chosen_words, damper_title, none_words, plate_words
from isolator.motors.shaft import alternatives, height_words, stack_of
from isolator.motors.task import MotorTask
from isolator.motors.to_design import damper_sheet
from isolator.vibration.band import Check
from isolator.vibration.cases import all_cases
from isolator.vibration.printer import Machine
from isolator.vibration.stand import Stand
from isolator.vibration.verdict import raised


@dataclass(frozen=True, slots=True, kw_only=True)
class MountedMotors:
    """What was found of all motors, and the dampers to draw."""

    results: tuple[MotorResult, ...]
    dampers: tuple[MotorDamper, ...]


def best_dampers(
    task: MotorTask, machine: Machine, cards: dict[str, Material], stand: Stand
) -> MountedMotors:
    """Design a damper for every belt motor that is better off with one, on the chosen feet.

    A damper that makes a drone line worse at the brief's speeds, or that fails a check, loses to
    none unless the brief wants one always.
    """
    places = {motor.name: index for index, (_, motor) in enumerate(task.belts)}
    choices = {
        places[motor.name]: _choice(task, motor, places[motor.name], cards)
        for motor in task.motors
        if motor.name in places and motor.damper != "none" and motor.spacer_plate == 0
    }
    taken = {index: best for index, each in choices.items() if (best := _taken(task, index, each))}
    reasons = {index: why for index, each in taken.items() if (why := _fails(task, index, each))}
    for index in reasons:
        del taken[index]
    lines = _lines(task, machine, stand, taken)
    # what one damper does to the floor hangs on the others: look again after each is given up
    while raising := {i: why for i in taken if (why := _raises(task, i, lines[i]))}:
        reasons |= raising
        taken = {index: each for index, each in taken.items() if index not in raising}
        lines = _lines(task, machine, stand, taken)
    results: list[MotorResult] = []
    sheets: list[MotorDamper] = []
    for motor in task.motors:
        index = places.get(motor.name, -1)
        if index in taken:
            result, sheet = _damped(task, motor, index, taken[index], lines[index])
            sheets.append(sheet)
        elif motor.spacer_plate > 0:
            result = _plated(task, motor)
        else:
            idle = "" if motor.name in places else "it drives no belt that is looked at."
            result = _bare(task, motor, index, choices.get(index), reasons.get(index, idle))
        results.append(result)
    return MountedMotors(results=tuple(results), dampers=tuple(sheets))


def _choice(task: MotorTask, motor: Motor, index: int, cards: dict[str, Material]) -> DamperChoice:
    bare = stack_of(motor, 0.0, task.print.layer, 0.0)
    # the rubber is as warm as the middle between a motor that cools by itself and the room
    alone = heat(motor, ((1.0, 1e-3, 1e-3),), task.room.temperature_high, task.print.motor_material)
    warm = (alone.case_after + task.room.temperature_high) / 2.0
    return choose(task, index, cards, bare.tallest, warm)


def _taken(task: MotorTask, index: int, choice: DamperChoice) -> Damper | None:
    """Return the damper that is taken as far as torque tells, None for none."""
    best = choice.best
    always = task.belts[index][1].damper == "always"
    return best if best is not None and (always or (best.clear and best.worth)) else None


def _fails(task: MotorTask, index: int, damper: Damper) -> str:
    """Return why a damper is given up for a check that it fails, empty where it is not."""
    motor = task.belts[index][1]
    if motor.damper == "always":
        return ""
    checks = (*damper_checks(task, motor, damper), *build(task, motor, damper).checks)
    failed = [check for check in checks if not check.passed]
    if not failed:
        return ""
    return (
        "; ".join(
            f"the best would not hold the check on the {check.name}: {check.advice}"
            for check in failed[:2]
        )
        + "."
    )


def _lines(
    task: MotorTask, machine: Machine, stand: Stand, taken: dict[int, Damper]
) -> dict[int, tuple[DamperLine, ...]]:
    if not taken:
        return {}
    cases = all_cases(stand, machine)
    return {index: damper_lines(task, cases, taken, index) for index in taken}


def _raises(task: MotorTask, index: int, lines: tuple[DamperLine, ...]) -> str:
    """Return why a damper is given up for what it does to the floor, empty where it is not.

    A line that is cut by more than is promised, damper and all, does not count.
    """
    ceiling = task.ceiling
    heard = [line for line in lines if line.both.low < ceiling]
    if task.belts[index][1].damper == "always" or not heard:
        return ""
    worst = min(heard, key=lambda line: line.both.nominal - line.feet.nominal)
    change = worst.both.nominal - worst.feet.nominal
    if not raised(change, worst.both.low - worst.feet.low):
        return ""
    return (
        f"on these feet the best would make the {worst.source} tone at {worst.frequency:.0f} Hz, "
        f"{speed_text(worst.speed)}, {-change:.0f} dB worse on the floor."
    )


def _damped(
    task: MotorTask, motor: Motor, index: int, damper: Damper, lines: tuple[DamperLine, ...]
) -> tuple[MotorResult, MotorDamper]:
    """Return all that is told of a motor on its damper, and the sheet."""
    loaded, offered = damper.loaded, damper.offered
    built = build(task, motor, damper)
    modes = damper_modes(motor, damper)
    twist = next(mode.frequency for mode in modes if mode.name == "twist")
    from_speed = helps_from(task, index, damper)
    angle, tilt = float(loaded.wedge_angle[0]), float(offered.tilt[0])
    shear = float(offered.shear[0])
    state = DamperState(
        title=damper_title(damper),
        axial=float(offered.axial[0]),
        shear=(shear, shear),
        tilt=(tilt, tilt),
        twist=float(offered.twist[0]),
        modes=modes,
        lines=lines,
        shift=float(loaded.shift[0]),
        wedge_angle=angle,
        wedge_step=2.0 * math.tan(angle) * outline_side(motor.frame_size) / 2.0,
        tilt_left=float(loaded.tilt_left[0]),
        helps_from=from_speed,
    )
    sheet = damper_sheet(
        motor,
        damper,
        spacer=built.spacer,
        motor_screw=built.screws[0].length,
        frame_screw=built.screws[1].length,
        stock=task.stock,
        filament=task.print.motor_material,
    )
    result = MotorResult(
        name=motor.name,
        kind="damper",
        words=(
            *chosen_words(
                motor,
                damper,
                lines,
                (twist.low, twist.high),
                task.ceiling,
                from_speed,
            ),
            *built.words,
            *_heights(task, motor),
            *drive_words(built.drive, motor),
        ),
        stack_height=float(loaded.stack[0]),
        pulley_spacer_height=built.spacer,
        shaft_left=motor.shaft_length - built.spacer,
        stack=built.stack,
        belt=belt_of(task, motor, float(loaded.stack[0]), damper),
        tilt=float(loaded.tilt[0]),
        pulley_shift=float(loaded.pulley_shift[0]),
        damper=state,
        screws=(*built.screws, _bond(motor, sheet, built.screws[0])),
        heat=built.heat,
        drive=built.drive,
        checks=(*damper_checks(task, motor, damper), *built.checks),
    )
    return result, sheet


def _plated(task: MotorTask, motor: Motor) -> MotorResult:
    """Return all that is told of a motor on a plain plate."""
    height = motor.spacer_plate
    face = FACEPLATES[motor.frame_size].body ** 2
    built = stacked(
        task,
        motor,
        height,
        PRINT_TOLERANCE,
        plate_screws(motor, height),
        ((height, PLATE_CONDUCTIVITY, face),),
    )
    return _rigid(
        task, motor, built, "plate", height, (*plate_words(motor, built.spacer), *built.words)
    )


def _bare(
    task: MotorTask, motor: Motor, index: int, choice: DamperChoice | None, reason: str
) -> MotorResult:
    """Return all that is told of a motor that stays bolted to its bracket."""
    built = stacked(task, motor, 0.0, 0.0, Fastened((), ()), ())
    softest = None if choice is None else choice.softest
    from_speed = None if softest is None else helps_from(task, index, softest)
    words = none_words(motor, choice, from_speed, reason)
    if choice is not None and choice.best is None and choice.tried:
        plates = plates_of(task.stock, motor.frame_size, task.print.layer)
        least = plates.motor + plates.frame + min(task.stock.thicknesses)
        if least > stack_of(motor, 0.0, task.print.layer, 0.0).tallest:
            words += tuple(alternatives(motor, least, task.print.layer))
    result = _rigid(task, motor, replace(built, checks=()), "none", 0.0, words)
    if motor.damper != "always":
        return result
    missing = Check(
        name=f"a damper for {motor.name}",
        value=0.0,
        limit=1.0,
        unit="",
        passed=False,
        advice='offer other rubber, a longer shaft or a slacker belt, or set damper to "auto"',
    )
    return replace(result, checks=(missing,))


def _rigid(
    task: MotorTask, motor: Motor, built: Built, kind: str, height: float, words: tuple[str, ...]
) -> MotorResult:
    """Return the result of a motor without rubber."""
    told = drive_words(built.drive, motor) if task.belt(motor) is not None else ()
    return MotorResult(
        name=motor.name,
        kind=kind,
        words=(*words, *told),
        stack_height=height,
        pulley_spacer_height=built.spacer,
        shaft_left=motor.shaft_length - built.spacer,
        stack=built.stack,
        belt=belt_of(task, motor, height, None),
        tilt=0.0,
        pulley_shift=0.0,
        damper=None,
        screws=built.screws,
        heat=built.heat,
        drive=built.drive,
        checks=built.checks,
    )


def _bond(motor: Motor, sheet: MotorDamper, beside: Screws) -> Screws:
    """Return the screw that holds the bonding wire's terminal on the motor's metal."""
    length = bond_screw(sheet)
    held = length - BOND_RING if motor.screw_depth > 0 else beside.engagement
    return Screws(
        count=1,
        thread=beside.thread,
        length=length,
        head="button head, ISO 7380-1",
        where="bonding wire's ring terminal to the motor, in the free corner",
        engagement=held,
        turns=held / (beside.engagement / beside.turns),
        beside="1 ring terminal, 1 toothed washer" + ("" if motor.screw_depth > 0 else ", 1 nut"),
    )


def _heights(task: MotorTask, motor: Motor) -> tuple[str, ...]:
    told = height_words(task.motion.layout, task.motors)
    return (told,) if told and motor is task.motors[0] else ()
