"""All feet and motors in their places about the outline of the printer's frame [mm]."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

import cadquery as cq

from geometry.feet.ball_foot import ball_solid
from geometry.feet.bought import bought_bodies
from geometry.feet.buffer_foot import mount_solid
from geometry.feet.slab import slab_bodies
from geometry.motors.damper_in_place import damper_bodies
from geometry.solids import booleans, features
from geometry.solids.outline import pad_outlines
from geometry.solids.part import Body, Part, Placement, mm
from isolator.design import Design, Foot
from isolator.design.naming import slug

COLOURS = {
    "cup": (0.36, 0.58, 0.84),
    "plate": (0.36, 0.58, 0.84),
    "sole": (0.56, 0.74, 0.92),
    "cover": (0.74, 0.84, 0.95),
    "plug": (0.66, 0.67, 0.70),
    "socket": (0.66, 0.67, 0.70),
    "key": (0.88, 0.89, 0.90),
    "tread": (0.93, 0.62, 0.32),
    "lip": (0.36, 0.58, 0.84),
    "saw-guide": (0.74, 0.84, 0.95),
    "slab": (0.80, 0.79, 0.76),
    "coupon": (0.74, 0.84, 0.95),
    "mount": (0.36, 0.58, 0.84),
    "foot": (0.93, 0.62, 0.32),
    "motor-plate": (0.66, 0.67, 0.70),
    "pulley-spacer": (0.78, 0.79, 0.81),
    "pulley-gauge": (0.74, 0.84, 0.95),
    "pad": (0.96, 0.77, 0.36),
    "damper-motor-plate": (0.36, 0.58, 0.84),
    "damper-frame-plate": (0.56, 0.74, 0.92),
    "damper-wedge": (0.55, 0.78, 0.62),
    "damper-mould": (0.74, 0.84, 0.95),
    "damper-drill-template": (0.74, 0.84, 0.95),
    "rubber": (0.96, 0.77, 0.36),
    "motor": (0.50, 0.52, 0.55),
    "screw": (0.82, 0.83, 0.85),
    "nut": (0.82, 0.83, 0.85),
    "terminal": (0.86, 0.60, 0.38),
    "bracket": (0.72, 0.73, 0.75),
    "pulley": (0.88, 0.89, 0.90),
}
"""Colour of each role, red, green, blue from 0 to 1."""

FRAME_COLOUR = (0.5, 0.5, 0.5)
FRAME_BAR = 10.0  # thickness of the bars that stand for the printer [mm]


class Placed(NamedTuple):
    """One solid in its place [mm], under its own name and that of what it is a copy of."""

    name: str
    product: str
    colour: tuple[float, float, float]
    solid: Any


def placed(solid: Any, place: Placement) -> Any:
    """Return the solid rolled and moved from the print bed to its place."""
    turn = cq.Location(cq.Vector(0, 0, 0), cq.Vector(1, 0, 0), 180.0 if place.turned else 0.0)
    return solid.moved(cq.Location(cq.Vector(place.x, place.y, place.z)) * turn)


def pad_solid(foot: Foot) -> Any:
    """Return the unloaded pad about the z axis, its upper face `cap` below z = 0."""
    if foot.pad.outline.halved:
        return ball_solid(foot)
    if foot.ends is not None:
        return mount_solid(foot)
    outer, inner = pad_outlines(foot.pad)
    top = -mm(foot.cap)
    low = top - mm(foot.pad.thickness)
    solid = features.prism(outer, low, top)
    if inner is not None:
        solid = features.cut_all(solid, features.prism(inner, low - 1.0, top + 1.0))
    return solid


def bodies(design: Design, parts: list[Part]) -> list[Body]:
    """Return every placed copy of every part, and the pads of the cup feet, as bodies."""
    found = [
        Body(
            name=f"{part.name}-{number}",
            owner=part.owner,
            role=part.role,
            solid=placed(part.solid, place),
        )
        for part in parts
        for number, place in enumerate(part.places, start=1)
    ]
    for foot in design.feet:
        if foot.build.soft_body:
            continue
        pad = pad_solid(foot)
        found += [
            Body(
                name=f"{slug(foot.name, 'pad')}-{number}",
                owner=foot.name,
                role="pad",
                solid=placed(pad, Placement(x=mm(x), y=mm(y), z=-mm(foot.lift), turned=False)),
            )
            for number, (x, y) in enumerate(foot.positions, start=1)
        ]
    return [*found, *slab_bodies(design)]


def frame_outline(design: Design) -> Any:
    """Return the printer's outside as one solid of bars along its edges, underside at z = 0."""
    sides = tuple(mm(side) for side in design.frame_size)
    bar = min(FRAME_BAR, min(sides) / 4)
    solid = _block(sides, (0.0, 0.0, sides[2] / 2))
    for axis in range(3):
        window = tuple(side + 2.0 if i == axis else side - 2 * bar for i, side in enumerate(sides))
        solid = booleans.cut(solid, _block(window, (0.0, 0.0, sides[2] / 2)))
    return features.one_solid(solid)


def _block(sides: tuple[float, ...], middle: tuple[float, float, float]) -> Any:
    corner = cq.Vector(*(m - side / 2 for m, side in zip(middle, sides, strict=True)))
    return cq.Solid.makeBox(*sides, corner)


def assembled(design: Design, parts: list[Part]) -> list[Placed]:
    """Return all feet and motors in their places with all that holds them, and the printer's
    outline, named and coloured."""
    placed_motors = [
        body for damper in design.motor_dampers for body in damper_bodies(damper, design.print)
    ]
    screwed = [body for foot in design.feet for body in bought_bodies(foot, design.print)]
    found = [
        Placed(
            name=body.name,
            product=re.sub(r"-\d+$", "", body.name),
            colour=COLOURS[body.role],
            solid=body.solid,
        )
        for body in (*bodies(design, parts), *screwed, *placed_motors)
    ]
    outline = Placed(
        name="printer-outline",
        product="printer-outline",
        colour=FRAME_COLOUR,
        solid=frame_outline(design),
    )
    return [*found, outline]
