"""A motor damper put together with its motor, screws and bracket, from motor to pulley [mm]."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Any

import cadquery as cq

from geometry.motors import damper_plates, hardware
from geometry.motors.bonding import in_corner, on_ear, on_screw
from geometry.motors.pulley_gauge import on_motor, pulley_gauge
from geometry.motors.pulley_spacer import pulley_spacer
from geometry.motors.sheet_plates import frame_sheet, motor_sheet
from geometry.solids import features
from geometry.solids.outline import Outline, disc
from geometry.solids.part import Part, mm
from isolator.design import MotorSpacer, PrintSettings
from isolator.design.damper import (
    BOND_RING,
    CLAMPED,
    MotorDamper,
    bond_screw,
    frame_floor,
    local_pull,
    motor_floor,
    stack_height,
)
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.naming import slug
from isolator.design.plate_room import outline_side


@dataclass(frozen=True, slots=True, kw_only=True)
class Piece:
    """One solid of the stack in the damper's own frame; `moves` with the motor on its rubber."""

    name: str
    role: str
    moves: bool
    solid: Any


def twin(damper: MotorDamper) -> MotorDamper:
    """Return the same damper under no name at the origin: what makes its solids, and no more."""
    return replace(
        damper,
        name="damper",
        position=(0.0, 0.0, 0.0),
        axis="z",
        points=1,
        pull=(*local_pull(damper), 0.0),
        material="",
        cast=False,
        bought="bought" if damper.bought else "",
        found="",
        mass=0.0,
    )


def spacer_of(damper: MotorDamper) -> MotorSpacer:
    """Return the pulley's spacer of a damper, with no plate beside it."""
    return MotorSpacer(
        name=damper.name,
        frame_size=damper.frame_size,
        height=0.0,
        pulley_spacer=damper.pulley_spacer,
        bore=damper.bore,
        outer=damper.outer,
        filament=damper.filament,
        nose=damper.nose,
        nose_height=damper.nose_height,
        boss=damper.boss,
        boss_height=damper.boss_height,
        gauge=damper.gauge,
    )


def stack_parts(damper: MotorDamper, settings: PrintSettings) -> tuple[Part, ...]:
    """Return the parts of the stack that are made, not verified: plates, wedge, spacer or gauge."""
    settings = settings.for_filament(damper.filament)
    own = (pulley_gauge if damper.gauge else pulley_spacer)(spacer_of(damper), settings)
    alike = twin(damper)
    made = [part for part in _plates(_level(alike), settings) if not (damper.bought and part.cut)]
    if damper.wedge > 0:
        made.append(_wedge(alike, settings))
    named = (replace(part, name=slug(damper.name, part.role), owner=damper.name) for part in made)
    return (*named, own)


def pieces(damper: MotorDamper, settings: PrintSettings) -> tuple[Piece, ...]:
    """Return everything in its place in the damper's own frame, unloaded, from motor to pulley."""
    return _pieces(twin(damper), settings.for_filament(damper.filament))


def gauge_piece(damper: MotorDamper, settings: PrintSettings) -> Piece:
    """Return the gauge on the bare motor, in the damper's own frame; it comes off again."""
    solid = on_motor(spacer_of(twin(damper)), settings.for_filament(damper.filament))
    return Piece(name="pulley-gauge-1", role="pulley-gauge", moves=True, solid=solid)


def slope(damper: MotorDamper) -> float:
    """Return by how much the bracket leans to the motor's face [rad]."""
    return damper.wedge_angle if damper.wedge > 0 else 0.0


def rubber_solids(damper: MotorDamper) -> list[Any]:
    """Return the ring or the four pads on z = 0."""
    first, second, thick = mm(damper.first), mm(damper.second), mm(damper.rubber)
    if damper.shape == "ring":
        outer, inner = (features.prism(disc(wide), 0.0, thick) for wide in (first, second))
        return [features.cut_all(outer, inner)]
    lying = features.prism(Outline(core_x=second, core_y=first, offset=0.0), 0.0, thick)
    out = cq.Location(cq.Vector(mm(damper.circle), 0, 0))
    return [
        lying.moved(cq.Location(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), 90.0 * turn) * out)
        for turn in range(4)
    ]


