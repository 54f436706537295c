"""What a motor's drive does at each print speed: torque at hand and needed, current, steps."""

from __future__ import annotations

import math

from isolator.brief import Motor
from isolator.motors.results import CurrentRow, DriveEstimates, DriveRow
from isolator.motors.task import MotorTask
from isolator.physics.drive import stepper
from isolator.physics.drive.heat import copper_loss
from isolator.physics.drive.torque import (
    needed_crossed,
    needed_torque,
    reference_voltage,
    torque_at_current,
    torque_at_speed,
)

SHARES = (1.0, 0.8, 0.6, 0.4)
LEAST_SHARE = 0.6
"""Of the set current: no less is advised, as friction is not known; convention, no source."""
LEAST_MARGIN = 1.5
"""Torque at hand over torque needed; convention, no source."""
AMPLE_MARGIN = 2.0 * LEAST_MARGIN
"""What has to be left at a lower current that is advised; convention, no source."""
STEP_ACCURACY = 0.05
"""Of a full step, not cumulative; usual of data sheets."""


def estimate_drive(task: MotorTask, motor: Motor) -> DriveEstimates:
    """Return the estimates for one motor."""
    motion, travel, driver = task.motion, task.travel, task.driver
    rows = tuple(_row(task, motor, speed, 1.0) for speed in motion.speeds)
    reference = None
    if driver.current_shunt is not None and driver.gain is not None:
        reference = float(reference_voltage(motor.current, driver.current_shunt, driver.gain))
    peak = torque_at_current(motor.holding_torque, motor.current, motor.rated_current)
    count = motion.steps_per_turn * motion.microsteps
    return DriveEstimates(
        rows=rows,
        currents=tuple(
            CurrentRow(
                share=share,
                margin=min(
                    row.available / row.needed
                    for row in (_row(task, motor, speed, share) for speed in motion.speeds)
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
        standing=float(peak),
        accuracy=STEP_ACCURACY * travel / motion.steps_per_turn,
        reference_voltage=reference,
    )


def _row(task: MotorTask, motor: Motor, speed: float, share: float) -> DriveRow:
    """Return one speed with the current at `share` of what is set."""
    motion, travel = task.motion, task.travel
    crossed = motion.layout == "crossed-belt"
    # on a diagonal one of two crossed belts runs √2 times as fast as the tool
    turns = speed * (math.sqrt(2.0) if crossed else 1.0) / travel
    return DriveRow(
        speed=speed,
        turns=turns,
        electrical=turns * motion.steps_per_turn / 4,
        needed=_needed(task, motor, travel / math.tau),
        available=float(
            torque_at_speed(
                motor.holding_torque,
                motor.rated_current,
                share * motor.current,
                motor.winding_resistance,
                motor.winding_inductance,
                task.driver.voltage,
                turns,
                motion.steps_per_turn,
            )
        ),
    )


def _needed(task: MotorTask, motor: Motor, radius: float) -> float:
    motion, masses = task.motion, task.masses
    if motion.layout == "crossed-belt":
        return needed_crossed(motion.acceleration, masses, motor.rotor_inertia, radius)
    belt = task.belt(motor)
    axis = 1 if belt is None else belt
    # motors side by side on one axis share what it moves
    mass = masses[axis] / max(1, sum(other == axis for other, _ in task.belts))
    return float(needed_torque(motion.acceleration, mass, motor.rotor_inertia, radius))


def worst_row(drive: DriveEstimates) -> DriveRow:
    """Return the speed at which the torque at hand is the smallest share of what is needed."""
    return min(drive.rows, key=lambda row: row.available / row.needed)


def spare_current(drive: DriveEstimates) -> CurrentRow | None:
    """Return the lowest current that may be advised and leaves ample torque, None for none."""
    lower = [
        row
        for row in drive.currents
        if LEAST_SHARE <= row.share < 1.0 and row.margin >= AMPLE_MARGIN
    ]
    return min(lower, key=lambda row: row.share, default=None)
