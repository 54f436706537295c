"""Bought things that stand round a damper, simple and to size: screws, nuts, motor, pulley [mm].

None is made from these solids; they show where things are and prove that nothing meets. Threads
are plain cylinders, holes for them a hair wider.
"""

from __future__ import annotations

import math
from typing import Any

import cadquery as cq

from geometry.motors.motor_plate import CORNER
from geometry.solids import booleans, features
from geometry.solids.outline import Outline
from geometry.solids.part import mm
from isolator.design.damper import PILOT_PLAY
from isolator.design.faceplates import FACEPLATES
from isolator.design.plate_kinds import TOOTHED
from isolator.design.screws import Screw

HAIR = 0.02  # on the diameter of a hole that holds a thread [mm]
SPARE = 0.5  # free ground of a threaded hole [mm]
PULLEY = (16.0, 14.0)  # usual outside and length of a belt pulley [mm]; common practice, no source
BEARING_ROOM = 0.5  # between the pulley spacer and the boss round the bearing [mm]
BRACKET_EDGE = 6.0  # bracket shown round the plates [mm]


def button_screw(screw: Screw, length: float, seat: float) -> Any:
    """Return a button-head screw that points down, its head standing on z = `seat`."""
    head = cq.Solid.makeCylinder(mm(screw.button) / 2, mm(screw.button_height), _up(seat))
    return _one(head, _shank(screw, length, seat))


def hexagon_screw(screw: Screw, length: float, seat: float) -> Any:
    """Return a hexagon-head screw that points down, its head standing on z = `seat`."""
    head = features.hexagon(mm(screw.flats), seat, seat + mm(screw.hexagon_height))
    return _one(head, _shank(screw, length, seat))


def nut(screw: Screw, low: float) -> Any:
    """Return a washer at z = `low` and a nut on it, as one solid."""
    middle = low + mm(screw.washer_height)
    washer = cq.Solid.makeCylinder(mm(screw.washer) / 2, mm(screw.washer_height), _up(low))
    body = features.hexagon(mm(screw.flats), middle, middle + mm(screw.nut_height))
    thread = features.hole(mm(screw.thread) + HAIR, low - 1.0, middle + mm(screw.nut_height) + 1.0)
    return features.one_solid(booleans.cut(booleans.fused(washer, body), thread))


def toothed_nut(screw: Screw, top: float) -> Any:
    """Return a toothed washer that hangs under z = `top` and a nut under it, as one solid."""
    middle = top - mm(TOOTHED)
    low = middle - mm(screw.nut_height)
    washer = cq.Solid.makeCylinder(mm(screw.flats) / 2, mm(TOOTHED), _up(middle))
    body = features.hexagon(mm(screw.flats), low, middle)
    thread = features.hole(mm(screw.thread) + HAIR, low - 1.0, top + 1.0)
    return features.one_solid(booleans.cut(booleans.fused(washer, body), thread))


def terminal(wide: float, thick: float, hole: float) -> Any:
    """Return a ring terminal on z = 0, its tongue towards x > 0 > y."""
    ring = cq.Solid.makeCylinder(wide / 2, thick)
    tongue = cq.Solid.makeBox(1.4 * wide, wide / 3, thick, cq.Vector(0, -wide / 6, 0))
    tongue = tongue.rotate(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), -45.0)
    return features.one_solid(
        booleans.cut(booleans.fused(ring, tongue), features.hole(hole, -1.0, thick + 1.0))
    )


def motor(
    frame_size: int,
    body: float,
    shaft: tuple[float, float],
    depth: float,
    spacer: float,
    boss: tuple[float, float],
) -> Any:
    """Return a motor, its face at z = 0 and its shaft up: body, boss round the bearing, shaft.

    `shaft` is its diameter and length from the face, `depth` that of its four threaded holes,
    `spacer` the diameter of the pulley spacer's end, which stands on the bearing inside the boss,
    `boss` the boss's diameter and height. A motor with a flange has through holes in it and room
    for nuts behind.
    """
    face = FACEPLATES[frame_size]
    side, (pilot, high) = mm(face.body), boss
    square = Outline(core_x=side - 2 * CORNER, core_y=side - 2 * CORNER, offset=CORNER)
    at, flange = mm(face.bolt_square) / 2, mm(face.flange)
    if flange > 0:
        wide, depth = mm(face.screw_clearance), flange + 1.0
        case = features.prism(square, -flange, 0.0)
        rear = cq.Solid.makeCylinder(side / 2, body - flange, _up(-body))
        case = booleans.fused(case, rear)
    else:
        wide = mm(face.screw) + HAIR
        case = features.prism(square, -body, 0.0)
    bearing = min(spacer + 2 * BEARING_ROOM, pilot - 1.0)
    ring = booleans.cut(
        cq.Solid.makeCylinder(pilot / 2, high), features.hole(bearing, -1.0, high + 1.0)
    )
    axle = cq.Solid.makeCylinder(shaft[0] / 2, shaft[1])
    holes = [features.hole(wide, -depth, 1.0, x, y) for x in (-at, at) for y in (-at, at)]
    return features.one_solid(booleans.cut(booleans.fused(case, ring, axle), *holes))


def bracket(frame_size: int, side: float, thick: float) -> Any:
    """Return a piece of bracket on z = 0: four screw holes and one for the boss."""
    face = FACEPLATES[frame_size]
    at = mm(face.bolt_square) / 2
    core = side + 2 * BRACKET_EDGE - 2 * CORNER
    plate = features.prism(Outline(core_x=core, core_y=core, offset=CORNER), 0.0, thick)
    holes = [features.hole(mm(face.pilot) + mm(PILOT_PLAY), -1.0, thick + 1.0)]
    holes += [
        features.hole(mm(face.screw_clearance), -1.0, thick + 1.0, x, y)
        for x in (-at, at)
        for y in (-at, at)
    ]
    return features.cut_all(plate, *holes)


def pulley(bore: float, outer: float, low: float) -> Any:
    """Return the room that a belt pulley takes, from z = `low` up."""
    wide, long = PULLEY
    body = cq.Solid.makeCylinder(max(wide, outer) / 2, long, _up(low))
    return features.cut_all(body, features.hole(bore + HAIR, low - 1.0, low + long + 1.0))


def tilted(angle: float, x: float, y: float) -> Any:
    """Return the turn by `angle` [rad] that lowers what lies towards (x, y)."""
    return cq.Location(cq.Vector(0, 0, 0), cq.Vector(y, -x, 0), -math.degrees(angle))


def _shank(screw: Screw, length: float, seat: float) -> Any:
    return cq.Solid.makeCylinder(mm(screw.thread) / 2, length, _up(seat - length))


def _one(*solids: Any) -> Any:
    return features.one_solid(booleans.fused(*solids).clean())


def _up(z: float) -> Any:
    return cq.Vector(0, 0, z)
