"""What a motor's drive does at each print speed: torque at hand and needed, current, steps."""

from __future__ import annotations

import math

from isolator.brief import Brief, Motor
from isolator.motors.results import CurrentRow, Drive, DriveRow
from isolator.physics.drive import stepper
from isolator.physics.drive.heat import copper_loss
from isolator.physics.drive.torque import (
    needed_crossed,
    needed_torque,
    reference_voltage,
    torque_at_current,
    torque_at_speed,
)
from isolator.vibration.excitation import belt_motors, moved_masses, travel_per_turn

SHARES = (1.0, 0.8, 0.6, 0.4)
LEAST_SHARE = 0.6
"""Of the set current: no less is advised, as friction is not known; convention, no source."""
LEAST_MARGIN = 1.5
"""Torque at hand over torque needed; convention, no source."""
AMPLE_MARGIN = 2.0 * LEAST_MARGIN
"""What has to be left at a lower current that is advised; convention, no source."""
STEP_ACCURACY = 0.05
"""Of a full step, not cumulative; usual of data sheets."""


def drive(brief: Brief, motor: Motor) -> Drive:
    """Return the estimates for one motor."""
    motion = brief.motion
    travel = travel_per_turn(brief)
    rows = tuple(_row(brief, motor, speed, 1.0) for speed in motion.speeds)
    driver = brief.driver
    reference = None
    if driver.sense_resistor is not None and driver.gain is not None:
        reference = float(reference_voltage(motor.current, driver.sense_resistor, driver.gain))
    peak = torque_at_current(motor.holding_torque, motor.current, motor.rated_current)
    count = motion.steps_per_turn * motion.microsteps
    return Drive(
        rows=rows,
        currents=tuple(
            CurrentRow(
                share=share,
                margin=min(
                    row.available / row.needed
                    for row in (_row(brief, motor, speed, share) for speed in motion.speeds)
                ),
                ripple_db=20.0 * math.log10(share),
                detent_db=0.0,
                power=float(copper_loss(share * motor.current, motor.winding_resistance)),
            )
            for share in SHARES
        ),
        step=travel / count,
        step_angle=math.tau / count,
        step_torque=float(stepper.microstep_torque(peak, motion.microsteps)),
        accuracy=STEP_ACCURACY * travel / motion.steps_per_turn,
        reference_voltage=reference,
    )


def _row(brief: Brief, motor: Motor, speed: float, share: float) -> DriveRow:
    """Return one speed with the current at `share` of what is set."""
    motion = brief.motion
    travel = travel_per_turn(brief)
    crossed = motion.layout == "crossed-belt"
    # on a diagonal one of two crossed belts runs √2 times as fast as the tool
    turns = speed * (math.sqrt(2.0) if crossed else 1.0) / travel
    return DriveRow(
        speed=speed,
        turns=turns,
        electrical=turns * motion.steps_per_turn / 4,
        needed=_needed(brief, motor, travel / math.tau),
        available=float(
            torque_at_speed(
                motor.holding_torque,
                motor.rated_current,
                share * motor.current,
                motor.winding_resistance,
                motor.winding_inductance,
                brief.driver.voltage,
                turns,
                motion.steps_per_turn,
            )
        ),
    )


def _needed(brief: Brief, motor: Motor, radius: float) -> float:
    motion, masses = brief.motion, moved_masses(brief)
    if motion.layout == "crossed-belt":
        return needed_crossed(motion.acceleration, masses, motor.rotor_inertia, radius)
    belts = {other.name: belt for belt, other in belt_motors(brief)}
    axis = belts.get(motor.name, 1)
    # motors side by side on one axis share what it moves
    mass = masses[axis] / max(1, sum(belt == axis for belt in belts.values()))
    return float(needed_torque(motion.acceleration, mass, motor.rotor_inertia, radius))


def drive_words(drive: Drive, motor: Motor) -> tuple[str, ...]:
    """Return what the estimates say, in words."""
    worst = min(drive.rows, key=lambda row: row.available / row.needed)
    margin = worst.available / worst.needed
    speed = f"{worst.speed * 1e3:.0f} mm/s"
    if margin < LEAST_MARGIN:
        slow = torque_at_current(motor.holding_torque, motor.current, motor.rated_current)
        remedy = "Raise its current or lower the acceleration."
        if worst.available < 0.99 * float(slow):  # else rounding alone would tell
            remedy = (
                "The supply's voltage holds it back, not its current: print slower, or lower the "
                "acceleration."
            )
        least_told = math.floor(10.0 * margin) / 10.0  # 1.49 is not told as 1.5
        return (
            f"An estimate: at {speed} the torque at hand is {least_told:.1f} times what the "
            f"acceleration needs (friction left out), less than {LEAST_MARGIN:g}: motor "
            f"{motor.name} may lose steps. {remedy}",
        )
    lower = [
        row
        for row in drive.currents
        if LEAST_SHARE <= row.share < 1.0 and row.margin >= AMPLE_MARGIN
    ]
    if not lower:
        return ()
    least = min(lower, key=lambda row: row.share)
    return (
        f"An estimate: at {100 * least.share:.0f} % of its current motor {motor.name} still has "
        f"{least.margin:.0f} times the torque that the acceleration needs (friction left out), its "
        f"electrical tone is {-least.ripple_db:.0f} dB weaker, its detent as it was, and it makes "
        f"{least.power:.1f} W of heat. Lower it step by step, and watch for lost steps.",
    )
