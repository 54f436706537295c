"""Motors on the command line: words, one compact table, checks."""

from __future__ import annotations

from rich.console import Group, RenderableType
from rich.text import Text

from isolator.motors.results import DamperState, MotorResult
from isolator.motors.shaft import REACH_MARGIN
from isolator.report.sentences import motors
from isolator.report.sentences.dampers import from_words, motor_sentences
from isolator.report.sentences.numbers import band, readable
from isolator.report.terminal.tables import checks_table, table

Row = tuple[str, str]


def motor_block(motor: MotorResult) -> Group:
    """Return what is told of one motor; one that is bolted on as before gets its words alone."""
    told: list[RenderableType] = [Text(f"\nMotor {motor.name}", style="bold")]
    told += [Text(sentence) for sentence in motor_sentences(motor)]
    rows = _rows(motor)
    if rows:
        told.append(table("", ("", ""), "ll", rows))
    if motor.checks:
        told.append(checks_table(f"Checks of motor {motor.name}", motor.checks))
    return Group(*told)


def _rows(motor: MotorResult) -> list[Row]:
    if motor.kind == "none":
        return []
    damper, heat = motor.damper, motor.heat
    by = "set by a gauge" if motor.gauge else "on a spacer"
    stack = (
        f"{readable(motor.stack_height, 'm')} (the shaft allows "
        f"{readable(motor.stack.tallest, 'm')}); pulley {by} of "
        f"{readable(motor.pulley_spacer_height, 'm')}"
    )
    shaft = (
        f"{readable(motor.shaft_left, 'm')} left for the pulley, of which it needs "
        f"{readable(motor.stack.reach, 'm')} ({readable(REACH_MARGIN, 'm')} of it margin); it ends "
    )
    belt = f"pulls the shaft with {readable(motor.belt.pull, 'N')}"
    if damper is not None:
        rings = motors.change(motor.belt.resonance_before, motor.belt.resonance_after, "Hz")
        belt = f"{belt}; belt and carriage ring at {rings}"
    case = motors.change(heat.case_before, heat.case_after, "°C")
    limit = "" if heat.limit is None else f", limit {readable(heat.limit, '°C')}"
    rows = [
        ("stack", stack),
        ("shaft", f"{shaft}{motors.end_words(motor.stack)}"),
        ("belt", belt),
        *([] if damper is None else _damper(motor, damper)),
        ("heat", f"case {case}, with its band {band(heat.case, '°C')}{limit}"),
    ]
    for index, screws in enumerate(motor.screws):
        beside = f"; with {screws.beside}" if screws.beside else ""
        what, hold = motors.screw_words(screws), motors.hold_words(screws)
        rows.append(("" if index else "screws", f"{what}: {screws.where}, {hold}{beside}"))
    return rows


def _damper(motor: MotorResult, damper: DamperState) -> list[Row]:
    left = f"{readable(damper.tilt_left, 'rad', 2)} may be left"
    if damper.wedge_angle:
        left = f"{left} with a wedge of {readable(damper.wedge_angle, 'rad', 2)}"
    twist = motor.twist_frequency
    helps = f"; {from_words(damper.helps_from)}"
    shift = f"the pulley moves {readable(motor.pulley_shift, 'm', 2)}"
    tilt = ("tilt", f"{readable(motor.tilt, 'rad', 2)} under the belts' pull, {left}; {shift}")
    return [tilt] if twist is None else [tilt, ("twist", f"{band(twist, 'Hz')}{helps}")]
