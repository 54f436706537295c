"""Plates of a motor damper cut of sheet metal: motor side and frame side [mm].

Flat, with plain holes: heads lie on the sheet, and each plate's free corners let the other's
screws through. Local frame and diagonals as in `isolator.design.damper`.
"""

from __future__ import annotations

import math
from typing import Any

import cadquery as cq

from geometry.motors.damper_plates import (
    OVER,
    corner_area,
    corner_cutter,
    plate_outline,
    screw_at,
)
from geometry.solids import booleans, features
from geometry.solids.part import Part, mm
from isolator.design.damper import BOND_RING, MotorDamper, bond_screw
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.naming import slug
from isolator.design.plate_room import boss_hole, ear, outline_side, round_screw

CUT = "deburr every edge and hole: sheet metal cuts skin, and its burrs cut rubber and cable"


def motor_sheet(damper: MotorDamper) -> Part:
    """Return the plate on the motor, an ear with a hole for the bonding wire at its side.

    That of a bought damper has no ear, and is drawn to be seen alone.
    """
    if damper.bought:
        height = mm(damper.motor_plate)
        return _sheet(damper, "damper-motor-plate", height, turn=1, notes=())
    height, half = mm(damper.motor_plate), mm(outline_side(damper.frame_size)) / 2
    off, wide = (mm(each) for each in ear(damper.frame_size))
    screw = screw_of(damper.frame_size)
    hole = mm(screw.clearance)
    x = half + off
    tongue = cq.Solid.makeBox(off + OVER, 2 * wide, height, cq.Vector(half - OVER, -wide, 0))
    end = cq.Solid.makeCylinder(wide, height, cq.Vector(x, 0, 0))
    return _sheet(
        damper,
        "damper-motor-plate",
        height,
        turn=1,
        more=(tongue, end),
        holes=(features.hole(hole, -OVER, height + OVER, x, 0.0),),
        area=2 * wide * off + math.pi / 2 * wide**2 - features.hole_area(hole),
        long=off + wide,
        notes=(
            f"the ear is for the bonding wire: a screw M{mm(screw.thread):g}x"
            f"{mm(bond_screw(damper)):g} from the rubber's side, under it the ring terminal up to "
            f"{mm(BOND_RING):g} mm thick, a toothed washer and a nut, metal on bare metal",
            "alike from both faces: turn or roll it so that the ear lies where there is room",
        ),
    )


def frame_sheet(damper: MotorDamper) -> Part:
    """Return the plate on the bracket."""
    return _sheet(
        damper,
        "damper-frame-plate",
        mm(damper.frame_plate),
        turn=-1,
        notes=("its free corners let the key through to the motor's screws",),
    )


def _sheet(
    damper: MotorDamper,
    role: str,
    height: float,
    *,
    turn: int,
    more: tuple[Any, ...] = (),
    holes: tuple[Any, ...] = (),
    area: float = 0.0,
    long: float = 0.0,
    notes: tuple[str, ...],
) -> Part:
    """Return a plate with screws on the diagonal y = `turn`·x, the other two corners free.

    `more` and `holes` are what it has besides, `area` what they add and `long` by how much.
    """
    size, at = damper.frame_size, screw_at(damper.frame_size)
    outline, radius = plate_outline(size), mm(round_screw(size, 0.0, damper.plates))
    boss, clear = mm(boss_hole(size, 0.0)), mm(FACEPLATES[size].screw_clearance)
    cutters = [features.hole(boss, -OVER, height + OVER), *holes]
    for x in (-at, at):
        cutters.append(features.hole(clear, -OVER, height + OVER, x, turn * x))
        cutters.append(corner_cutter(size, radius, height, x, -turn * x))
    block = features.prism(outline, 0.0, height)
    if more:
        block = features.one_solid(booleans.fused(block, *more).clean())
    whole = outline.area - 2 * corner_area(outline, 0.0, at, radius) + area
    whole -= features.hole_area(boss) + 2 * features.hole_area(clear)
    wide, deep = outline.size
    return Part(
        name=slug(damper.name, role),
        owner=damper.name,
        role=role,
        quantity=1,
        solid=features.cut_all(block, *cutters),
        material=damper.plates,
        orientation=f"have it cut of {damper.plates} sheet, {height:g} mm, by the DXF file",
        notes=(*notes, CUT),
        box=(wide + long, deep, height),
        volume=whole * height,
        loaded=((height, 1),),
        places=(),
        cut=True,
    )
