"""Motors on the command line: words, one compact table, checks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import NamedTuple

from rich.console import Group, RenderableType
from rich.text import Text

from isolator.motors.results import DamperState, MotorResult
from isolator.motors.shaft import REACH_MARGIN
from isolator.report.sentences import motors
from isolator.report.sentences.dampers import from_words, motor_sentences
from isolator.report.sentences.numbers import band, readable
from isolator.report.terminal.tables import checks_table, table
from isolator.vibration.band import Check

Row = tuple[str, str]


def motor_blocks(found: Sequence[MotorResult]) -> list[Group]:
    """Return what is told of every motor; of one like another only what differs from that."""
    blocks: list[Group] = []
    told: list[_Told] = []
    for motor in found:
        own = _told(motor)
        like = next((each for each in told if each.motor.kind == motor.kind != "none"), None)
        blocks.append(_block(own) if like is None else _block(own.but(like), like.motor.name))
        told.append(own)
    return blocks


class _Told(NamedTuple):
    """What is told of one motor: sentences, rows of a table, rows of its checks."""

    motor: MotorResult
    sentences: tuple[str, ...]
    rows: tuple[Row, ...]
    checks: tuple[Check, ...]

    def but(self, other: _Told) -> _Told:
        """Return what is told of this motor and not of the other."""
        name, known = other.motor.name, self.motor.name
        said = {each.replace(name, known) for each in other.sentences}
        found = {(check.name, check.value, check.limit) for check in other.checks}
        return self._replace(
            sentences=tuple(each for each in self.sentences if each not in said),
            rows=tuple(each for each in self.rows if each not in other.rows),
            checks=tuple(
                check
                for check in self.checks
                if (check.name, check.value, check.limit) not in found or not check.passed
            ),
        )


def _told(motor: MotorResult) -> _Told:
    own = tuple(replace(check, name=_own(check.name, motor.name)) for check in motor.checks)
    return _Told(motor, tuple(motor_sentences(motor)), tuple(_rows(motor)), own)


def _own(name: str, motor: str) -> str:
    """Return a check's name without the motor's, under which it stands."""
    for end in (f" of {motor}", f" at motor {motor}", f" of motor {motor}", f" in motor {motor}"):
        name = name.removesuffix(end)
    return name.replace(f" of {motor} ", " ")


def _block(told: _Told, like: str = "") -> Group:
    """Return one motor's words, table and checks; one bolted on as before gets its words alone."""
    motor = told.motor
    as_other = f": as motor {like}, but for this" if like else ""
    shown: list[RenderableType] = [Text(f"\nMotor {motor.name}{as_other}", style="bold")]
    shown += [Text(sentence) for sentence in told.sentences]
    if told.rows:
        shown.append(table("", ("", ""), "ll", told.rows))
    if told.checks:
        shown.append(checks_table(f"Checks of motor {motor.name}", told.checks))
    return Group(*shown)


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
    case = f"case {motors.change(heat.case_before, heat.case_after, '°C')} in the warmest room"
    limit = "" if heat.limit is None else f", limit {readable(heat.limit, '°C')}"
    rows = [
        ("stack", stack),
        ("shaft", f"{shaft}{motors.end_words(motor.stack)}"),
        ("belt", belt),
        *([] if damper is None else _damper(motor, damper)),
        ("heat", f"{case}; over all rooms {band(heat.case, '°C')}{limit}"),
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
