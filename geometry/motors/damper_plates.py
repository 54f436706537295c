"""Printed plates of a motor damper: motor side, frame side, and the wedge [mm].

Each lies with the face that carries rubber (or the wedge's slope) up, so that no pocket hangs
over. Local frame and diagonals as in `isolator.design.damper`.
"""

from __future__ import annotations

import math
from typing import Any

import cadquery as cq

from geometry.motors.motor_plate import CORNER
from geometry.solids import features
from geometry.solids.outline import Outline, chamfered_volume, disc
from geometry.solids.part import Part, layer_notes, mm
from isolator.design import PrintSettings
from isolator.design.damper import (
    BOND_RING,
    POCKET_PLAY,
    RECESS,
    MotorDamper,
    bond_screw,
    frame_floor,
    local_pull,
    motor_floor,
)
from isolator.design.faceplates import FACEPLATES, screw_of
from isolator.design.naming import slug
from isolator.design.plate_room import boss_hole, outline_side, pocket_radius, wedge_reach

THIN_EDGE = 0.6  # least thickness of a wedge [mm]
POCKET_TURN = 15.0  # of hexagons, so that the plate is its own mirror image [°]
OVER = 1.0  # cutters stand this far past a face so that no skin is left [mm]


def plate_outline(frame_size: int) -> Outline:
    """Return the outline that all plates of a damper share."""
    core = mm(outline_side(frame_size)) - 2 * CORNER
    return Outline(core_x=core, core_y=core, offset=CORNER)


def screw_at(frame_size: int) -> float:
    """Return how far screws stand from the middle along x and along y."""
    return mm(FACEPLATES[frame_size].bolt_square) / 2


def key_hole(damper: MotorDamper, settings: PrintSettings) -> float:
    """Return the diameter of a hole that lets the key to a motor screw at full travel."""
    wide = mm(screw_of(damper.frame_size).key_hole) + 2 * mm(damper.travel)
    return wide + mm(settings.hole_compensation)


def bond_radius(damper: MotorDamper, settings: PrintSettings) -> float:
    """Return the radius of the free corner round the bonding screw: as far as a pocket reaches."""
    flats = screw_of(damper.frame_size).flats
    return mm(pocket_radius(flats)) + mm(settings.hole_compensation) / 2


def motor_side(damper: MotorDamper, settings: PrintSettings) -> Part:
    """Return the plate on the motor: two button heads sunk in it, one corner free for the bond."""
    name, height = slug(damper.name, "damper-motor-plate"), mm(damper.motor_plate)
    screw, at = screw_of(damper.frame_size), screw_at(damper.frame_size)
    more = mm(settings.hole_compensation)
    floor, depth = mm(motor_floor(damper)), mm(screw.button_height + RECESS)
    clearance = mm(FACEPLATES[damper.frame_size].screw_clearance) + more
    pocket = mm(screw.button + POCKET_PLAY) + more
    boss = mm(boss_hole(damper.frame_size, settings.hole_compensation))
    radius = bond_radius(damper, settings)
    cutters = [
        features.hole(boss, -OVER, height + OVER),
        corner_cutter(damper.frame_size, radius, height, at, -at),
    ]
    for x in (-at, at):
        cutters.append(features.hole(clearance, -OVER, floor + OVER, x, x))
        cutters.append(features.hole(pocket, floor, height + OVER, x, x))
    mouths = [(boss, 0.0, 0.0, height), *((clearance, x, x, floor) for x in (-at, at))]
    opened, taken = _mouths(mouths)
    cutters += opened
    holes = features.hole_area(boss) * height + taken
    holes += 2 * (features.hole_area(clearance) * floor + features.hole_area(pocket) * depth)
    outline = plate_outline(damper.frame_size)
    eye = math.floor(20 * mm(pocket_radius(screw.flats))) / 10
    bond = f"M{mm(screw.thread):g}x{mm(bond_screw(damper)):g}"
    return _plate(
        damper,
        settings,
        name,
        "damper-motor-plate",
        height,
        cutters,
        volume=chamfered_volume(
            lambda inset: outline.grown(-inset).area - corner_area(outline, inset, at, radius),
            mm(settings.first_layer_chamfer),
            height,
        )
        - holes,
        notes=(
            f"the free corner is for the bonding wire: ring terminal up to {mm(BOND_RING):g} mm "
            f"thick and {eye:g} mm wide, on the motor's bare face under a screw "
            f"{bond}; scrape off paint, and leave the wire slack",
        ),
    )


