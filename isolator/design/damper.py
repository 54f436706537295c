"""The drawing sheet of a motor damper, and the room that its parts leave each other [m].

Local frame of a damper: z along the shaft, from the motor to the pulley, 0 at the motor's face;
the motor-side plate, the rubber, the frame-side plate, the wedge where there is one, then the
bracket. The motor's two screws sit on the diagonal x = y, the frame's two on x = −y, so that no
screw goes through the rubber from plate to plate.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from isolator.design.faceplates import FACEPLATES, screw_of

DAMPER_SHAPES = ("ring", "pads")

RECESS = 0.3e-3  # head below the face that the rubber is glued to
FLOOR = 1.5e-3  # least plate under a head
POCKET_PLAY = 0.2e-3  # on a pocket's diameter or flats, besides the hole compensation
PILOT_PLAY = 0.4e-3  # on the diameter of the hole round the motor's boss
GLUE_EDGE = 0.4e-3  # rubber stays this far from every edge of a plate's face
POCKET_WALL = 1.6e-3  # least wall outside a pocket
FREE = 0.3e-3  # what is left between a screw and the far plate at full travel


@dataclass(frozen=True, slots=True, kw_only=True)
class MotorDamper:
    """Two plates with rubber bonded between them, under one belt motor [m]."""

    name: str  # the motor's name
    frame_size: int  # 14, 17, 23
    position: tuple[float, float, float]  # of the motor body's centre as built now
    axis: str  # "x" | "y" | "z", of the shaft
    points: int  # 1: the shaft points along the axis, -1: against it
    body: float  # length of the motor's body
    shaft: float  # length of the shaft from the motor's face
    pull: tuple[float, float, float]  # unit vector of the belts' pull on the shaft
    shape: str  # "ring" | "pads"
    first: float  # ring: outer diameter; pads: length across the radius
    second: float  # ring: inner diameter; pads: width along the radius
    circle: float  # pads: distance of a pad's middle from the shaft; ring: 0
    rubber: float  # thickness of the rubber, all of it
    material: str  # the card's id
    cast: bool  # cast in a mould rather than cut from sheet
    motor_plate: float  # thickness
    frame_plate: float  # thickness
    wedge: float  # thickness at the shaft's axis, 0 for none
    wedge_angle: float  # [rad]
    bracket: float  # thickness of the printer's bracket
    travel: float  # farthest that one plate moves sideways against the other
    motor_screw: float  # length of each of the two screws into the motor
    frame_screw: float  # length of each of the two screws through the bracket
    pulley_spacer: float  # height
    bore: float  # shaft diameter
    outer: float  # outer diameter of the pulley spacer
    filament: str  # of the plates and the wedge


def stack_height(damper: MotorDamper) -> float:
    """Return by how much the motor is moved back along its shaft's axis [m]."""
    return damper.motor_plate + damper.rubber + damper.frame_plate + damper.wedge


def outline_side(frame_size: int) -> float:
    """Return the side of the square plates [m]: the motor's body, or what the pockets need.

    >>> round(outline_side(23), 5)
    0.05865
    """
    face, screw = FACEPLATES[frame_size], screw_of(frame_size)
    return max(face.body, face.bolt_square + 2.0 * (pocket_radius(screw.flats) + POCKET_WALL))


def pocket_radius(flats: float) -> float:
    """Return the corner radius of a hexagon pocket for a head of width `flats` [m]."""
    return (flats + POCKET_PLAY) / math.sqrt(3.0)


def least_motor_plate(frame_size: int) -> float:
    """Return the least thickness of a motor-side plate [m]: head, recess, floor and boss."""
    head = screw_of(frame_size).button_height
    return max(head + RECESS + FLOOR, FACEPLATES[frame_size].pilot_height + RECESS)


def least_frame_plate(frame_size: int) -> float:
    """Return the least thickness of a frame-side plate [m]: head, recess and floor."""
    return screw_of(frame_size).hexagon_height + RECESS + FLOOR


def ring_room(frame_size: int, compensation: float) -> tuple[float, float]:
    """Return the largest outer and the smallest inner diameter of a rubber ring [m].

    Outside it stays clear of the screws' pockets, inside of the hole round the boss.
    `compensation` [m] is what the user's printer adds to holes.
    """
    face = FACEPLATES[frame_size]
    pocket = pocket_radius(screw_of(frame_size).flats) + compensation / 2.0
    outer = face.bolt_circle - 2.0 * (pocket + GLUE_EDGE)
    return outer, face.pilot + PILOT_PLAY + compensation + 2.0 * GLUE_EDGE


def pad_room(frame_size: int, compensation: float) -> tuple[float, float, float]:
    """Return (longest pad across the radius, nearest inner edge, farthest outer edge) [m].

    Four pads lie at the middles of the plates' sides, between the pockets at the corners; edges
    are distances from the shaft's axis along the radius.
    """
    face = FACEPLATES[frame_size]
    pocket = pocket_radius(screw_of(frame_size).flats) + compensation / 2.0
    nearest = ring_room(frame_size, compensation)[1] / 2.0
    half = min(face.bolt_square / 2.0 - pocket - GLUE_EDGE, nearest - GLUE_EDGE)
    return 2.0 * half, nearest, outline_side(frame_size) / 2.0 - 2.0 * GLUE_EDGE
