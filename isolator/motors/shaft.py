"""A belt motor moved back by a stack: its pulley's spacer, what is left of the shaft, the belt."""

from __future__ import annotations

import math

from isolator.brief import Layout, Motor
from isolator.design import quantise, quantise_up
from isolator.design.damper import PILOT_PLAY
from isolator.design.faceplates import FACEPLATES
from isolator.motors.limits import check_against
from isolator.motors.results import ShortShaft, Stack
from isolator.physics.drive.belts import shaft_pull
from isolator.vibration.band import Check, Figures

LEAST_SHAFT = 8e-3
"""Shaft inside the pulley that its set screws need [m]; common practice, no source."""
SCREW_HALF = 1.5e-3
"""Shaft that a set screw needs beyond its axis [m]: half an M3; common practice, no source."""
REACH_MARGIN = 0.5e-3
"""Shaft over what the pulley needs [m], for what rubber, prints, shaft and pulley are off; common
practice, no source."""
RUNNING = 0.5e-3
"""What is left between a spacer that turns and the boss that stands still [m]; common practice,
no source."""
BELT_PLANE = 0.5e-3
"""How far a belt may run from its old plane [m]; convention, no source."""
TYPICAL_RADIAL = {14: (15.0, 0.020), 17: (28.0, 0.020), 23: (75.0, 0.020)}
"""Radial load limit [N] at a distance from the face [m], usual of data sheets; from memory. Those
of size 14 differ most: this is on the careful side."""


def spacer_height(motor: Motor, stack: float, layer: float) -> float:
    """Return the height [m] of the ring under a pulley: the old stand-off plus the stack.

    Whole layers of `layer` [m], so that it prints as drawn; 0 where both are 0.
    """
    exact = motor.pulley_standoff + stack
    return quantise(exact, layer) if exact > 0 else 0.0


def nose_height(motor: Motor, layer: float) -> float:
    """Return how high a spacer's nose carries its body off the motor's face [m], whole layers."""
    return quantise_up(motor.boss_height + RUNNING, layer) if motor.boss_height > 0 else 0.0


def boss_checks(motor: Motor, spacer: float) -> tuple[Check, ...]:
    """Return whether the pulley on a spacer [m] clears the boss, and the boss the plates' hole."""
    hole = FACEPLATES[motor.frame_size].pilot + PILOT_PLAY
    left, wide = spacer - motor.boss_height, motor.boss_diameter
    name = motor.name
    return (
        check_against(
            f"pulley over the boss of {name}",
            left * 1e3,
            RUNNING * 1e3,
            "mm",
            "pulley over the boss",
            at_least=True,
        ),
        check_against(
            f"boss of {name} in the plates' hole", wide * 1e3, hole * 1e3, "mm", "boss too wide"
        ),
    )


def least_shaft(motor: Motor) -> float:
    """Return the shaft [m] that has to reach into the pulley from its end at the motor, the
    margin with it."""
    return max(LEAST_SHAFT, motor.set_screw + SCREW_HALF) + REACH_MARGIN


def stack_of(motor: Motor, stack: float, layer: float, tolerance: float) -> Stack:
    """Return heights and margins of a motor moved back by `stack` [m].

    `tolerance` [m] is what rubber and print may add or take.
    """
    spacer = spacer_height(motor, stack, layer)
    left = motor.shaft_length - spacer
    lacks = stack > 0 and left < least_shaft(motor) - 1e-9
    return Stack(
        shaft_end=motor.pulley_length - left,
        set_screw_left=left - motor.set_screw,
        belt_error=spacer - (motor.pulley_standoff + stack),
        tolerance=tolerance,
        tallest=tallest_stack(motor, layer),
        reach=least_shaft(motor),
        belt_height=motor.pulley_standoff + motor.belt_offset,
        short=short_shaft(motor, stack, layer) if lacks else None,
    )


def tallest_stack(motor: Motor, layer: float) -> float:
    """Return the tallest stack [m] that leaves enough shaft, 0 where none does.

    Its spacer is a whole number of `layer` [m], so that rounding up takes no shaft from it.
    """
    spacer = math.floor((motor.shaft_length - least_shaft(motor)) / layer + 1e-6) * layer
    return round(max(0.0, spacer - motor.pulley_standoff), 9)


def belt_arm(motor: Motor, spacer: float) -> float:
    """Return the distance [m] from a motor's face to the middle of its belt."""
    return spacer + motor.belt_offset


