"""The report's fixed sentences about motors, and what it picks out of their numbers."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.design.phrases import speed_text as speed_text
from isolator.motors.results import DamperLine, DamperWorst, MotorResult, Screws, Stack
from isolator.report.sentences.numbers import decibel, readable


@dataclass(frozen=True, slots=True, kw_only=True)
class Heights:
    """Heights over the motor's face that the report's drawing and table need [m]."""

    shaft: float  # length of the shaft
    pulley: float  # length of the pulley
    standoff_before: float  # motor's face to pulley, as built now
    belt_offset: float  # pulley's end at the motor to the belt's middle


def heights(motor: MotorResult) -> Heights:
    """Return what follows from a result.

    The spacer is as tall as the old stand-off, the stack and the belt's error together. The shaft
    left is the shaft less the spacer. The pulley covers it, and ends beyond it by `shaft_end`.
    """
    stack = motor.stack
    standoff = motor.pulley_spacer_height - motor.stack_height - stack.belt_error
    return Heights(
        shaft=motor.shaft_left + motor.pulley_spacer_height,
        pulley=motor.shaft_left + stack.shaft_end,
        standoff_before=standoff,
        belt_offset=stack.belt_height - standoff,
    )


def floor_gain(line: DamperLine) -> float:
    """Return what the damper takes of the force on the floor beyond the feet [dB], nominal."""
    return line.both.nominal - line.feet.nominal


def least_gain(line: DamperLine) -> float:
    """Return what the damper takes of torque or of floor force, whichever is less [dB]."""
    return min(line.torque.nominal, floor_gain(line))


def worst_words(worst: DamperWorst) -> str:
    """Return what a damper does where it does worst: "−9 dB; −2 dB at 12°, 48 Hz"."""
    torque, floor = decibel(worst.torque.nominal), decibel(worst.beyond.nominal)
    at = f"{worst.direction_deg:.0f}°, {worst.frequency:.0f} Hz"
    return f"{torque} dB; {floor} dB at {at}"


def screw_words(screws: Screws) -> str:
    """Return what to buy: "2 × M3 × 8 mm, button head, ISO 7380-1"."""
    return f"{screws.count} × {screws.thread} × {readable(screws.length, 'm')}, {screws.head}"


def hold_words(screws: Screws) -> str:
    """Return what a screw holds by: "holds by 3.5 mm, 7 turns"."""
    return f"holds by {readable(screws.engagement, 'm', 2)}, {readable(screws.turns, '1', 2)} turns"


def end_words(stack: Stack) -> str:
    """Return where the pulley's end lies against the shaft's."""
    if abs(stack.shaft_end) < 5e-5:
        return "flush with the shaft's end"
    beyond = readable(abs(stack.shaft_end), "m", 2)
    return (
        f"{beyond} beyond the shaft's end"
        if stack.shaft_end > 0
        else (f"{beyond} short of the shaft's end")
    )


def change(before: float, after: float, unit: str) -> str:
    """Return a value as built now and with the stack.

    >>> change(62.0, 55.4, "Hz")
    '62 Hz now, 55.4 Hz then'
    """
    return f"{readable(before, unit)} now, {readable(after, unit)} then"
