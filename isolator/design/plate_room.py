"""The room on a damper's plates: for rubber between the screws, for screws that move [m]."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.design.damper import (
    FLOOR,
    FREE,
    GLUE_EDGE,
    PILOT_PLAY,
    PLATE_CORNER,
    POCKET_PLAY,
    POCKET_WALL,
    RECESS,
)
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.plate_kinds import (
    EAR_OFF,
    EAR_WALL,
    HEAD_PLAY,
    PLATE_KINDS,
    PRINTED,
    SHEETS,
)


def boss_hole(frame_size: int, compensation: float) -> float:
    """Return the diameter of the hole in both plates that lets the motor's boss through [m]."""
    return FACEPLATES[frame_size].pilot + PILOT_PLAY + compensation


def outline_side(frame_size: int) -> float:
    """Return the side of the square plates [m]: the motor's body, or what the pockets need.

    >>> round(outline_side(23), 5)
    0.05865
    """
    face, screw = FACEPLATES[frame_size], screw_of(frame_size)
    return max(face.body, face.bolt_square + 2.0 * (pocket_radius(screw.flats) + POCKET_WALL))


def wedge_reach(frame_size: int, pull: Sequence[float]) -> float:
    """Return how far a plate reaches along the belts' pull from the shaft's axis [m].

    `pull` are the parts of a unit vector across the shaft. A wedge is so much times the tangent of
    its angle thicker at its thick edge than in the middle, and as much thinner at its thin one.
    """
    side = outline_side(frame_size) / 2.0 - PLATE_CORNER
    return side * sum(abs(each) for each in pull) + PLATE_CORNER


def pocket_radius(flats: float) -> float:
    """Return the corner radius of a hexagon pocket for a head of width `flats` [m]."""
    return (flats + POCKET_PLAY) / math.sqrt(3.0)


def round_screw(frame_size: int, compensation: float, plates: str = PRINTED) -> float:
    """Return how far from a screw's axis a plate's face begins [m]: its pocket or free corner."""
    screw = screw_of(frame_size)
    if PLATE_KINDS[plates].sheet:
        return screw.button / 2.0 + HEAD_PLAY + FREE
    return pocket_radius(screw.flats) + compensation / 2.0


def ear(frame_size: int) -> tuple[float, float]:
    """Return how far the bonding wire's hole lies off a sheet's edge, and the ear's half width [m].

    The nut under it clears the motor's case, the head on it the frame-side plate's edge.
    """
    screw = screw_of(frame_size)
    off = max(screw.flats / math.sqrt(3.0) + EAR_OFF, screw.button / 2.0 + HEAD_PLAY + FREE)
    off = math.ceil(off * 1e4 - 1e-6) / 1e4  # in tenths
    return off, screw.clearance / 2.0 + EAR_WALL


def least_motor_plate(frame_size: int, plates: str = PRINTED) -> float:
    """Return the least thickness of a motor-side plate [m]: head, recess, floor and boss."""
    if PLATE_KINDS[plates].sheet:  # the boss goes on into the rubber's hole
        return SHEETS[0]
    head = screw_of(frame_size).button_height
    return max(head + RECESS + FLOOR, FACEPLATES[frame_size].pilot_height + RECESS)


def least_frame_plate(frame_size: int, plates: str = PRINTED) -> float:
    """Return the least thickness of a frame-side plate [m]: head, recess and floor."""
    if PLATE_KINDS[plates].sheet:
        return SHEETS[0]
    return screw_of(frame_size).hexagon_height + RECESS + FLOOR


def ring_room(frame_size: int, compensation: float, plates: str = PRINTED) -> tuple[float, float]:
    """Return the largest outer and the smallest inner diameter of a rubber ring [m].

    Outside it stays clear of the screws' pockets, inside of the hole round the boss.
    `compensation` [m] is what the user's printer adds to holes; a shop's sheet has none.
    """
    face = FACEPLATES[frame_size]
    compensation = 0.0 if PLATE_KINDS[plates].sheet else compensation
    pocket = round_screw(frame_size, compensation, plates)
    outer = face.bolt_circle - 2.0 * (pocket + GLUE_EDGE)
    return outer, boss_hole(frame_size, compensation) + 2.0 * GLUE_EDGE


def pad_room(
    frame_size: int, compensation: float, plates: str = PRINTED
) -> tuple[float, float, float]:
    """Return (longest pad across the radius, nearest inner edge, farthest outer edge) [m].

    Four pads lie at the middles of the plates' sides, between the pockets at the corners; edges
    are distances from the shaft's axis along the radius.
    """
    face = FACEPLATES[frame_size]
    pocket = round_screw(frame_size, compensation, plates)
    nearest = ring_room(frame_size, compensation, plates)[1] / 2.0
    half = min(face.bolt_square / 2.0 - pocket - GLUE_EDGE, nearest - GLUE_EDGE)
    return 2.0 * half, nearest, outline_side(frame_size) / 2.0 - 2.0 * GLUE_EDGE


def most_travel(frame_size: int, compensation: float, plates: str = PRINTED) -> float:
    """Return how far the plates may move against each other [m]: the key's holes bound it.

    They grow with the travel, and must stay clear of the rubber and of the plates' edge. Sheet
    has free corners instead.
    """
    if PLATE_KINDS[plates].sheet:
        return HEAD_PLAY
    face, screw = FACEPLATES[frame_size], screw_of(frame_size)
    beside = pocket_radius(screw.flats) + compensation / 2.0
    edge = outline_side(frame_size) / 2.0 - POCKET_WALL - face.bolt_square / 2.0
    return min(beside, edge) - (screw.key_hole + compensation) / 2.0
