"""What belts and weight make of a motor on rubber: shift, tilt, travel, strain, the wedge."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Motor, Room
from isolator.design.damper import CLAMPED, FREE, RECESS
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.plate_room import (
    most_travel,
    wedge_reach,
)
from isolator.motors.candidates import DamperBatch
from isolator.motors.plates import Plates, made_of
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G
from isolator.physics.drive.belts import shaft_pull
from isolator.physics.rubber.viscoelastic import creep_factor
from isolator.vibration.drives import AXES
from isolator.vibration.supports import stiffness_factor

YEAR = 365 * 86_400.0
WEDGE_EDGE = 0.8e-3
"""Thinnest edge of a printed wedge [m]; common practice, no source."""
LEAST_SLOPE = 2.0
"""Layers of the brief's that a wedge must rise by from its thin edge to its thick one: less comes
out as one step, and is left out; convention, no source."""
WEDGE_STEPS = 3
"""A layer more of wedge tilts by a hundredth more: three steps leave less than a layer."""
SHEAR_STRESS = 0.2e6
"""Static shear stress allowed in bonded rubber [Pa]: low end of 0.2 to 0.4 MPa, P. B. Lindley,
Engineering Design with Natural Rubber, 4th ed. 1978."""
SHEAR_STRAIN = 0.5
"""Static shear strain allowed [-]; common practice, from memory."""
RULES = (
    "the shaft's length",
    "the shaft's tilt",
    "strain at the rubber's edge",
    "shear in the rubber",
    "room between screws and plates",
)
"""What a damper has to hold standing still, in the order in which it is asked."""
TOLD = (1, 2, 3)
"""Of those, what is told as a failed check alone of a bought damper that the brief names: tilt,
strain and shear. Shaft and room stop it all the same, as it cannot be built."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedDamper:
    """n dampers under belts and weight; lengths [m], angles [rad]."""

    shift: Array  # (n,) of the motor across its shaft, nominal
    tilt: Array  # (n,) of the shaft, nominal, without a wedge
    pulley_shift: Array  # (n,) of the belt's middle on the shaft, nominal
    wedge_angle: Array  # (n,), 0 for none
    wedge: Array  # (n,) thickness at the shaft, 0 for none
    tilt_left: Array  # (n,) worst over the band and a year, with the wedge
    stack: Array  # (n,) height
    travel: Array  # (n,) of one plate against the other at the screws, worst
    shear_strain: Array  # (n,) worst
    shear_stress: Array  # (n,)
    edge_strain: Array  # (n,) worst
    clearance: Array  # (n,) screw head to the far plate, or to motor and bracket past it
    least_clearance: Array  # (n,) what that has to be


def ends_of(room: Room, offered: DamperBatch, warm: float) -> tuple[float, float]:
    """Return the factors on stiffness at the soft and the stiff end of the rubber's band.

    Soft is a soft batch at `warm` [°C], stiff a stiff batch in a cold room.
    """
    low, high = room.temperature_low, max(warm, room.temperature_high)
    soft, stiff = (
        stiffness_factor(offered.material, end=end, low=low, high=high) for end in ("soft", "stiff")
    )
    return soft, stiff


def loaded(
    task: MotorTask, motor: Motor, offered: DamperBatch, plates: Plates, ends: tuple[float, float]
) -> LoadedDamper:
    """Return how every damper holds its motor; `ends` as `ends_of` gives them.

    Small strain and small angles; the wedge tilts the motor back by the middle of what the tilt
    may become, and is left out where the limit holds without it, where it would rise by less than
    `LEAST_SLOPE` layers, or where the stock wants none.
    """
    soft, stiff = ends
    aged = float(creep_factor(YEAR, offered.material.creep.value))
    wedge = np.zeros(len(offered))
    limit, tension = task.stock.tilt_limit, task.motion.belt_tension
    moved = _moved(tension, motor, offered, plates, wedge)
    # a wedge is cut along the pull; where a lying motor's weight outdoes it there is none
    wanted = (_worst(moved, aged / soft) > limit) & task.stock.wedge & (moved.lean > 0.0)
    lean = moved.lean * (aged / soft + 1.0 / stiff) / 2.0
    wanted &= 2.0 * _rise(motor, lean) >= LEAST_SLOPE * task.print.layer - 1e-9
    for _ in range(WEDGE_STEPS):
        angle = np.where(wanted, moved.lean * (aged / soft + 1.0 / stiff) / 2.0, 0.0)
        wedge = np.maximum(wedge, _wedge(task.print.wedge_layer, motor, angle))
        # the wedge stands the motor further off its belt, which tilts it a little more
        moved = _moved(tension, motor, offered, plates, wedge)
    most = _worst(moved, aged / soft)
    angle = np.where(wanted, moved.lean * (aged / soft + 1.0 / stiff) / 2.0, 0.0)
    # what leans along the pull is taken back; the weight of a lying motor tilts it across
    along = moved.lean * (aged / soft - 1.0 / stiff) / 2.0
    left = np.where(wanted, np.hypot(along, moved.across * aged / soft), most)
    circle = FACEPLATES[motor.frame_size].bolt_circle / 2.0
    swing = motor.holding_torque / offered.twist / soft * circle
    travel = moved.shift * aged / soft + swing
    strain = most * offered.edge / offered.rubber
    return LoadedDamper(
        shift=moved.shift,
        tilt=np.hypot(moved.lean, moved.across),
        pulley_shift=moved.pulley,
        wedge_angle=angle,
        wedge=wedge,
        tilt_left=left,
        stack=plates.motor + plates.frame + offered.rubber + wedge,
        travel=travel,
        shear_strain=moved.shift * aged / soft / offered.rubber,
        shear_stress=moved.force / offered.area,
        edge_strain=strain,
        clearance=_clearance(motor, offered, plates, strain),
        # in a free corner a head moves beside nothing
        least_clearance=np.full(len(offered), FREE) + (0.0 if plates.kind.sheet else travel),
    )


