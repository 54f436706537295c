"""The task of the dampers of one printer, as numbers: motors, what they drive, what is allowed."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from isolator.brief import Brief, DamperStock, Driver, Motion, Motor, Print, Room
from isolator.motors.drive_train import build_drives
from isolator.physics.drive.chain import Carriage, Drive
from isolator.vibration.excitation import belt_motors, move_points, moved_masses, travel_per_turn
from isolator.vibration.targets import electrical_line


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorTask:
    """What all dampers of one printer share."""

    motors: tuple[Motor, ...]  # all of the printer
    belts: tuple[tuple[int, Motor], ...]  # (belt, motor) of those that drive one: A or x is 0
    drives: tuple[Drive, ...]  # of the motors in `belts`
    carriage: Carriage
    masses: tuple[float, float]  # that moves along x and along y accelerate [kg]
    motion: Motion
    travel: float  # of a belt in one motor turn [m]
    electrical: float  # lowest electrical line, for each 1 m/s of print speed [Hz]
    stock: DamperStock
    print: Print
    driver: Driver
    room: Room
    ceiling: float  # no more than this is promised [dB]

    def belt(self, motor: Motor) -> int | None:
        """Return which belt a motor drives, None for none."""
        return next((belt for belt, other in self.belts if other.name == motor.name), None)


def build_motor_task(brief: Brief) -> MotorTask:
    """Return the numbers of a brief that concern motors and their dampers."""
    motion = brief.motion
    belts = belt_motors(motion, brief.motors)
    masses, travel = moved_masses(motion), travel_per_turn(motion)
    return MotorTask(
        motors=brief.motors,
        belts=belts,
        drives=build_drives(motion, belts, travel),
        carriage=Carriage(masses=np.array(masses), points=np.array(move_points(motion))),
        masses=masses,
        motion=motion,
        travel=travel,
        electrical=electrical_line(motion, 1.0),
        stock=brief.damper,
        print=brief.print.of(brief.print.motor_material),
        driver=brief.driver,
        room=brief.room,
        ceiling=brief.limits.promise_ceiling_db,
    )