def frame_side(damper: MotorDamper, settings: PrintSettings) -> Part:
    """Return the plate on the bracket: two hexagon heads sunk in it, two holes for the key."""
    name, height = slug(damper.name, "damper-frame-plate"), mm(damper.frame_plate)
    screw, at = screw_of(damper.frame_size), screw_at(damper.frame_size)
    floor, depth = mm(frame_floor(damper)), mm(screw.hexagon_height + RECESS)
    flats = mm(screw.flats + POCKET_PLAY) + mm(settings.hole_compensation)
    cutters, area, taken = _through(damper, settings, floor, floor)
    cutters += [_turned(features.hexagon(flats, floor, height + OVER), x, -x) for x in (-at, at)]
    clearance = _clearance(damper, settings)
    holes = area * height + 2 * depth * (features.hexagon_area(flats) - clearance) + taken
    outline = plate_outline(damper.frame_size)
    # through holes reach past the pockets too, so all cuts are of one piece
    return _plate(
        damper,
        settings,
        name,
        "damper-frame-plate",
        height,
        cutters,
        volume=chamfered_volume(
            lambda inset: outline.grown(-inset).area, mm(settings.first_layer_chamfer), height
        )
        - holes,
        notes=(
            "hexagon heads go in from the rubber side, before gluing; the two plain holes let "
            "the key through to the motor's screws",
        ),
    )


def _turned(pocket: Any, x: float, y: float) -> Any:
    """Return a pocket about the z axis turned by `POCKET_TURN` and moved to (x, y)."""
    return pocket.moved(cq.Location(cq.Vector(x, y, 0), cq.Vector(0, 0, 1), POCKET_TURN))


def wedge_slope(damper: MotorDamper) -> float:
    """Return by how much the wedge is thicker at its thick edge than in the middle [mm]."""
    return math.tan(damper.wedge_angle) * mm(wedge_reach(damper.frame_size, local_pull(damper)))


def wedge(damper: MotorDamper, settings: PrintSettings) -> Part:
    """Return the plate that gets thinner to where the belts pull, between frame side and bracket.

    Its flat face lies on the frame-side plate and on the print bed, its slope on the bracket.
    """
    name, middle = slug(damper.name, "damper-wedge"), mm(damper.wedge)
    rise, chamfer = wedge_slope(damper), mm(settings.first_layer_chamfer)
    thin = middle - rise
    cutters, area, taken = _through(damper, settings, middle + rise, thin)
    cutters.append(_above(damper, middle))
    own = ", on a plate of its own" if settings.wedge_layer > 0 else ""
    outline = plate_outline(damper.frame_size)
    return _plate(
        damper,
        settings,
        name,
        "damper-wedge",
        middle + rise,
        cutters,
        # all sections are alike turned by half, so the slope gives and takes the same
        volume=chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, middle)
        - area * middle
        - taken,
        notes=(
            f"{thin:.2f} mm thick at its thin edge, {middle + rise:.2f} mm at its thick one; the "
            "thin edge goes to the side that the belts pull to, the slope against the bracket",
            f"print it in layers of {mm(_wedge_layer(settings)):g} mm{own}: its slope comes out in "
            f"{_steps(rise, settings)} steps",
        ),
    )


def _wedge_layer(settings: PrintSettings) -> float:
    return settings.wedge_layer or settings.layer


def _steps(rise: float, settings: PrintSettings) -> int:
    return math.floor(2.0 * rise / mm(_wedge_layer(settings)) + 1e-6)


def _clearance(damper: MotorDamper, settings: PrintSettings) -> float:
    wide = mm(FACEPLATES[damper.frame_size].screw_clearance) + mm(settings.hole_compensation)
    return features.hole_area(wide)


def mouth_depth(floor: float) -> float:
    """Return how far a hole through a floor opens towards the bed [mm]: a third of it at most."""
    return min(features.RELIEF, floor / 3)


