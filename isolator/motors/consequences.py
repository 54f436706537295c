"""What follows from a stack between a motor and its bracket: shaft, screws, heat, drive, belt."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from isolator.brief import Motor
from isolator.design.damper import CLAMPED
from isolator.design.faceplates import FACEPLATES
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED
from isolator.design.plate_room import most_travel
from isolator.feet.ranking import EQUAL_DB
from isolator.motors.belt_load import SHEAR_STRAIN
from isolator.motors.belt_ring import ring, softened
from isolator.motors.drive import estimate_drive
from isolator.motors.heat import (
    Layer,
    heat,
    heat_checks,
    plate_layer,
    rubber_conductivity,
    rubber_spread,
)
from isolator.motors.limits import check_against
from isolator.motors.mount import Damper
from isolator.motors.results import Belt, MotorResult
from isolator.motors.screws import Fastened, damper_screws
from isolator.motors.shaft import TYPICAL_RADIAL, belt_arm, spacer_height, stack_checks, stack_of
from isolator.motors.sheet_plates import sheet_rows
from isolator.motors.task import MotorTask
from isolator.physics.drive.belts import shaft_pull
from isolator.vibration.band import Check
from isolator.vibration.heard import FULL
from isolator.vibration.results import Heard
from isolator.vibration.verdict import heard_louder

SHEET_TOLERANCE = 0.1
"""Share of its thickness by which rubber sheet is off; common practice, no source."""
BOUGHT_TOLERANCE = 0.25e-3
"""By which a bought damper's thickness is off [m]: moulded rubber of some millimetres, ISO 3302-1,
class M3, from memory."""
PRINT_TOLERANCE = 0.15e-3
"""How far a stack of printed plates and a spacer is off [m]; common practice, no source."""

BELT_RING = "what is left of the belt's resonance"
QUIETER = "quieter through the bracket"
HELPS_FROM = "quieter through the bracket from a speed"
NO_LOUDER = "louder through the feet"
"""Names of checks."""


def build(task: MotorTask, motor: Motor, damper: Damper) -> MotorResult:
    """Return what follows from the stack of a motor on a damper."""
    stack, wedge = float(damper.loaded.stack[0]), float(damper.loaded.wedge[0])
    rubber, area = float(damper.offered.rubber[0]), float(damper.offered.area[0])
    face, material = FACEPLATES[motor.frame_size].body ** 2, damper.offered.material
    plates = damper.plates
    layers = (
        plate_layer(plates.motor, plates.kind, face),
        Layer(rubber, rubber_conductivity(material), area, rubber_spread(material)),
        plate_layer(plates.frame, plates.kind, face),
        *((plate_layer(wedge, PLATE_KINDS[PRINTED], face),) if wedge > 0 else ()),
    )
    bonded = 0.0 if damper.offered.bought is None else CLAMPED
    fastened = damper_screws(motor, plates.motor, plates.frame, wedge, plates.made, bonded)
    made = damper.offered.bought is None
    tolerance = PRINT_TOLERANCE + (SHEET_TOLERANCE * rubber if made else BOUGHT_TOLERANCE)
    return stacked(task, motor, "damper", stack, tolerance, fastened, layers)


def stacked(
    task: MotorTask,
    motor: Motor,
    kind: str,
    stack: float,
    tolerance: float,
    fastened: Fastened,
    layers: tuple[Layer, ...],
) -> MotorResult:
    """Return what follows from a stack of height `stack` [m] with its screws, rubber left out.

    `tolerance` [m] is what the stack may be off by, `layers` what heat has to pass.
    """
    layer, tension = task.print.layer, task.motion.belt_tension
    room = task.room
    warmth = heat(
        motor, layers, room.temperature_high, task.print.motor_material, room.temperature_low
    )
    spacer = spacer_height(motor, stack, layer)
    return MotorResult(
        name=motor.name,
        kind=kind,
        belted=task.belt(motor) is not None,
        stack_height=stack,
        pulley_spacer_height=spacer,
        gauge=motor.pulley_set_by == "gauge",
        shaft_left=motor.shaft_length - spacer,
        stack=stack_of(motor, stack, layer, tolerance),
        belt=belt_of(task, motor, stack, None),
        screws=fastened.screws,
        heat=warmth,
        drive=estimate_drive(task, motor),
        checks=(
            *stack_checks(motor, stack, tolerance, layer, tension),
            *fastened.checks,
            *_usual_load(task, motor, spacer),
            *heat_checks(warmth, motor),
        ),
    )


def _usual_load(task: MotorTask, motor: Motor, spacer: float) -> tuple[Check, ...]:
    """Return how the load on a shaft of which no limit is told compares with what is usual.

    Nothing is refused for a limit that is assumed.
    """
    usual = TYPICAL_RADIAL.get(motor.frame_size)
    if motor.radial_limit is not None or usual is None:
        return ()
    force, arm = usual
    pull = float(shaft_pull(task.motion.belt_tension, motor.wrap))
    share = pull * belt_arm(motor, spacer) / (force * arm)
    today = pull * belt_arm(motor, motor.pulley_standoff) / (force * arm)
    figures = (("force_n", force), ("arm_mm", 1e3 * arm), ("today", today))
    told = f"radial load of {motor.name}, limit assumed"
    found = check_against(told, share, 1.0, "× its limit", "radial load assumed", figures)
    return (replace(found, binding=False),)


def belt_of(task: MotorTask, motor: Motor, stack: float, damper: Damper | None) -> Belt:
    """Return tension, pull and the belt–carriage resonance before and after.

    After, all belts that hold what moves are as soft as this motor's.
    """
    motion, after = task.motion, task.motion.belt_stiffness
    if damper is not None:
        high = np.array([stack])
        after = float(softened(task, motor, damper.offered, damper.plates, high)[0])
    return Belt(
        tension=motion.belt_tension,
        pull=float(shaft_pull(motion.belt_tension, motor.wrap)),
        limit=motor.radial_limit,
        usual_limit=TYPICAL_RADIAL.get(motor.frame_size),
        arm=belt_arm(motor, spacer_height(motor, stack, task.print.layer)),
        arm_before=belt_arm(motor, motor.pulley_standoff),
        resonance_before=float(ring(task, motor, motion.belt_stiffness)),
        resonance_after=float(ring(task, motor, after)),
    )


def damper_checks(task: MotorTask, motor: Motor, damper: Damper) -> tuple[Check, ...]:
    """Return what a damper has to hold besides its stack, screws and heat."""
    loaded, tilt = damper.loaded, task.stock.tilt_limit
    strain = damper.offered.material.strain_limit.value
    travel, clear, least = loaded.travel[0], loaded.clearance[0], loaded.least_clearance[0]
    most = most_travel(motor.frame_size, task.print.hole_compensation, damper.plates.made)
    ringing = (BELT_RING, damper.ring_left, task.stock.belt_ring, "× today's", True)
    rows = (
        *((ringing,) if task.belt(motor) is not None else ()),
        ("tilt of the shaft", math.degrees(loaded.tilt_left[0]), math.degrees(tilt), "°", False),
        ("shear of the rubber", 100.0 * loaded.shear_strain[0], 100.0 * SHEAR_STRAIN, "%", False),
        ("strain at the rubber's edge", 100.0 * loaded.edge_strain[0], 100.0 * strain, "%", False),
        ("play of the plates", 1e3 * travel, 1e3 * most, "mm", False),
        ("screws clear of the far plate", 1e3 * clear, 1e3 * least, "mm", True),
        *sheet_rows(motor, damper),
    )
    told = [
        check_against(f"{what} of {motor.name}", value, bound, unit, what, at_least=at_least)
        for what, value, bound, unit, at_least in rows
    ]
    first = 0 if task.belt(motor) is None else 1  # behind the belt's
    return (*told[:first], _quieter(motor, damper), *told[first:])


def _quieter(motor: Motor, damper: Damper) -> Check:
    """Return whether a motor is louder through its bracket at no speed, and else from where on."""
    least, remedy = _no_loss(min(-each.high for each in damper.changes)), QUIETER
    figures: tuple[tuple[str, float], ...] = ()
    if least < 0 and damper.helps_from is not None:
        remedy = HELPS_FROM
        figures = (("speed_mm_s", float(math.ceil(damper.helps_from * 1e3 - 1e-6))),)
    name = f"{QUIETER} of {motor.name}"
    return check_against(name, least, 0.0, "dB(A)", remedy, figures, at_least=True)


def feet_check(motor: Motor, heard: Sequence[Heard]) -> Check:
    """Return whether nobody hears a motor on its damper louder through the feet.

    It binds where a speed is called louder; in between it is told alone.
    """
    desk = [each.desk for each in heard]
    most = max(each.high for each in desk)
    told = check_against(f"{NO_LOUDER} of {motor.name}", most, EQUAL_DB, "dB(A)", NO_LOUDER)
    binds = any(heard_louder(each.nominal, each.high) for each in desk)
    return replace(told, binding=told.passed or binds)


def _no_loss(gain: float) -> float:
    # rounding of sums is no loss
    return 0.0 if abs(gain) < FULL else gain
