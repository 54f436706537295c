"""Motors moved back by a plain plate: how high the pulley's spacer must be, what shaft is left."""

from __future__ import annotations

from isolator.brief import Brief, Motor
from isolator.figures import Check
from isolator.motor_result import MotorResult
from isolator.sheet import spacer_of

LEAST_SHAFT = 8e-3
"""Shaft inside the pulley that its set screws need [m]; common practice, no source."""


def motor_results(brief: Brief) -> tuple[MotorResult, ...]:
    """Return the stack-up of every motor that gets a spacer plate."""
    return tuple(_stack(motor) for motor in brief.motors if motor.spacer_plate > 0)


def _stack(motor: Motor) -> MotorResult:
    """The plate draws the shaft back by its height, so the pulley must go up by as much."""
    spacer = spacer_of(motor)
    left = motor.shaft_length - spacer.pulley_spacer
    passed = left >= LEAST_SHAFT
    advice = (
        "" if passed
        else f"take a plate at least {(LEAST_SHAFT - left) * 1e3:.1f} mm thinner, or turn the "
        "pulley round so that its hub faces the motor"
    )  # fmt: skip
    check = Check(
        name=f"shaft under the pulley of {motor.name}", value=left * 1e3, limit=LEAST_SHAFT * 1e3,
        unit="mm", passed=passed, advice=advice,
    )  # fmt: skip
    return MotorResult(
        name=motor.name, stack_height=motor.spacer_plate,
        pulley_spacer_height=spacer.pulley_spacer, shaft_left=left, checks=(check,),
    )  # fmt: skip