def _level(damper: MotorDamper) -> MotorDamper:
    """Return the same damper whatever stands on it: all that is under its wedge, and no more."""
    return replace(damper, pull=(0.0, 0.0, 0.0), wedge_angle=0.0, pulley_spacer=0.0)


@lru_cache(maxsize=8)
def _plates(level: MotorDamper, settings: PrintSettings) -> tuple[Part, Part]:
    if level.kind.sheet:
        return motor_sheet(level), frame_sheet(level)
    return damper_plates.motor_side(level, settings), damper_plates.frame_side(level, settings)


@lru_cache(maxsize=8)
def _wedge(damper: MotorDamper, settings: PrintSettings) -> Part:
    return damper_plates.wedge(damper, settings)


@lru_cache(maxsize=4)
def _pieces(damper: MotorDamper, settings: PrintSettings) -> tuple[Piece, ...]:
    found = [*_under(_level(damper), settings), *_on_slope(damper, settings)]
    if not damper.gauge:  # which has come off
        # it is printed nose up, and stands nose down on the motor
        over = cq.Location(cq.Vector(0, 0, mm(damper.pulley_spacer)), cq.Vector(1, 0, 0), 180.0)
        ring = pulley_spacer(spacer_of(damper), settings).solid.moved(over)
        found.append(Piece(name="pulley-spacer-1", role="pulley-spacer", moves=True, solid=ring))
    wheel = hardware.pulley(mm(damper.bore), mm(damper.outer), mm(damper.pulley_spacer))
    found.append(Piece(name="pulley", role="pulley", moves=True, solid=wheel))
    return tuple(found)


@lru_cache(maxsize=4)
def _under(level: MotorDamper, settings: PrintSettings) -> tuple[Piece, ...]:
    """Return what is under the wedge, from the motor to the frame-side plate."""
    motor_plate, frame_plate = (part.solid for part in _plates(level, settings))
    rubber = [_raised(solid, mm(level.motor_plate)) for solid in rubber_solids(level)]
    return (
        *_on_motor(level, settings, motor_plate),
        *(
            Piece(name=f"rubber-{number}", role="rubber", moves=False, solid=solid)
            for number, solid in enumerate(rubber, 1)
        ),
        *_on_frame(level, frame_plate),
    )


def _on_motor(damper: MotorDamper, settings: PrintSettings, plate: Any) -> list[Piece]:
    """Return the motor, the bonding terminal, the motor-side plate and the screws in the motor."""
    screw, face = screw_of(damper.frame_size), FACEPLATES[damper.frame_size]
    at, ring, seat = (
        damper_plates.screw_at(damper.frame_size),
        mm(BOND_RING),
        mm(motor_floor(damper)),
    )
    bond, long = mm(bond_screw(damper)), mm(damper.motor_screw)
    sheet = damper.kind.sheet
    depth = max(0.0 if sheet else bond - ring, long - seat) + hardware.SPARE
    dummy = hardware.motor(
        damper.frame_size,
        mm(damper.body),
        (mm(damper.bore), mm(damper.shaft)),
        depth,
        mm(damper.nose or damper.outer),
        (mm(damper.boss or face.pilot), mm(damper.boss_height or face.pilot_height)),
    )
    held = hardware.button_screw(screw, long, seat)
    lifted = cq.Location(cq.Vector(0, 0, mm(CLAMPED) if damper.bought else 0.0))
    if damper.bought:
        bonded = on_screw(damper)
    else:
        bonded = on_ear(damper) if sheet else in_corner(damper, settings)
    found = [
        ("motor", "motor", dummy),
        *bonded,
        ("damper-motor-plate-1", "damper-motor-plate", plate),
        ("motor-screw-1", "screw", _beside(held, at, at)),
        ("motor-screw-2", "screw", _beside(held, -at, -at).moved(lifted)),
    ]
    if face.flange > 0:
        # washer under the flange, nut under the washer
        under = cq.Location(cq.Vector(0, 0, -mm(face.flange)), cq.Vector(1, 0, 0), 180.0)
        held_at = ((at, at), (-at, -at), *(() if sheet else ((at, -at),)))
        behind = hardware.nut(screw, 0.0).moved(under)
        found += [
            (f"motor-nut-{number}", "nut", _beside(behind, x, y))
            for number, (x, y) in enumerate(held_at, 1)
        ]
    return [Piece(name=name, role=role, moves=True, solid=solid) for name, role, solid in found]


