"""A belt motor moved back by a stack: its pulley's spacer, what is left of the shaft, the belt."""

from __future__ import annotations

from isolator.brief import Brief, Motor
from isolator.design import quantise
from isolator.figures import Check
from isolator.motor_result import Stack
from isolator.physics.belts import shaft_pull
from isolator.words import millimetres

LEAST_SHAFT = 8e-3
"""Shaft inside the pulley that its set screws need [m]; common practice, no source."""
SCREW_HALF = 1.5e-3
"""Shaft that a set screw needs beyond its axis [m]: half an M3; common practice, no source."""
BELT_PLANE = 0.5e-3
"""How far a belt may run from its old plane [m]; convention, no source."""
TYPICAL_RADIAL = {17: (28.0, 0.020), 23: (75.0, 0.020)}
"""Radial load limit [N] at a distance from the face [m], usual of data sheets; from memory."""


def spacer_height(motor: Motor, stack: float, layer: float) -> float:
    """Return the height [m] of the ring under a pulley: the old stand-off plus the stack.

    Whole layers of `layer` [m], so that it prints as drawn; 0 where both are 0.
    """
    exact = motor.pulley_standoff + stack
    return quantise(exact, layer) if exact > 0 else 0.0


def least_shaft(motor: Motor) -> float:
    """Return the shaft [m] that has to reach into the pulley, from its end at the motor."""
    return max(LEAST_SHAFT, motor.set_screw + SCREW_HALF)


def stack_of(motor: Motor, stack: float, layer: float, tolerance: float) -> Stack:
    """Return heights and margins of a motor moved back by `stack` [m].

    `tolerance` [m] is what rubber and print may add or take.
    """
    spacer = spacer_height(motor, stack, layer)
    left = motor.shaft_length - spacer
    tallest = max(0.0, motor.shaft_length - motor.pulley_standoff - least_shaft(motor))
    return Stack(
        shaft_end=motor.pulley_length - left, set_screw_left=left - motor.set_screw,
        belt_error=spacer - (motor.pulley_standoff + stack), tolerance=tolerance, tallest=tallest,
        belt_height=motor.pulley_standoff + motor.belt_offset, words=(),
    )  # fmt: skip


def belt_arm(motor: Motor, spacer: float) -> float:
    """Return the distance [m] from a motor's face to the middle of its belt."""
    return spacer + motor.belt_offset


def stack_checks(brief: Brief, motor: Motor, stack: float, tolerance: float) -> tuple[Check, ...]:
    """Return what a stack has to leave of the shaft, and the belt of its plane and load."""
    spacer = spacer_height(motor, stack, brief.print.layer)
    found = stack_of(motor, stack, brief.print.layer, tolerance)
    left = motor.shaft_length - spacer
    short = LEAST_SHAFT - left
    checks = [
        _check(
            f"shaft under the pulley of {motor.name}", left * 1e3, LEAST_SHAFT * 1e3, "mm", True,
            f"take a stack at least {short * 1e3:.1f} mm thinner, or turn the pulley round so "
            "that its hub faces the motor",
        ),
        _check(
            f"shaft under the set screw of {motor.name}", found.set_screw_left * 1e3,
            SCREW_HALF * 1e3, "mm", True, "take a thinner stack, or turn the pulley round",
        ),
        _check(
            f"belt plane of {motor.name}", (abs(found.belt_error) + tolerance) * 1e3,
            BELT_PLANE * 1e3, "mm", False, "print in thinner layers, or measure the stack and "
            "print its spacer again",
        ),
    ]  # fmt: skip
    if motor.radial_limit is not None:
        share = _pull(brief, motor) * belt_arm(motor, spacer)
        checks.append(
            _check(
                f"radial load of {motor.name}", share / (motor.radial_limit * motor.radial_arm),
                1.0, "× its limit", False, "slacken the belt, or take a thinner stack",
            )
        )  # fmt: skip
    return tuple(checks)


def _check(name: str, value: float, limit: float, unit: str, at_least: bool, advice: str) -> Check:
    # a hair is binary dust, not a fault
    passed = value >= limit - 1e-9 if at_least else value <= limit + 1e-9
    return Check(
        name=name, value=value, limit=limit, unit=unit, passed=passed,
        advice="" if passed else advice,
    )  # fmt: skip