def _clearance(motor: Motor, offered: DamperBatch, plates: Plates, strain: Array) -> Array:
    """Return how far screw heads stay off what they face (n,) [m], the rubber pressed at its edge.

    Heads of printed plates face the other plate; those on sheet metal stand in its free corners
    and face the motor and the bracket. There the boss goes into the rubber's hole too.
    """
    if not plates.kind.sheet:
        return np.asarray(RECESS + offered.rubber * (1.0 - np.minimum(strain, 1.0)))
    head, far = screw_of(motor.frame_size).button, FACEPLATES[motor.frame_size].bolt_circle
    left = offered.rubber - np.minimum(strain, 1.0) * offered.rubber * (
        (far + head) / 2.0 / offered.edge
    )
    high = screw_of(motor.frame_size).button_height
    high += 0.0 if offered.bought is None else CLAMPED  # the terminal is under one of them
    return np.asarray(left + min(plates.motor, plates.frame) - max(high, motor.boss_height))


@dataclass(frozen=True, slots=True, kw_only=True)
class _Moved:
    shift: Array  # across the shaft
    lean: Array  # of the shaft towards the pull
    across: Array  # of the shaft, square to the pull
    pulley: Array
    force: Array  # across the shaft [N]


def _moved(
    tension: float, motor: Motor, offered: DamperBatch, plates: Plates, wedge: Array
) -> _Moved:
    """Return the nominal motion under the belts' pull and the motor's weight."""
    shaft = AXES[motor.axis] * float(motor.points)
    pull = float(shaft_pull(tension, motor.wrap)) * np.array(motor.pull)
    weight = np.array([0.0, 0.0, -motor.mass * G])
    to_belt = (
        motor.pulley_standoff + motor.belt_offset + plates.frame + wedge + offered.rubber / 2.0
    )
    to_body = plates.motor + offered.rubber / 2.0 + motor.body_length / 2.0
    force = pull + weight
    across = force - (force @ shaft) * shaft
    moment = to_belt[:, None] * np.cross(shaft, pull) - to_body[:, None] * np.cross(shaft, weight)
    turn = moment / offered.tilt[:, None]
    shift = across / offered.shear[:, None]
    pulley = shift + np.cross(turn, to_belt[:, None] * shaft)
    side = np.cross(shaft, np.array(motor.pull))
    lean = turn @ side
    return _Moved(
        shift=np.linalg.norm(shift, axis=1),
        lean=lean,
        across=np.linalg.norm(turn - lean[:, None] * side, axis=1),
        pulley=np.linalg.norm(pulley, axis=1),
        force=np.full(len(offered), float(np.linalg.norm(across))),
    )


def _worst(moved: _Moved, factor: float) -> Array:
    """Return the whole tilt (n,) at `factor` times the nominal give [rad]."""
    return factor * np.hypot(moved.lean, moved.across)


def _rise(motor: Motor, angle: Array) -> Array:
    """Return by how much wedges are thicker at their thick edge than at the shaft (n,) [m]."""
    return np.asarray(np.tan(np.maximum(angle, 0.0)) * wedge_reach(motor.frame_size, motor.pull))


def _wedge(layer: float, motor: Motor, angle: Array) -> Array:
    """Return wedges' thickness at the shaft (n,) [m], whole layers, with an edge that prints."""
    thick = WEDGE_EDGE + _rise(motor, angle)
    # as isolator.design.quantise_up, for arrays
    layers = np.maximum(np.ceil(thick / layer - 1e-9), 1.0)
    return np.where(angle > 0, np.round(layers * layer, 9), 0.0)


def stopped_by(
    task: MotorTask, motor: Motor, offered: DamperBatch, found: LoadedDamper, tallest: float
) -> NDArray[np.intp]:
    """Return for every damper the first of `RULES` that it breaks, −1 where it holds all.

    `tallest` [m] is the stack that the motor's shaft allows. Where the motor names a damper, rules
    `TOLD` by its checks stop nothing.
    """
    made = made_of(task.stock, offered)
    most = most_travel(motor.frame_size, task.print.hole_compensation, made)
    broken = np.stack(
        [
            found.stack > tallest + 1e-9,
            found.tilt_left > task.stock.tilt_limit,
            found.edge_strain > offered.material.strain_limit.value,
            (found.shear_stress > SHEAR_STRESS) | (found.shear_strain > SHEAR_STRAIN),
            (found.clearance < found.least_clearance) | (found.travel > most),
        ]
    )
    if motor.mount:
        broken[list(TOLD)] = False
    return np.where(broken.any(axis=0), broken.argmax(axis=0), -1)
