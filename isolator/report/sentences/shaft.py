"""What is told of a motor's shaft once a stack takes of it, and what to do where it is short."""

from __future__ import annotations

import math

from isolator.design.phrases import millimetres
from isolator.motors.results import Belt, MotorResult, ShortShaft


def shaft_words(motor: MotorResult) -> tuple[str, ...]:
    """Return what to know of a motor's stack, nothing where it has none."""
    if motor.stack_height <= 0:
        return ()
    stack = motor.stack
    told: list[str] = []
    if stack.short is not None:
        told += short_words(motor.name, stack.short)
    else:
        if stack.shaft_end > 1e-9:
            told.append(
                f"The pulley's end stands {millimetres(stack.shaft_end, 1)} beyond the shaft's; "
                f"its set screws still hold on {millimetres(stack.set_screw_left, 1)} of shaft "
                "past their axis."
            )
        told.append(
            "Belt and idlers keep their planes: the pulley goes up by what the motor goes back. "
            f"Without its spacer they would have to move {millimetres(motor.stack_height, 1)} to "
            "the motor."
        )
    if motor.belt.limit is None:
        told.append(_load(motor.belt))
    return tuple(told)


def _load(belt: Belt) -> str:
    told = (
        f"The belts pull with {belt.pull:.0f} N at {millimetres(belt.arm, 1)} from the motor's "
        f"face (before: {millimetres(belt.arm_before, 1)})"
    )
    ask = "ask the motor's data sheet, and tell its radial_limit"
    if belt.usual_limit is None:
        return f"{told}: {ask}."
    force, arm = belt.usual_limit
    return (
        f"{told}: {load_words(belt)}. {force:.0f} N at {millimetres(arm, 0)} is usual of this size "
        f"(from memory); {ask}."
    )


def load_words(belt: Belt) -> str:
    """Return what share of the usual load a shaft bears today and with a stack; "" if unknown."""
    if belt.usual_shares is None:
        return ""
    before, after = belt.usual_shares
    return f"today {before:.2f} times the usual limit, then {after:.2f} times"


def short_words(name: str, short: ShortShaft) -> tuple[str, ...]:
    """Return what else would do where a stack leaves motor `name` too little shaft."""
    stack = millimetres(short.stack, 1)
    fits = (
        f"{millimetres(short.tallest, 1)} is the tallest that fits."
        if short.tallest > 0
        else "no stack of any height fits."
    )
    return (
        f"The shaft of {name} is too short for a stack of {stack}: {fits}",
        _turned(short),
        _across(short),
        f"A motor with {_enough(short.needed)} of shaft would do; or else the belt's plane and its "
        f"idlers come {stack} closer to the motor, and no spacer is needed.",
    )


def _enough(length: float) -> str:
    # up, so that what is advised is enough
    return millimetres(math.ceil(length * 1e4 - 1e-4) / 10.0 * 1e-3, 1)


def _turned(short: ShortShaft) -> str:
    turned = short.turned_spacer
    if turned < 0:
        return (
            f"Turned round, the pulley would have to sit {millimetres(-turned, 1)} below the "
            "motor's face to keep the belt's plane: that is none."
        )
    if short.turned_fits:
        hub = "away from" if short.hub_away else "towards"
        return (
            f"Turned round, with its hub {hub} the motor, the pulley keeps the belt's plane on a "
            f"spacer of {millimetres(turned, 1)}, and its set screws find shaft."
        )
    return (
        f"Turning the pulley round does not help: on the {millimetres(turned, 1)} that keep the "
        f"belt's plane it would need {_enough(short.turned_needed)} of shaft."
    )


def _across(short: ShortShaft) -> str:
    body, above = millimetres(short.body, 1), millimetres(short.belt_above, 1)
    if short.belt_above > short.body:
        return (
            f"On the other side of its bracket the motor's {body} of body end below the belt, "
            f"{above} above the bracket, but its face would need a bracket there."
        )
    return (
        "The other side of the bracket is none: bolted there the shaft points away from the belt, "
        f"and {body} of body do not go below a belt {above} above the bracket."
    )
