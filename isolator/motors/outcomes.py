"""All that was found of one motor: on a damper, on a plain plate, or bolted on as before."""

from __future__ import annotations

import math
from dataclasses import replace

from isolator.brief import Motor
from isolator.design.damper import BOND_RING, MotorDamper, bond_screw
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED
from isolator.design.plate_room import wedge_reach
from isolator.motors.choose import DamperChoice
from isolator.motors.consequences import (
    PRINT_TOLERANCE,
    belt_of,
    build,
    damper_checks,
    feet_check,
    stacked,
)
from isolator.motors.heat import plate_layer
from isolator.motors.limits import check_against
from isolator.motors.modes import damper_modes
from isolator.motors.mount import Damper
from isolator.motors.results import (
    DamperState,
    MotorHeard,
    MotorResult,
    NoDamper,
    Offer,
    Rubber,
    Screws,
)
from isolator.motors.screws import (
    Fastened,
    belt_edge,
    bridge_ratio,
    core_of,
    frame_screw_end,
    plate_screws,
)
from isolator.motors.shaft import short_shaft, tallest_stack, two_heights
from isolator.motors.task import MotorTask
from isolator.motors.to_design import damper_sheet
from isolator.motors.told import OnDamper
from isolator.vibration.results import Heard


def damped(
    task: MotorTask, motor: Motor, damper: Damper, told: OnDamper
) -> tuple[MotorResult, MotorDamper]:
    """Return what was found of a motor on its damper, and the sheet to draw it by."""
    loaded, built = damper.loaded, build(task, motor, damper)
    sheet = damper_sheet(
        motor,
        damper,
        spacer=built.pulley_spacer_height,
        motor_screw=built.screws[0].length,
        frame_screw=built.screws[1].length,
        stock=task.stock,
        filament=task.print.motor_material,
        compensation=task.print.hole_compensation,
        layer=task.print.layer,
    )
    stack = float(loaded.stack[0])
    result = replace(
        built,
        belt=belt_of(task, motor, stack, damper),
        tilt=float(loaded.tilt[0]),
        pulley_shift=float(loaded.pulley_shift[0]),
        damper=_state(task, motor, damper, told, built.screws[1].length),
        screws=_with_bond(motor, sheet, built.screws),
        checks=(
            *damper_checks(task, motor, damper),
            feet_check(motor, [each.heard for each in told.heard]),
            *built.checks,
        ),
    )
    return result, sheet


def _state(
    task: MotorTask,
    motor: Motor,
    damper: Damper,
    told: OnDamper,
    frame_screw: float,
) -> DamperState:
    """Return a damper and what the belt makes of it; `frame_screw` [m] long."""
    loaded, offered, wedge = damper.loaded, damper.offered, float(damper.loaded.wedge[0])
    angle, tilt = float(loaded.wedge_angle[0]), float(offered.tilt[0])
    shear, axial = float(offered.shear[0]), float(offered.axial[0])
    core = core_of(screw_of(motor.frame_size))
    return DamperState(
        rubber=rubber_of(damper),
        axial=axial,
        shear=(shear, shear),
        tilt=(tilt, tilt),
        twist=float(offered.twist[0]),
        modes=damper_modes(motor, damper),
        heard=told.heard,
        lines=told.lines,
        shift=float(loaded.shift[0]),
        wedge_angle=angle,
        wedge_step=2.0 * math.tan(angle) * wedge_reach(motor.frame_size, motor.pull),
        tilt_left=float(loaded.tilt_left[0]),
        helps_from=damper.helps_from,
        ceiling=task.ceiling,
        screw_end=frame_screw_end(
            motor, damper.plates.frame, wedge, frame_screw, damper.plates.made
        ),
        belt_edge=belt_edge(motor),
        bridge=bridge_ratio(axial, float(offered.rubber[0]), core),
        plates=(damper.plates.made, damper.plates.frame),
        two_heights=motor is task.motors[0] and two_heights(task.motion.layout, task.motors),
    )


