"""The task of the dampers of one printer, as numbers: motors, what they drive, what is allowed."""

from __future__ import annotations

from dataclasses import dataclass

from isolator.brief import Brief, DamperStock, Driver, Motion, Motor, Print, Room
from isolator.vibration.desk import StoodOn, stood_on
from isolator.vibration.drives import moved_masses, travel_per_turn
from isolator.vibration.excitation import Excitation, build_excitation


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorTask:
    """What all dampers of one printer share."""

    excitation: Excitation  # the motors and what they drive
    masses: tuple[float, float]  # that moves along x and along y accelerate [kg]
    travel: float  # of a belt in one motor turn [m]
    stock: DamperStock
    print: Print
    driver: Driver
    room: Room
    desk: StoodOn
    ceiling: float  # no more than this is promised of feet and dampers [dB]
    most: float  # nor than this of a damper alone [dB]

    @property
    def motion(self) -> Motion:
        """How the printer moves."""
        return self.excitation.motion

    @property
    def motors(self) -> tuple[Motor, ...]:
        """All motors of the printer."""
        return self.excitation.motors

    @property
    def belts(self) -> tuple[tuple[int, Motor], ...]:
        """(belt, motor) of the motors that drive one: A or x is 0."""
        return self.excitation.belts

    def belt(self, motor: Motor) -> int | None:
        """Return which belt a motor drives, None for none."""
        return next((belt for belt, other in self.belts if other.name == motor.name), None)


def build_motor_task(brief: Brief, ceiling: float | None = None) -> MotorTask:
    """Return the numbers of a brief that concern motors and their dampers.

    Of feet and dampers no more loss than `ceiling` [dB] is promised; without it, than the brief's
    own limit.
    """
    return MotorTask(
        excitation=build_excitation(brief),
        masses=moved_masses(brief.motion),
        travel=travel_per_turn(brief.motion),
        stock=brief.damper,
        print=brief.print.of(brief.print.motor_material),
        driver=brief.driver,
        room=brief.room,
        desk=stood_on(brief.desk),
        most=brief.limits.promise_ceiling_db,
        ceiling=brief.limits.promise_ceiling_db if ceiling is None else ceiling,
    )
