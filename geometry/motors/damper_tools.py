"""Printed tools for a motor damper: the mould for its rubber, the drill template [mm]."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache
from typing import Any

import cadquery as cq

from geometry.motors.damper_plates import OVER, plate_outline, screw_at
from geometry.solids import booleans, features
from geometry.solids.outline import Outline, chamfered_volume, disc
from geometry.solids.part import Part, layer_notes, mm
from isolator.design import PrintSettings, quantise_up
from isolator.design.damper import MotorDamper, poured
from isolator.design.naming import slug
from isolator.design.plate_room import boss_hole

FILM = 0.1  # release film between rubber and mould [mm]
RIM = 4.0  # least wall round a cavity and between two [mm]
MOULD_FLOOR = 2.0  # [mm]
MOULD_CORNER = 3.0  # [mm]
DRILL = 3.0  # diameter of the drill that the template guides [mm]
DRILL_PLAY = 0.1  # of its hole [mm]
GUIDED = 3.0  # drill diameters over which it is guided; common practice, no source
CUT_CORNER = 6.0  # leg of the corners that are cut off next to the frame's screws [mm]


def mould(damper: MotorDamper, settings: PrintSettings) -> Part:
    """Return the open mould: one ring, or four pads side by side, flush with its rim."""
    name = slug(damper.name, "damper-mould")
    floor = mm(quantise_up(MOULD_FLOOR / 1000.0, settings.layer))
    height = floor + FILM + mm(damper.rubber)
    cutters, area, size = _cavity(damper, floor, height)
    outline = Outline(
        core_x=size[0] - 2 * MOULD_CORNER, core_y=size[1] - 2 * MOULD_CORNER, offset=MOULD_CORNER
    )
    chamfer = mm(settings.first_layer_chamfer)
    return Part(
        name=name,
        owner=damper.name,
        role="damper-mould",
        quantity=1,
        solid=features.cut_all(features.prism(outline, 0.0, height, chamfer), *cutters),
        material=settings.material,
        orientation="as drawn: cavity up",
        notes=(
            f"for {damper.material}, {mm(damper.rubber):g} mm thick{_to_mix(damper)}: fill it a "
            "little over the rim and press it flush under a flat sheet with release film",
            f"sides and floor leave {FILM:g} mm for release film or wax; they have no draft, so "
            "grease them well",
            "how much the rubber shrinks as it cures is not allowed for",
            *layer_notes(settings.layer, mould=height),
        ),
        box=(*size, height),
        volume=chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height)
        - area * (height - floor),
        loaded=(),
        places=(),
    )


def _to_mix(damper: MotorDamper) -> str:
    """Return how much both parts of the rubber weigh together, where that is known."""
    return f", {1e3 * poured(damper)[1]:.1f} g of both parts a pour" if damper.density > 0 else ""


def _cavity(
    damper: MotorDamper, floor: float, height: float
) -> tuple[list[Any], float, tuple[float, float]]:
    """Return the cavity's cutters, its area, and the widths of a mould with rims round it."""
    first, second = mm(damper.first), mm(damper.second)
    if damper.shape == "ring":
        wide = first + 2 * FILM
        size = (wide + 2 * RIM, wide + 2 * RIM)
        ring = features.prism(disc(wide), floor, height + OVER)
        core = disc(second - 2 * FILM)
        cutters = [booleans.cut(ring, features.prism(core, floor - OVER, height + 2 * OVER))]
        area = disc(wide).area - core.area
    else:
        pad = (first + 2 * FILM, second + 2 * FILM)
        size = (2 * pad[0] + 3 * RIM, 2 * pad[1] + 3 * RIM)
        cutters = [
            _block(pad, (x * (pad[0] + RIM) / 2, y * (pad[1] + RIM) / 2), floor, height + OVER)
            for x in (-1, 1)
            for y in (-1, 1)
        ]
        area = 4 * pad[0] * pad[1]
    return cutters, area, size


def drill_template(damper: MotorDamper, settings: PrintSettings) -> Part:
    """Return the template for the bracket's holes; corners by the frame's screws are cut off."""
    name = slug(damper.name, "damper-drill-template")
    return replace(_template(damper.frame_size, settings), name=name, owner=damper.name)


@lru_cache(maxsize=4)
def _template(frame_size: int, settings: PrintSettings) -> Part:
    """Return the template for all motors of one frame size."""
    outline, at = plate_outline(frame_size), screw_at(frame_size)
    height = mm(quantise_up(GUIDED * DRILL / 1000.0, settings.layer))
    boss = mm(boss_hole(frame_size, settings.hole_compensation))
    guide = DRILL + DRILL_PLAY + mm(settings.hole_compensation)
    mouths = (disc(boss), *4 * (disc(guide),))
    cutters = [features.hole(boss, -OVER, height + OVER)]
    cutters += [
        cutter
        for x in (-at, at)
        for y in (-at, at)
        for cutter in (
            features.hole(guide, -OVER, height + OVER, x, y),
            features.relief(disc(guide), x=x, y=y),
        )
    ]
    cutters.append(features.relief(disc(boss)))
    cutters += [_triangle(outline.size[0] / 2, turn, height) for turn in (1, -1)]
    # the corner's own rounding lies inside what is cut off
    corners = 2 * (CUT_CORNER**2 / 2 - (1 - math.pi / 4) * outline.offset**2)
    area = outline.area - corners - features.hole_area(boss) - 4 * features.hole_area(guide)
    return Part(
        name="",
        owner="",
        role="damper-drill-template",
        quantity=1,
        solid=features.cut_all(features.prism(outline, 0.0, height), *cutters),
        material=settings.material,
        orientation="as drawn: the face with the widened holes on the bed",
        notes=(
            "clamp its plain face to the bracket's motor side, centred by the boss's hole, and "
            f"drill {DRILL:g} mm through it; take it off and open each hole to its size; the two "
            "holes beside the cut corners are the damper's screws, the other two let the key "
            "through to the motor's",
        ),
        box=(*outline.size, height),
        volume=area * height - sum(features.relief_volume(each) for each in mouths),
        loaded=(),
        places=(),
    )


def _block(size: tuple[float, float], middle: tuple[float, float], low: float, high: float) -> Any:
    corner = cq.Vector(middle[0] - size[0] / 2, middle[1] - size[1] / 2, low)
    return cq.Solid.makeBox(size[0], size[1], high - low, corner)


def _triangle(half: float, turn: int, height: float) -> Any:
    """Return the cutter of the corner at x = −y; `turn` 1 for x > 0, −1 for x < 0."""
    far = half + OVER
    near = half - CUT_CORNER - OVER
    corners = [
        cq.Vector(turn * x, -turn * y, -OVER) for x, y in ((far, near), (far, far), (near, far))
    ]
    wire = cq.Wire.makePolygon(corners, close=True)
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(0, 0, height + 2 * OVER))
