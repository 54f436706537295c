"""What is told of a motor's damper, in words."""

from __future__ import annotations

import math

import numpy as np

from isolator.brief import Motor
from isolator.design.phrases import in_a_sentence, millimetres, speed_text
from isolator.motors.choose import WORTH, Damper, DamperChoice
from isolator.motors.results import DamperLine


def damper_title(damper: Damper) -> str:
    """Return what a damper is, in words."""
    offered = damper.offered
    first, second = (millimetres(float(each[0]), 1) for each in (offered.first, offered.second))
    if offered.shape == "ring":
        outline = f"a ring {first} outside, {second} inside"
    else:
        circle = millimetres(2.0 * float(offered.circle[0]), 1)
        outline = f"four pads {first} across, {second} deep, their middles on a {circle} circle"
    tall = millimetres(float(offered.rubber[0]), 2)
    return f"{outline}, {tall} high, of {in_a_sentence(offered.material.name)}"


def decibels(value: float) -> str:
    """Return whole decibels with a true minus.

    >>> decibels(-2.4), decibels(-0.3)
    ('−2', '0')
    """
    text = f"{value:.0f}"
    return "0" if text == "-0" else text.replace("-", "−")


def chosen_words(
    motor: Motor,
    damper: Damper,
    lines: tuple[DamperLine, ...],
    twist: tuple[float, float],
    ceiling: float,
    from_speed: float | None,
) -> tuple[str, ...]:
    """Return what a damper is and does; `twist` is its twist mode's band [Hz]."""
    worst = min(lines, key=lambda line: line.torque.low)
    middle = float(np.median([line.torque.nominal for line in lines]))
    gains = sorted(line.both.nominal - line.feet.nominal for line in lines)
    middling = f"over {ceiling:.0f}" if middle > ceiling else decibels(middle)
    held = damper.loaded
    told = [
        f"Put a damper under motor {motor.name}: {damper_title(damper)}, glued between two "
        f"printed plates. It stands the motor back by {millimetres(float(held.stack[0]), 2)}.",
        f"Of the torque ripple that the motor passes into its bracket it takes {middling} dB at "
        f"the middle one of its drone tones; least at {worst.frequency:.0f} Hz, "
        f"{speed_text(worst.speed)}: {decibels(worst.torque.nominal)} dB "
        f"({decibels(worst.torque.low)} to {decibels(worst.torque.high)}).",
        f"On the floor it is worth {decibels(gains[0])} to {decibels(gains[-1])} dB beyond the "
        "feet (a minus is worse), as the belts carry the rest past it. What it is for is the "
        "frame's own hum.",
        f"Its twist mode lies at {twist[0]:.0f} to {twist[1]:.0f} Hz"
        + (
            f": along the axes and diagonals it helps from {speed_text(from_speed)} up, and slower "
            "moves are worse with it. On oblique moves a belt may run at any lower speed, and "
            "where its tones pass through the twist mode they are louder."
            if from_speed is not None and from_speed > 0
            else "."
        ),
        _tilt_words(motor, damper),
    ]
    return tuple(told)


def _tilt_words(motor: Motor, damper: Damper) -> str:
    held = damper.loaded
    tilt = math.degrees(float(held.tilt[0]))
    base = (
        f"The belts tilt its shaft by {tilt:.2f}° and move the pulley by "
        f"{millimetres(float(held.pulley_shift[0]), 2)}; tension the belt again with the damper in."
    )
    angle = float(held.wedge_angle[0])
    if angle == 0:
        return base
    return (
        f"{base} The wedge of {math.degrees(angle):.2f}° leans the motor back by as much: its thin "
        "edge goes to the side that the belts pull to. "
        f"{math.degrees(float(held.tilt_left[0])):.2f}° may be left over the rubber's scatter and "
        "a year."
    )


def none_words(
    motor: Motor, choice: DamperChoice | None, from_speed: float | None, reason: str
) -> tuple[str, ...]:
    """Return why a motor gets no damper; `reason` where a check or the floor spoke against it."""
    lead = f"No damper under motor {motor.name}"
    if reason:
        return (f"{lead}: {reason}",)
    if choice is None:
        return (f"{lead}: the brief wants none.",)
    if choice.best is None:
        why = max(choice.stopped, key=lambda rule: choice.stopped[rule]) if choice.stopped else ""
        told = f"none of {choice.tried} holds it" if choice.tried else "the stock offers none"
        return (f"{lead}: {told}" + (f"; most are stopped by {why}." if why else "."),)
    return (f"{lead}: bolted to its bracket it is quieter. {_worse_words(choice, from_speed)}",)


def _worse_words(choice: DamperChoice, from_speed: float | None) -> str:
    """Return what the softest damper that holds would do at the brief's speeds."""
    damper = choice.softest
    assert damper is not None  # it is there whenever the best is
    if damper.clear or (choice.best is not None and choice.best.clear):
        return f"The best would take less than {WORTH:.0f} dB at the middle one of its tones."
    index = int(np.argmin(damper.low))
    tones = damper.tones
    told = (
        f"Even the softest that holds it against the belts ({damper_title(damper)}) would make "
        f"the {tones.source[index]} tone at {tones.frequency[index]:.0f} Hz, "
        f"{speed_text(float(tones.speed[index]))}, {decibels(-float(damper.low[index]))} dB worse: "
        "its twist mode lies there."
    )
    if from_speed is not None and from_speed > 0:
        told += f" It would help from {speed_text(from_speed)} up, if you print no slower."
    return told


def plate_words(motor: Motor, spacer: float) -> tuple[str, ...]:
    """Return what a plain plate does."""
    return (
        f"A plain plate of {millimetres(motor.spacer_plate, 1)} stands motor {motor.name} back, as "
        f"the brief wants; its pulley goes up on a spacer of {millimetres(spacer, 1)}. A plate "
        "takes nothing from the motor's ripple.",
    )
