"""What is told of a motor: its damper, its plate, or why it has neither."""

from __future__ import annotations

import math

import numpy as np

from isolator.design.phrases import in_a_sentence, millimetres, speed_text
from isolator.motors.choose import WORTH
from isolator.motors.results import DamperState, MotorResult, NoDamper, RaisedTone, Rubber
from isolator.report.sentences.checks import advice
from isolator.report.sentences.drive import drive_words
from isolator.report.sentences.numbers import decibel, loss
from isolator.report.sentences.shaft import shaft_words, short_words


def motor_sentences(motor: MotorResult) -> tuple[str, ...]:
    """Return what to do about a motor and why, most important first."""
    if motor.damper is not None:
        told = [*_damped(motor, motor.damper), *shaft_words(motor), *_screws(motor, motor.damper)]
        if motor.damper.two_heights:
            told.append(
                "The two belts run at heights of their own and keep them: each motor has its own "
                "spacer."
            )
    elif motor.without is None:
        told = [_plated(motor), *shaft_words(motor)]
    else:
        told = _bare(motor.name, motor.without)
    return (*told, *(drive_words(motor.drive, motor.name) if motor.belted else ()))


def damper_title(rubber: Rubber) -> str:
    """Return what a damper is."""
    first, second = millimetres(rubber.first, 1), millimetres(rubber.second, 1)
    if rubber.shape == "ring":
        outline = f"a ring {first} outside, {second} inside"
    else:
        circle = millimetres(2.0 * rubber.circle, 1)
        outline = f"four pads {first} across, {second} deep, their middles on a {circle} circle"
    tall = millimetres(rubber.thickness, 2)
    return f"{outline}, {tall} high, of {in_a_sentence(rubber.material)}"


def _damped(motor: MotorResult, damper: DamperState) -> list[str]:
    """Return what a damper is, and does to torque and floor."""
    worst = min(damper.lines, key=lambda line: line.torque.low)
    middle = float(np.median([line.torque.nominal for line in damper.lines]))
    gains = sorted(line.both.nominal - line.feet.nominal for line in damper.lines)
    middling = decibel(middle, damper.ceiling)
    return [
        f"Put a damper under motor {motor.name}: {damper_title(damper.rubber)}, glued between two "
        f"printed plates. It stands the motor back by {millimetres(motor.stack_height, 2)}.",
        f"Of the torque ripple that the motor passes into its bracket it takes {middling} dB at "
        f"the middle one of its drone tones, in the mean over the directions of a move; least of "
        f"the {worst.source} tone at {speed_text(worst.speed)}: "
        f"{loss(worst.torque, damper.ceiling)}.",
        f"On the floor it is worth {_between(gains[0], gains[-1])} dB beyond the feet (a minus is "
        "worse), as the belts carry the rest past it. What it is for is the frame's own hum.",
        _twist(motor, damper),
        _tilt(motor, damper),
    ]


def _between(low: float, high: float) -> str:
    """Return the ends of a range of decibels, once where both are told alike.

    >>> _between(-2.4, 3.0), _between(1.9, 2.2)
    ('−2 to 3', '2')
    """
    least, most = decibel(low), decibel(high)
    return least if least == most else f"{least} to {most}"


def _twist(motor: MotorResult, damper: DamperState) -> str:
    twist, speed = motor.twist_frequency, damper.helps_from
    assert twist is not None  # a damper has all six modes
    told = f"Its twist mode lies at {twist.low:.0f} to {twist.high:.0f} Hz"
    most = max(-line.worst.torque.nominal for line in damper.lines)
    if speed is not None and speed > 0:
        told += (
            f": in the mean over directions it helps from {speed_text(speed)} up, and slower moves "
            "are worse with it"
        )
    if most < 0.5:
        return f"{told}."
    return (
        f"{told}. In the directions in which a tone passes through it, it is {most:.0f} dB louder."
    )


def _tilt(motor: MotorResult, damper: DamperState) -> str:
    base = (
        f"The belts tilt its shaft by {math.degrees(motor.tilt):.2f}° and move the pulley by "
        f"{millimetres(motor.pulley_shift, 2)}; tension the belt again with the damper in."
    )
    if damper.wedge_angle == 0:
        return base
    return (
        f"{base} The wedge of {math.degrees(damper.wedge_angle):.2f}° leans the motor back by as "
        "much: its thin edge goes to the side that the belts pull to. "
        f"{math.degrees(damper.tilt_left):.2f}° may be left over the rubber's scatter and a year."
    )


def _screws(motor: MotorResult, damper: DamperState) -> list[str]:
    """Return whether the screws' ends reach the belt, and why none goes through the rubber."""
    told = [
        f"No screw may go from plate to plate: one {motor.screws[0].thread} of steel across the "
        f"rubber is {damper.bridge:.0f} times as stiff along the shaft as all of it."
    ]
    if damper.screw_end > damper.belt_edge:
        told.insert(
            0,
            f"The frame's screws stand {damper.screw_end * 1e3:.1f} mm out of the bracket, the "
            f"belt's edge runs {damper.belt_edge * 1e3:.1f} mm above it: see that belt and pulley "
            "pass beside them, or file them.",
        )
    return told


def _plated(motor: MotorResult) -> str:
    by = "by a gauge" if motor.gauge else "on a spacer"
    return (
        f"A plain plate of {millimetres(motor.stack_height, 1)} stands motor {motor.name} back, as "
        f"the brief wants; its pulley goes up {by} of "
        f"{millimetres(motor.pulley_spacer_height, 1)}. A plate takes nothing from the motor's "
        "ripple."
    )


def _bare(name: str, why: NoDamper) -> list[str]:
    told = [f"No damper under motor {name}: {_why(why)}"]
    return told if why.short is None else [*told, *short_words(name, why.short)]


def _why(why: NoDamper) -> str:
    """Return why a motor gets no damper."""
    quieter = "bolted to its bracket it is quieter."
    if why.tone is not None and why.cause == "floor":
        return (
            f"on these feet the best would make {_tone(why.tone)}, {why.tone.rise:.0f} dB worse on "
            "the floor."
        )
    if why.tone is not None and why.softest is not None:
        told = (
            f"{quieter} Even the softest that holds it against the belts "
            f"({damper_title(why.softest)}) would make {_tone(why.tone)}, "
            f"{decibel(why.tone.rise)} dB worse in the mean over directions: it runs through its "
            "twist mode."
        )
        if why.helps_from is not None and why.helps_from > 0:
            told += f" It would help from {speed_text(why.helps_from)} up, if you print no slower."
        return told
    broken = (
        f"the best would not hold the check on the {check.name}: {advice(check)}"
        for check in why.failed[:2]
    )
    return {
        "no belt": "it drives no belt that is looked at.",
        "not wanted": "the brief wants none.",
        "no stock": "the stock offers none.",
        "none holds": f"none of {why.tried} holds it; most are stopped by {why.rule}.",
        "fails": f"{'; '.join(broken)}.",
        "little": f"{quieter} The best would take less than {WORTH:.0f} dB at the middle one of "
        "its tones.",
    }[why.cause]


def _tone(tone: RaisedTone) -> str:
    return f"the {tone.source} tone at {tone.frequency:.0f} Hz, {speed_text(tone.speed)}"
