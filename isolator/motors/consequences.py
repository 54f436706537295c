"""What follows from a stack between a motor and its bracket: shaft, screws, heat, drive, belt."""

from __future__ import annotations

import math

from isolator.brief import Motor
from isolator.design.damper import FREE, most_travel
from isolator.design.faceplates import FACEPLATES
from isolator.motors.belt_load import SHEAR_STRAIN
from isolator.motors.choose import Damper
from isolator.motors.drive import estimate_drive
from isolator.motors.heat import (
    PLASTIC_SPREAD,
    PLATE_CONDUCTIVITY,
    Layer,
    heat,
    heat_checks,
    rubber_conductivity,
    rubber_spread,
)
from isolator.motors.limits import check_against
from isolator.motors.results import Belt, MotorResult
from isolator.motors.screws import Fastened, damper_screws
from isolator.motors.shaft import TYPICAL_RADIAL, belt_arm, spacer_height, stack_checks, stack_of
from isolator.motors.task import MotorTask
from isolator.physics.drive.belts import held_belt_resonance, shaft_pull, softened_stiffness
from isolator.vibration.band import Check
from isolator.vibration.verdict import AMPLIFIED_DB, RAISED_LOW_DB

SHEET_TOLERANCE = 0.1
"""Share of its thickness by which rubber sheet is off; common practice, no source."""
PRINT_TOLERANCE = 0.15e-3
"""How far a stack of printed plates and a spacer is off [m]; common practice, no source."""


def build(task: MotorTask, motor: Motor, damper: Damper) -> MotorResult:
    """Return what follows from the stack of a motor on a damper."""
    stack, wedge = float(damper.loaded.stack[0]), float(damper.loaded.wedge[0])
    rubber, area = float(damper.offered.rubber[0]), float(damper.offered.area[0])
    face, material = FACEPLATES[motor.frame_size].body ** 2, damper.offered.material
    layers = (
        Layer(damper.plates.motor, PLATE_CONDUCTIVITY, face, PLASTIC_SPREAD),
        Layer(rubber, rubber_conductivity(material), area, rubber_spread(material)),
        Layer(damper.plates.frame + wedge, PLATE_CONDUCTIVITY, face, PLASTIC_SPREAD),
    )
    fastened = damper_screws(motor, damper.plates.motor, damper.plates.frame, wedge)
    tolerance = PRINT_TOLERANCE + SHEET_TOLERANCE * rubber
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
            *heat_checks(warmth, motor),
        ),
    )


def belt_of(task: MotorTask, motor: Motor, stack: float, damper: Damper | None) -> Belt:
    """Return tension, pull and the belt–carriage resonance before and after.

    All belts that hold what moves count, those of two motors on one axis too; after, they are as
    soft as this motor's.
    """
    motion, masses = task.motion, task.masses
    crossed = motion.layout == "crossed-belt"
    # two crossed belts hold what moves together; the heavier axis resonates lower
    axis = 0 if motor.drives == "x" else 1
    own = sum(belt == axis for belt, _ in task.belts)
    belts, mass = (2.0, max(masses)) if crossed else (float(max(own, 1)), masses[axis])
    after = motion.belt_stiffness
    if damper is not None:
        offered = damper.offered
        spacer = spacer_height(motor, stack, task.print.layer)
        arm = belt_arm(motor, spacer) - damper.plates.motor - float(offered.rubber[0]) / 2.0
        after = float(
            softened_stiffness(
                motion.belt_stiffness,
                task.travel / math.tau,
                offered.twist[0],
                offered.shear[0],
                offered.tilt[0],
                arm,
            )
        )
    return Belt(
        tension=motion.belt_tension,
        pull=float(shaft_pull(motion.belt_tension, motor.wrap)),
        limit=motor.radial_limit,
        usual_limit=TYPICAL_RADIAL.get(motor.frame_size),
        arm=belt_arm(motor, spacer_height(motor, stack, task.print.layer)),
        arm_before=belt_arm(motor, motor.pulley_standoff),
        resonance_before=float(held_belt_resonance(belts * motion.belt_stiffness, mass)),
        resonance_after=float(held_belt_resonance(belts * after, mass)),
    )


def damper_checks(task: MotorTask, motor: Motor, damper: Damper) -> tuple[Check, ...]:
    """Return what a damper has to hold besides its stack, screws and heat."""
    loaded, tilt = damper.loaded, task.stock.tilt_limit
    strain = damper.offered.material.strain_limit.value
    travel, clear = loaded.travel[0], loaded.clearance[0]
    most = most_travel(motor.frame_size, task.print.hole_compensation)
    rows = (
        ("tilt of the shaft", math.degrees(loaded.tilt_left[0]), math.degrees(tilt), "°", False),
        ("least loss of drone torque", float(damper.nominal.min()), AMPLIFIED_DB, "dB", True),
        ("least loss at the band's low end", float(damper.low.min()), RAISED_LOW_DB, "dB", True),
        ("shear of the rubber", 100.0 * loaded.shear_strain[0], 100.0 * SHEAR_STRAIN, "%", False),
        ("strain at the rubber's edge", 100.0 * loaded.edge_strain[0], 100.0 * strain, "%", False),
        ("play of the plates", 1e3 * travel, 1e3 * most, "mm", False),
        ("screws clear of the far plate", 1e3 * clear, 1e3 * (travel + FREE), "mm", True),
    )
    return tuple(
        check_against(f"{what} of {motor.name}", value, bound, unit, what, at_least=least)
        for what, value, bound, unit, least in rows
    )