def _on_frame(damper: MotorDamper, plate: Any) -> list[Piece]:
    """Return the frame-side plate and its screws."""
    screw, at = screw_of(damper.frame_size), damper_plates.screw_at(damper.frame_size)
    over = _under_wedge(damper)
    # the plate is printed rubber side up: rolled about x = y its screws stay on their diagonal
    rolled = cq.Location(cq.Vector(0, 0, over), cq.Vector(1, 1, 0), 180.0)
    drawn_screw = hardware.button_screw if damper.kind.sheet else hardware.hexagon_screw
    held = drawn_screw(screw, mm(damper.frame_screw), mm(frame_floor(damper)))
    # its head lies as its pocket does
    turn = cq.Location(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), damper_plates.POCKET_TURN)
    held = held.moved(turn)
    found = [
        ("damper-frame-plate-1", "damper-frame-plate", plate.moved(rolled)),
        ("frame-screw-1", "screw", _beside(held, -at, at).moved(rolled)),
        ("frame-screw-2", "screw", _beside(held, at, -at).moved(rolled)),
    ]
    return [Piece(name=name, role=role, moves=False, solid=solid) for name, role, solid in found]


def _on_slope(damper: MotorDamper, settings: PrintSettings) -> list[Piece]:
    """Return the wedge, the bracket and the nuts."""
    screw, at = screw_of(damper.frame_size), damper_plates.screw_at(damper.frame_size)
    found = []
    if damper.wedge > 0:
        wedge = _raised(_wedge(damper, settings).solid, _under_wedge(damper))
        found.append(("damper-wedge-1", "damper-wedge", wedge))
    stack = mm(stack_height(damper))
    angle, (x, y) = slope(damper), local_pull(damper)
    side, thick = mm(outline_side(damper.frame_size)), mm(damper.bracket)
    leaning = cq.Location(cq.Vector(0, 0, stack)) * hardware.tilted(angle, x, y)
    plate = hardware.bracket(damper.frame_size, side, thick).moved(leaning)
    found.append(("bracket", "bracket", plate))
    rise, top = math.tan(angle), stack + thick / math.cos(angle)
    for number, turn in enumerate((1, -1), 1):
        low = top - rise * turn * at * (x - y) + rise * mm(screw.washer) / 2
        found.append(
            (f"frame-nut-{number}", "nut", _beside(hardware.nut(screw, low), turn * at, -turn * at))
        )
    return [Piece(name=name, role=role, moves=False, solid=solid) for name, role, solid in found]


def _under_wedge(damper: MotorDamper) -> float:
    """Return how high the wedge, or without one the bracket, stands over the motor's face."""
    return mm(damper.motor_plate + damper.rubber) + mm(damper.frame_plate)


def _beside(solid: Any, x: float, y: float) -> Any:
    return solid.moved(cq.Location(cq.Vector(x, y, 0)))


def _raised(solid: Any, z: float) -> Any:
    return solid.moved(cq.Location(cq.Vector(0, 0, z)))
