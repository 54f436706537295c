"""A chosen damper becomes a drawing sheet."""

from __future__ import annotations

from isolator.brief import DamperStock, Motor
from isolator.design.damper import MotorDamper
from isolator.feet.sizing import SPACER_WALL
from isolator.motors.choose import Damper


def damper_sheet(
    motor: Motor,
    damper: Damper,
    *,
    spacer: float,
    motor_screw: float,
    frame_screw: float,
    stock: DamperStock,
    filament: str,
) -> MotorDamper:
    """Return the sheet: `spacer` height of the pulley's ring, lengths of the screws [m]."""
    offered, loaded = damper.offered, damper.loaded
    return MotorDamper(
        name=motor.name,
        frame_size=motor.frame_size,
        position=motor.position,
        axis=motor.axis,
        points=motor.points,
        body=motor.body_length,
        shaft=motor.shaft_length,
        pull=motor.pull,
        shape=offered.shape,
        first=float(offered.first[0]),
        second=float(offered.second[0]),
        circle=float(offered.circle[0]),
        rubber=float(offered.rubber[0]),
        material=offered.material.id,
        cast=stock.cast,
        motor_plate=damper.plates.motor,
        frame_plate=damper.plates.frame,
        wedge=float(loaded.wedge[0]),
        wedge_angle=float(loaded.wedge_angle[0]),
        bracket=motor.bracket,
        travel=float(loaded.travel[0]),
        motor_screw=motor_screw,
        frame_screw=frame_screw,
        pulley_spacer=spacer,
        bore=motor.shaft_diameter,
        outer=motor.shaft_diameter + 2 * SPACER_WALL,
        filament=filament,
    )
