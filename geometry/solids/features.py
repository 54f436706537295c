"""Solids that parts are made of: prisms, holes, hexagons, scribed grooves [mm]."""

from __future__ import annotations

import math
from typing import Any

import cadquery as cq
from OCP.TopLoc import TopLoc_Location

from geometry.solids import booleans
from geometry.solids.outline import Outline, disc

MARK_DEPTH = 0.4  # of the scribed line that shows where a pad goes [mm]
RELIEF = 0.6  # by which a hole opens towards the bed, against the first layer's spread [mm]
_PAST = 1.0  # cutters stand this far past a face so that no skin is left [mm]


def prism(outline: Outline, low: float, high: float, chamfer: float = 0.0) -> Any:
    """Return the outline raised from `low` to `high` [mm].

    With `chamfer` [mm] the lowest edge is drawn in at 45 degrees against the first layer's spread.
    """
    top = cq.Solid.extrudeLinear(
        outline.wire(low + chamfer), [], cq.Vector(0, 0, high - low - chamfer)
    )
    if chamfer == 0:
        return top
    foot = cq.Solid.makeLoft([outline.grown(-chamfer).wire(low), outline.wire(low + chamfer)], True)
    return booleans.fused(foot, top).clean()


def hole(diameter: float, low: float, high: float, x: float = 0.0, y: float = 0.0) -> Any:
    """Return the round cutter for a vertical hole at (x, y) from `low` to `high` [mm]."""
    return cq.Solid.makeCylinder(diameter / 2, high - low, cq.Vector(x, y, low))


def relief(outline: Outline, depth: float = RELIEF, x: float = 0.0, y: float = 0.0) -> Any:
    """Return the cutter that opens a hole about (x, y) at 45 degrees to the bed at z = 0 [mm]."""
    wide = outline.grown(depth + _PAST)
    if outline.core_x == 0 and outline.core_y == 0:
        cutter = cone(2 * wide.offset, 2 * outline.offset, -_PAST, depth)
    else:
        cutter = cq.Solid.makeLoft([wide.wire(-_PAST), outline.wire(depth)], True)
    return cutter.moved(cq.Location(cq.Vector(x, y, 0)))


def relief_volume(outline: Outline, depth: float = RELIEF) -> float:
    """Return what such a cutter takes beside the hole itself [mm³]: the rim's length grows."""
    around = 2 * (outline.core_x + outline.core_y + math.pi * outline.offset)
    return around * depth**2 / 2 + math.pi * depth**3 / 3


def cone(lower: float, upper: float, low: float, high: float) -> Any:
    """Return the cutter for a countersink: diameters `lower` and `upper` at heights [mm]."""
    return cq.Solid.makeCone(lower / 2, upper / 2, high - low, cq.Vector(0, 0, low))


def hexagon(across_flats: float, low: float, high: float, x: float = 0.0, y: float = 0.0) -> Any:
    """Return a hexagonal prism at (x, y), flats square to y, from `low` to `high` [mm]."""
    radius = across_flats / math.sqrt(3)
    corners = [
        cq.Vector(
            x + radius * math.cos(math.radians(60 * i)),
            y + radius * math.sin(math.radians(60 * i)),
            low,
        )
        for i in range(6)
    ]
    return cq.Solid.extrudeLinear(
        cq.Wire.makePolygon(corners, close=True), [], cq.Vector(0, 0, high - low)
    )


def hexagon_area(across_flats: float) -> float:
    """Return the area of a hexagon [mm²] from its width across flats [mm]."""
    return math.sqrt(3) / 2 * across_flats**2


def mark(outline: Outline, width: float, top: float) -> tuple[Any, float]:
    """Return the cutter and volume of a groove just outside `outline`, from the face at `top`.

    The groove shows where the pad is to be glued and takes what glue is pressed out; it lies
    outside the pad, so it takes nothing from the loaded face.
    """
    outer = outline.grown(width)
    ring = booleans.cut(prism(outer, top - MARK_DEPTH, top), prism(outline, top - MARK_DEPTH, top))
    return ring, (outer.area - outline.area) * MARK_DEPTH


def cut_all(solid: Any, *cutters: Any) -> Any:
    """Return the one solid that is left of `solid` after all cuts."""
    return one_solid(booleans.cut(solid, *cutters)) if cutters else one_solid(solid)


def one_solid(shape: Any) -> Any:
    """Unwrap a shape that holds exactly one solid; other shapes come back as they are."""
    solids = shape.Solids()
    return solids[0] if len(solids) == 1 else shape


def unplaced(solid: Any) -> Any:
    """Return the solid where it was drawn, however it has been moved since."""
    return cq.Shape.cast(solid.wrapped.Located(TopLoc_Location()))


def hole_area(diameter: float) -> float:
    """Return the area of a round hole [mm²]."""
    return disc(diameter).area
