"""Which motors get a damper: the best for each, unless a check or the floor speaks against it."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.brief import Motor
from isolator.cards import Material
from isolator.design.damper import MotorDamper
from isolator.motors.choose import Damper, DamperChoice, choose
from isolator.motors.consequences import build, damper_checks
from isolator.motors.floor import damper_lines
from isolator.motors.heat import Layer, heat
from isolator.motors.outcomes import bolted, damped, plated
from isolator.motors.results import DamperLine, MotorResult, NoDamper, RaisedTone
from isolator.motors.sampled import Drawn
from isolator.motors.shaft import tallest_stack
from isolator.motors.task import MotorTask
from isolator.vibration.printer import RigidPrinter
from isolator.vibration.sampled import sampled
from isolator.vibration.spreads import draw
from isolator.vibration.stand import Stand
from isolator.vibration.verdict import raised


@dataclass(frozen=True, slots=True, kw_only=True)
class MountedMotors:
    """What was found of all motors, and the dampers to draw."""

    results: tuple[MotorResult, ...]
    dampers: tuple[MotorDamper, ...]


def best_dampers(
    task: MotorTask, printer: RigidPrinter, cards: dict[str, Material], stand: Stand
) -> MountedMotors:
    """Design a damper for every belt motor that is better off with one, on the chosen feet.

    A damper that makes a drone tone worse at the brief's speeds, in the mean over directions, or
    that fails a check, loses to none unless the brief wants one always.
    """
    samples = draw(printer.extras)
    drawn = Drawn(samples=samples, feet=sampled(stand, printer, task.excitation, samples, "feet"))
    choices = {
        index: _choice(task, motor, index, cards, drawn)
        for index, (_, motor) in enumerate(task.belts)
        if motor.damper != "none" and motor.spacer_plate == 0
    }
    taken = {index: best for index, each in choices.items() if (best := _taken(task, index, each))}
    reasons = {index: why for index, each in taken.items() if (why := _fails(task, index, each))}
    for index in reasons:
        del taken[index]
    lines = _lines(task, drawn, taken)
    # what one damper does to the floor hangs on the others: look again after each is given up
    while raising := {i: why for i in taken if (why := _raises(task, i, lines[i]))}:
        reasons |= raising
        taken = {index: each for index, each in taken.items() if index not in raising}
        lines = _lines(task, drawn, taken)
    results: list[MotorResult] = []
    sheets: list[MotorDamper] = []
    places = {motor.name: index for index, (_, motor) in enumerate(task.belts)}
    for motor in task.motors:
        index = places.get(motor.name, -1)
        if index in taken:
            result, sheet = damped(task, motor, taken[index], lines[index])
            sheets.append(sheet)
        elif motor.spacer_plate > 0:
            result = plated(task, motor)
        else:
            idle = None if index >= 0 else NoDamper(cause="no belt")
            result = bolted(task, motor, choices.get(index), reasons.get(index, idle))
        results.append(result)
    return MountedMotors(results=tuple(results), dampers=tuple(sheets))


def _choice(
    task: MotorTask, motor: Motor, index: int, cards: dict[str, Material], drawn: Drawn
) -> DamperChoice:
    # the rubber is as warm as the middle between a motor that cools by itself and the room
    room = task.room.temperature_high
    alone = heat(motor, (Layer(1.0, 1e-3, 1e-3),), room, task.print.motor_material)
    warm = (alone.case_after + room) / 2.0
    return choose(task, index, cards, tallest_stack(motor, task.print.layer), warm, drawn)


def _taken(task: MotorTask, index: int, choice: DamperChoice) -> Damper | None:
    """Return the damper that is taken as far as torque tells, None for none."""
    best = choice.best
    always = task.belts[index][1].damper == "always"
    return best if best is not None and (always or (best.clear and best.worth)) else None


def _fails(task: MotorTask, index: int, damper: Damper) -> NoDamper | None:
    """Return the checks for which a damper is given up, None where it is not."""
    motor = task.belts[index][1]
    if motor.damper == "always":
        return None
    checks = (*damper_checks(task, motor, damper), *build(task, motor, damper).checks)
    failed = tuple(check for check in checks if not check.passed)
    return NoDamper(cause="fails", failed=failed) if failed else None


def _lines(
    task: MotorTask, drawn: Drawn, taken: dict[int, Damper]
) -> dict[int, tuple[DamperLine, ...]]:
    return damper_lines(task, drawn, taken) if taken else {}


def _raises(task: MotorTask, index: int, lines: tuple[DamperLine, ...]) -> NoDamper | None:
    """Return the tone on the floor for which a damper is given up, None where it is not.

    A line that is cut by more than is promised, damper and all, does not count.
    """
    heard = [line for line in lines if line.both.low < task.ceiling]
    if task.belts[index][1].damper == "always" or not heard:
        return None
    worst = min(heard, key=lambda line: line.both.nominal - line.feet.nominal)
    change = worst.both.nominal - worst.feet.nominal
    if not raised(change, worst.both.low - worst.feet.low):
        return None
    tone = RaisedTone(
        source=worst.source, frequency=worst.frequency, speed=worst.speed, rise=-change
    )
    return NoDamper(cause="floor", tone=tone)
