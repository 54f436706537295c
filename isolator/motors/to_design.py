"""What goes under a motor becomes a drawing sheet."""

from __future__ import annotations

import math

from isolator.brief import DamperStock, Motor, Print
from isolator.design import MotorSpacer
from isolator.design.damper import MotorDamper
from isolator.design.plate_room import most_travel
from isolator.motors.mount import Damper
from isolator.motors.screws import plate_screws
from isolator.motors.shaft import nose_height, spacer_height

SPACER_WALL = 2.4e-3  # of the ring under a pulley [m]
TRAVEL_STEP = 1e-4  # in which a sheet tells how far plates move [m]


def damper_sheet(
    motor: Motor,
    damper: Damper,
    *,
    spacer: float,
    motor_screw: float,
    frame_screw: float,
    stock: DamperStock,
    filament: str,
    compensation: float,
    layer: float,
) -> MotorDamper:
    """Return the sheet: `spacer` height of the pulley's ring, lengths of the screws [m].

    `compensation` [m] is what the printer adds to a hole's diameter, `layer` its layer height.
    """
    offered, loaded = damper.offered, damper.loaded
    bought = offered.bought
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
        cast=stock.cast and bought is None,
        motor_plate=damper.plates.motor,
        frame_plate=damper.plates.frame,
        wedge=float(loaded.wedge[0]),
        wedge_angle=_to_be_read(float(loaded.wedge_angle[0])),
        bracket=motor.bracket,
        travel=_shared_travel(
            float(loaded.travel[0]), most_travel(motor.frame_size, compensation, damper.plates.made)
        ),
        motor_screw=motor_screw,
        frame_screw=frame_screw,
        pulley_spacer=spacer,
        bore=motor.shaft_diameter,
        outer=motor.shaft_diameter + 2 * SPACER_WALL,
        filament=filament,
        nose=min(motor.inner_ring, motor.shaft_diameter + 2 * SPACER_WALL),
        nose_height=nose_height(motor, layer),
        boss=motor.boss_diameter,
        boss_height=motor.boss_height,
        density=offered.material.density.value if stock.cast and bought is None else 0.0,
        gauge=motor.pulley_set_by == "gauge",
        plates=damper.plates.made,
        bought="" if bought is None else bought.name,
        found="" if bought is None else bought.found,
        mass=0.0 if bought is None else bought.mass,
    )


def _to_be_read(angle: float) -> float:
    """Return an angle [rad] of six decimals of a degree, so that the sheet says what is drawn."""
    return math.radians(round(math.degrees(angle), 6))


def _shared_travel(travel: float, most: float) -> float:
    """Return a travel [m] in whole steps where the plates have room, so that motors share them."""
    steps = round(math.ceil(travel / TRAVEL_STEP - 1e-6) * TRAVEL_STEP, 9)
    return steps if steps <= most + 1e-9 else travel


def spacer_of(motor: Motor, printing: Print) -> MotorSpacer:
    """Return the plate that moves a motor back and the spacer that moves its pulley forward."""
    (screws,) = plate_screws(motor, motor.spacer_plate).screws
    bore = motor.shaft_diameter
    return MotorSpacer(
        name=motor.name,
        frame_size=motor.frame_size,
        height=motor.spacer_plate,
        pulley_spacer=spacer_height(motor, motor.spacer_plate, printing.layer),
        bore=bore,
        outer=bore + 2 * SPACER_WALL,
        filament=printing.motor_material,
        motor_screw=screws.length,
        nose=min(motor.inner_ring, bore + 2 * SPACER_WALL),
        nose_height=nose_height(motor, printing.layer),
        boss=motor.boss_diameter,
        boss_height=motor.boss_height,
        gauge=motor.pulley_set_by == "gauge",
    )