def _mouths(holes: list[tuple[float, float, float, float]]) -> tuple[list[Any], float]:
    """Return what opens holes (diameter, x, y, floor) towards the bed, and what that takes."""
    cutters, taken = [], 0.0
    for wide, x, y, floor in holes:
        cutters.append(features.relief(disc(wide), mouth_depth(floor), x, y))
        taken += features.relief_volume(disc(wide), mouth_depth(floor))
    return cutters, taken


def _through(
    damper: MotorDamper, settings: PrintSettings, height: float, floor: float
) -> tuple[list[Any], float, float]:
    """Return the cutters that frame plate and wedge share, their area, what their mouths take.

    `floor` is the least that is left round any of them [mm].
    """
    at = screw_at(damper.frame_size)
    boss = mm(boss_hole(damper.frame_size, settings.hole_compensation))
    wide = mm(FACEPLATES[damper.frame_size].screw_clearance) + mm(settings.hole_compensation)
    key, tall = key_hole(damper, settings), mm(damper.frame_plate) + height + OVER
    cutters = [features.hole(boss, -OVER, tall)]
    for x in (-at, at):
        cutters.append(features.hole(key, -OVER, tall, x, x))
        cutters.append(features.hole(wide, -OVER, height + OVER, x, -x))
    area = features.hole_area(boss) + 2 * features.hole_area(key) + 2 * features.hole_area(wide)
    mouths = [(boss, 0.0, 0.0, floor), *((key, x, x, floor) for x in (-at, at))]
    opened, taken = _mouths([*mouths, *((wide, x, -x, floor) for x in (-at, at))])
    return [*cutters, *opened], area, taken


def _above(damper: MotorDamper, middle: float) -> Any:
    """Return the half space over the wedge's slope, as a block."""
    x, y = local_pull(damper)
    half = 2 * mm(outline_side(damper.frame_size))
    block = cq.Solid.makeBox(2 * half, 2 * half, half, cq.Vector(-half, -half, 0))
    turn = cq.Location(
        cq.Vector(0, 0, middle), cq.Vector(-y, x, 0), math.degrees(damper.wedge_angle)
    )
    return block.moved(turn)


def corner_cutter(frame_size: int, radius: float, height: float, x: float, y: float) -> Any:
    """Return the cutter that frees the corner round a screw at (x, y), `radius` off its axis."""
    at, far = screw_at(frame_size), mm(outline_side(frame_size))
    near = at - radius
    bend = radius * (1 - math.sqrt(0.5))

    def point(u: float, v: float) -> Any:
        return cq.Vector(math.copysign(u, x), math.copysign(v, y), -OVER)

    wire = cq.Wire.assembleEdges(
        [
            cq.Edge.makeLine(point(near, far), point(near, at)),
            cq.Edge.makeThreePointArc(
                point(near, at), point(near + bend, near + bend), point(at, near)
            ),
            cq.Edge.makeLine(point(at, near), point(far, near)),
            cq.Edge.makeLine(point(far, near), point(far, far)),
            cq.Edge.makeLine(point(far, far), point(near, far)),
        ]
    )
    return cq.Solid.extrudeLinear(wire, [], cq.Vector(0, 0, height + 2 * OVER))


def corner_area(outline: Outline, inset: float, at: float, radius: float) -> float:
    """Return what the free corner takes of an outline drawn in by `inset`."""
    drawn = outline.grown(-inset)
    square = (drawn.size[0] / 2 - (at - radius)) ** 2
    return square - (1 - math.pi / 4) * (radius**2 + drawn.offset**2)


def _plate(
    damper: MotorDamper,
    settings: PrintSettings,
    name: str,
    role: str,
    height: float,
    cutters: list[Any],
    volume: float,
    notes: tuple[str, ...],
) -> Part:
    outline = plate_outline(damper.frame_size)
    block = features.prism(outline, 0.0, height, mm(settings.first_layer_chamfer))
    up = "the slope up" if role == "damper-wedge" else "the rubber's face up"
    return Part(
        name=name,
        owner=damper.name,
        role=role,
        quantity=1,
        solid=features.cut_all(block, *cutters),
        material=damper.filament,
        orientation=f"as drawn: {up}",
        notes=(*notes, *layer_notes(settings.layer, plate=height))
        if role != "damper-wedge"
        else notes,
        box=(*outline.size, height),
        volume=volume,
        loaded=((height, 1),),
        places=(),
        layer=mm(settings.wedge_layer) if role == "damper-wedge" else 0.0,
    )