def _pull(brief: Brief, motor: Motor) -> float:
    return float(shaft_pull(brief.motion.belt_tension, motor.wrap))


def stack_words(brief: Brief, motor: Motor, stack: float) -> tuple[str, ...]:
    """Return what to know of a stack: pulley off the end, idlers, load, what else would do."""
    spacer = spacer_height(motor, stack, brief.print.layer)
    left = motor.shaft_length - spacer
    told = []
    beyond = motor.pulley_length - left
    if stack > 0 and beyond > 1e-9 and left >= least_shaft(motor) - 1e-9:
        told.append(
            f"The pulley's end stands {millimetres(beyond, 1)} beyond the shaft's; its set screws "
            f"still hold on {millimetres(left - motor.set_screw, 1)} of shaft past their axis."
        )
    if stack > 0 and left < least_shaft(motor) - 1e-9:
        told += alternatives(motor, stack, brief.print.layer)
    elif stack > 0:
        told.append(
            "Belt and idlers keep their planes: the pulley goes up by what the motor goes back."
        )
    if stack > 0 and motor.radial_limit is None:
        told.append(_load_words(brief, motor, spacer))
    return tuple(told)


def _load_words(brief: Brief, motor: Motor, spacer: float) -> str:
    pull, arm = _pull(brief, motor), belt_arm(motor, spacer)
    told = (
        f"The belts pull with {pull:.0f} N at {millimetres(arm, 1)} from the motor's face (before: "
        f"{millimetres(belt_arm(motor, motor.pulley_standoff), 1)}): ask the motor's data sheet, "
        "and tell its radial_limit"
    )
    usual = TYPICAL_RADIAL.get(motor.frame_size)
    if usual is None:
        return f"{told}."
    return (
        f"{told}; {usual[0]:.0f} N at {millimetres(usual[1], 0)} is usual of this size (from "
        "memory)."
    )


def alternatives(motor: Motor, stack: float, layer: float) -> list[str]:
    """Return in words what else would do where a stack leaves too little shaft."""
    tallest = max(0.0, motor.shaft_length - motor.pulley_standoff - least_shaft(motor))
    told = [
        f"The shaft of {motor.name} is too short for a stack of {millimetres(stack, 1)}: "
        + (
            f"{millimetres(tallest, 1)} is the tallest that fits."
            if tallest > 0
            else "no stack of any height fits."
        )
    ]
    turned = turned_spacer(motor, stack)
    reach = motor.pulley_length - motor.set_screw
    if turned < 0:
        told.append(
            "Turned round, the pulley would have to sit lower than the motor's face: that is none."
        )
    elif motor.shaft_length - turned >= max(LEAST_SHAFT, reach + SCREW_HALF) - 1e-9:
        told.append(
            f"Turned round, with its hub away from the motor, the pulley keeps the belt's plane on "
            f"a spacer of {millimetres(turned, 1)}, and its set screws find shaft."
        )
    else:
        told.append(
            f"Turning the pulley round does not help: its set screws would need "
            f"{millimetres(turned + reach + SCREW_HALF, 1)} of shaft."
        )
    told.append(
        "On the other side of its bracket the motor's body would stand where the belt runs: that "
        "is none either, unless the belt passes beside it. A motor with a longer shaft is; else "
        f"the belt's plane and its idlers have to come down by {millimetres(stack, 1)} with it."
    )
    return told


def turned_spacer(motor: Motor, stack: float) -> float:
    """Return the spacer's height [m] that keeps the belt's plane with the pulley turned round."""
    return motor.pulley_standoff + stack + 2.0 * motor.belt_offset - motor.pulley_length


def height_words(brief: Brief) -> str:
    """Return a sentence where crossed belts run at two heights, empty where they do not."""
    heights = {round(motor.pulley_standoff + motor.belt_offset, 6) for motor in brief.motors[:2]}
    if brief.motion.layout != "crossed-belt" or len(heights) < 2:
        return ""
    return "The two belts run at heights of their own and keep them: each motor has its own spacer."