def stack_checks(
    motor: Motor, stack: float, tolerance: float, layer: float, tension: float
) -> tuple[Check, ...]:
    """Return what a stack has to leave of the shaft, and the belt of its plane and load.

    Lengths [m] as in `stack_of`, `tension` [N] of one strand.
    """
    spacer = spacer_height(motor, stack, layer)
    found, name = stack_of(motor, stack, layer, tolerance), motor.name
    left, off = motor.shaft_length - spacer, abs(found.belt_error) + tolerance
    short = _shorter(motor, stack, layer)

    def reaching(what: str, shaft: float, least: float) -> Check:
        under, remedy = f"shaft under the {what} of {name}", "shaft too short"
        needed = (least + REACH_MARGIN) * 1e3
        return check_against(under, shaft * 1e3, needed, "mm", remedy, short, at_least=True)

    checks = [
        reaching("pulley", left, LEAST_SHAFT),
        reaching("set screw", found.set_screw_left, SCREW_HALF),
        check_against(f"belt plane of {name}", off * 1e3, BELT_PLANE * 1e3, "mm", "belt plane"),
    ]
    checks += boss_checks(motor, spacer)
    if motor.radial_limit is not None:
        pull = float(shaft_pull(tension, motor.wrap)) / (motor.radial_limit * motor.radial_arm)
        share, today = (pull * belt_arm(motor, each) for each in (spacer, motor.pulley_standoff))
        told = f"radial load of {name}"
        figures = (("today", today),)
        checks.append(check_against(told, share, 1.0, "× its limit", "radial load", figures))
    return tuple(checks)


def _shorter(motor: Motor, stack: float, layer: float) -> Figures:
    """Return what would do about a shaft that is too short for a stack; 0 where that does not."""
    tallest = tallest_stack(motor, layer)
    return (
        ("shaft_mm", _tenths(needed_shaft(motor, stack, layer))),
        ("thinner_mm", _tenths(stack - tallest) if tallest > 0 else 0.0),
        ("turned", float(turned_fits(motor, stack, layer))),
    )


def _tenths(length: float) -> float:
    # up, so that what is advised is enough
    return math.ceil(length * 1e4 - 1e-4) / 10.0


def needed_shaft(motor: Motor, stack: float, layer: float) -> float:
    """Return the shaft [m] that the stack would need with the pulley as it sits now."""
    return spacer_height(motor, stack, layer) + least_shaft(motor)


def turned_spacer(motor: Motor, stack: float, layer: float) -> float:
    """Return the spacer's height [m] that keeps the belt's plane with the pulley turned round.

    The nearest whole layers; negative where the pulley would have to sit below the motor's face.
    """
    exact = motor.pulley_standoff + stack + 2.0 * motor.belt_offset - motor.pulley_length
    return round(math.floor(exact / layer + 0.5 + 1e-9) * layer, 9)


def _turned_shaft(motor: Motor, stack: float, layer: float) -> float:
    """Return the shaft [m] that the pulley needs turned round, its set screws at the other end."""
    inside = max(LEAST_SHAFT, motor.pulley_length - motor.set_screw + SCREW_HALF)
    return turned_spacer(motor, stack, layer) + inside + REACH_MARGIN


def turned_fits(motor: Motor, stack: float, layer: float) -> bool:
    """Return whether the pulley turned round finds shaft enough in the belt's plane."""
    fits = motor.shaft_length >= _turned_shaft(motor, stack, layer) - 1e-9
    return fits and turned_spacer(motor, stack, layer) >= 0


def short_shaft(motor: Motor, stack: float, layer: float) -> ShortShaft:
    """Return what else would do where a stack leaves too little shaft."""
    return ShortShaft(
        stack=stack,
        tallest=tallest_stack(motor, layer),
        needed=needed_shaft(motor, stack, layer),
        turned_spacer=turned_spacer(motor, stack, layer),
        turned_needed=_turned_shaft(motor, stack, layer),
        turned_fits=turned_fits(motor, stack, layer),
        # the set screws are in the hub
        hub_away=motor.set_screw < motor.pulley_length / 2.0,
        body=motor.body_length,
        belt_above=motor.pulley_standoff + motor.belt_offset - motor.bracket,
    )


def two_heights(layout: Layout, motors: tuple[Motor, ...]) -> bool:
    """Return whether two crossed belts run at heights of their own."""
    heights = {round(motor.pulley_standoff + motor.belt_offset, 6) for motor in motors[:2]}
    return layout == "crossed-belt" and len(heights) == 2
