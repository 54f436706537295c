"""What is told of a motor: its damper, its plate, or why it has neither."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.design.phrases import in_a_sentence, millimetres, speed_text
from isolator.design.plate_kinds import PRINTED
from isolator.motors.both_ways import FASTEST, SLOWEST
from isolator.motors.mount import WORTH
from isolator.motors.results import (
    Belt,
    DamperState,
    MotorHeard,
    MotorResult,
    NoDamper,
    Offer,
    Rubber,
)
from isolator.report.sentences.checks import advice
from isolator.report.sentences.drive import drive_words
from isolator.report.sentences.heard_words import UNIT, change
from isolator.report.sentences.listed import listed
from isolator.report.sentences.numbers import readable
from isolator.report.sentences.shaft import load_words, shaft_words, short_words


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
    told += [
        f"“{name}”, which you can buy, is not taken: {why} stops it."
        if why
        else f"“{name}”, which you can buy, holds too; the one taken is heard less, or as much and "
        "is easier to mount."
        for name, why in motor.declined
    ]
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
    if rubber.bought:
        return f"the bought damper “{rubber.material}”: {outline}, {tall} high"
    return f"{outline}, {tall} high, of {in_a_sentence(rubber.material)}"


def _plates(damper: DamperState) -> str:
    """Return what the plates are, such as "printed plates" or "plates of 1.5 mm steel sheet"."""
    made, thick = damper.plates
    if damper.rubber.bought:
        return f"plates of {millimetres(thick, 2)} {made}"
    if made == PRINTED:
        return "printed plates"
    return f"plates of {millimetres(thick, 2)} {made} sheet"


def _damped(motor: MotorResult, damper: DamperState) -> list[str]:
    """Return what a damper is, what is heard of it and what it costs."""
    held = "between its own two" if damper.rubber.bought else "glued between two"
    return [
        f"Put a damper under motor {motor.name}: {damper_title(damper.rubber)}, {held} "
        f"{_plates(damper)}. It stands the motor back by {millimetres(motor.stack_height, 2)}.",
        *heard_words(damper.heard, damper.helps_from),
        PASSED_BY,
        f"Its price: {_ring(motor.belt)} {TUNE}",
        _twist(motor, damper),
        _tilt(motor, damper),
    ]


PASSED_BY = (
    "The rattle of carriage bearings and what hisses through the air stay as they are: neither "
    "goes through the motor's bracket."
)
TUNE = "Measure and tune resonances again with it in, and print corners slower if they ring."


def heard_words(heard: Sequence[MotorHeard], helps_from: float | None) -> list[str]:
    """Return how much louder a motor is heard on a damper, on each way and from which speed."""
    frame = _each([(each.speed, change(each.heard.frame)) for each in heard])
    feet = _each([(each.speed, change(each.heard.desk)) for each in heard])
    return [
        f"Heard through its bracket: {frame}; {from_words(helps_from)}.",
        f"Heard through the feet, as belts carry part of it past the damper: {feet}. What is heard "
        "of this motor lies between the two.",
    ]


def from_words(helps_from: float | None) -> str:
    """Return from which print speed on a damper is louder nowhere."""
    if helps_from is None:
        return f"up to {speed_text(FASTEST)} it is louder at some speed"
    if helps_from <= SLOWEST:
        return "louder at no speed"
    return f"louder at no speed from {speed_text(helps_from)} up"


def _each(told: Sequence[tuple[float, str]]) -> str:
    """Return words for each speed, once where they are all alike."""
    alike = {words for _, words in told}
    if len(alike) == 1 and len(told) > 1:
        return f"{alike.pop()} at every speed asked for"
    return ", ".join(f"{speed_text(speed)} {words}" for speed, words in told)


def _ring(belt: Belt) -> str:
    before, after = belt.resonance_before, belt.resonance_after
    return (
        f"belt and carriage ring at {readable(after, 'Hz')} instead of {readable(before, 'Hz')}, "
        "with the tool close to the motor."
    )


def _twist(motor: MotorResult, damper: DamperState) -> str:
    twist = motor.twist_frequency
    assert twist is not None  # a damper has all six modes
    told = f"Its twist mode lies at {twist.low:.0f} to {twist.high:.0f} Hz"
    most = max(-line.worst.torque.nominal for line in damper.lines)
    if most < 0.5:
        return f"{told}."
    return (
        f"{told}. In the directions in which a tone passes through it, the bracket gets up to "
        f"{most:.0f} dB more of that tone."
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
        f"Up to {math.degrees(damper.tilt_left):.2f}° may be left, as rubber scatters and creeps "
        "for a year."
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
    if why.offer is not None:
        told += _offered(why.offer)
    return told if why.short is None else [*told, *short_words(name, why.short)]


def _offered(offer: Offer) -> list[str]:
    """Return what a damper that is not taken would gain and cost."""
    before, after = offer.heat.case_before, offer.heat.case_after
    load = load_words(offer.belt)
    shaft = f" The shaft bears {load}." if load else ""
    return [
        f"What it would gain ({damper_title(offer.rubber)}):",
        *heard_words(offer.heard, offer.helps_from),
        f"What it would cost: {_ring(offer.belt)} The stack is "
        f"{millimetres(offer.stack_height, 1)} high; the motor's case gets {readable(after, '°C')} "
        f'warm instead of {readable(before, "°C")}.{shaft} damper = "always" draws it.',
    ]


def _why(why: NoDamper) -> str:
    """Return why a motor gets no damper."""
    broken = (
        f"the best would not hold the check on the {check.name}: {advice(check)}"
        for check in why.failed[:2]
    )
    return {
        "no belt": "it drives no belt that is looked at.",
        "not wanted": "the brief wants none.",
        "no stock": "the stock offers none.",
        "none holds": f"“{why.mount}” does not hold it: {why.rule} stops it."
        if why.mount
        else f"none of {why.tried} holds it; most are stopped by {why.rule}.",
        "fails": f"{'; '.join(broken)}.",
        "floor": "the best would make a speed that you print at louder through the feet.",
        "spoils": "with it the printer may be louder than before at "
        f"{listed([speed_text(each) for each in why.spoiled])}, where the feet alone are not.",
        "louder": "every one may make a speed that you print at louder through its bracket.",
        "little": f"the best would take less than {WORTH:.0f} {UNIT} in the mean over your speeds.",
    }[why.cause]