def rubber_of(damper: Damper) -> Rubber:
    """Return what a damper's rubber is."""
    offered = damper.offered
    return Rubber(
        shape=offered.shape,
        first=float(offered.first[0]),
        second=float(offered.second[0]),
        circle=float(offered.circle[0]),
        thickness=float(offered.rubber[0]),
        material=offered.material.name,
        bought=offered.bought is not None,
    )


def plated(task: MotorTask, motor: Motor) -> MotorResult:
    """Return what was found of a motor on a plain plate."""
    height = motor.spacer_plate
    area = FACEPLATES[motor.frame_size].body ** 2
    layers = (plate_layer(height, PLATE_KINDS[PRINTED], area),)
    screws = plate_screws(motor, height)
    return stacked(task, motor, "plate", height, PRINT_TOLERANCE, screws, layers)


def offer_of(task: MotorTask, motor: Motor, damper: Damper) -> Offer:
    """Return what a damper that a motor does not get would gain and cost."""
    ways = zip(task.motion.speeds, damper.changes, damper.feet, strict=True)
    built = build(task, motor, damper)
    return Offer(
        rubber=rubber_of(damper),
        heard=tuple(
            MotorHeard(speed=speed, heard=Heard(desk=feet, frame=frame))
            for speed, frame, feet in ways
        ),
        helps_from=damper.helps_from,
        stack_height=built.stack_height,
        belt=belt_of(task, motor, built.stack_height, damper),
        heat=built.heat,
    )


def bolted(task: MotorTask, motor: Motor, why: NoDamper) -> MotorResult:
    """Return what was found of a motor that stays bolted to its bracket, and why it does."""
    built = stacked(task, motor, "none", 0.0, 0.0, Fastened((), ()), ())
    missing = check_against(f"a damper for {motor.name}", 0.0, 1.0, "", "no damper", at_least=True)
    return replace(built, without=why, checks=(missing,) if motor.damper == "always" else ())


def no_offer(task: MotorTask, motor: Motor, choice: DamperChoice) -> NoDamper:
    """Return why no damper holds a motor standing still."""
    if not choice.tried:
        return NoDamper(cause="no stock")
    layer, least = task.print.layer, choice.lowest
    return NoDamper(
        cause="none holds",
        tried=choice.tried,
        mount=motor.mount,
        rule=max(choice.stopped, key=lambda rule: choice.stopped[rule]),
        short=short_shaft(motor, least, layer) if least > tallest_stack(motor, layer) else None,
    )


def _with_bond(motor: Motor, sheet: MotorDamper, screws: tuple[Screws, ...]) -> tuple[Screws, ...]:
    """Return screws with what holds the bonding wire: one of its own, or one of the motor's."""
    if not sheet.bought:
        return (*screws, _bond(motor, sheet, screws[0]))
    under = "1 ring terminal and 1 toothed washer under one of them, for the bonding wire"
    beside = "; ".join(each for each in (screws[0].beside, under) if each)
    return (replace(screws[0], beside=beside), *screws[1:])


def _bond(motor: Motor, sheet: MotorDamper, beside: Screws) -> Screws:
    """Return the screw that holds the bonding wire's terminal: on the motor, or on sheet metal."""
    length = bond_screw(sheet)
    if sheet.kind.sheet:
        screw = screw_of(motor.frame_size)
        return Screws(
            count=1,
            thread=beside.thread,
            length=length,
            head="button head, ISO 7380-1",
            where="bonding wire's ring terminal on the motor-side plate's ear",
            engagement=screw.nut_height,
            turns=screw.nut_height / screw.pitch,
            beside="1 ring terminal, 1 toothed washer, 1 nut ISO 4032",
        )
    held = length - BOND_RING if motor.screw_depth > 0 else beside.engagement
    return Screws(
        count=1,
        thread=beside.thread,
        length=length,
        head="button head, ISO 7380-1",
        where="bonding wire's ring terminal to the motor, in the free corner",
        engagement=held,
        turns=held / (beside.engagement / beside.turns),
        beside="1 ring terminal, 1 toothed washer" + ("" if motor.screw_depth > 0 else ", 1 nut"),
    )
