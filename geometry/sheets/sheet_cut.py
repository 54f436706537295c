"""What a shop cuts of sheet metal: the outline and the holes of a flat part, as DXF [mm]."""

from __future__ import annotations

from typing import Any

import cadquery as cq
import ezdxf
from ezdxf import units
from OCP.BRepTools import BRepTools_WireExplorer

from geometry.sheets.dxf import dxf_bytes
from geometry.solids.part import CannotDraw, Part
from geometry.solids.verify import bounds

CUT = "CUT"  # the only layer: whoever cuts needs no other line
FLAT = 1e-6  # [mm]


def cut_dxf(part: Part) -> bytes:
    """Return the DXF (R2010, millimetres) of a flat part, taken from its solid's lower face.

    Its outline is one closed polyline with arcs, each round hole a circle, all on `CUT`; nothing
    else is in the file. Raises CannotDraw where the part is not flat or a hole is not round.
    """
    lower = [
        face
        for face in part.solid.Faces()
        if face.geomType() == "PLANE" and abs(bounds(face)[5]) < FLAT
    ]
    if len(lower) != 1:
        raise CannotDraw(part.name, "sheet", f"{len(lower)} faces lie on the sheet's lower side")
    (face,) = lower
    return dxf_bytes(lambda: _document(part, face))


def _document(part: Part, face: Any) -> Any:
    document = ezdxf.new("R2010", setup=False)
    document.units = units.MM
    document.layers.add(CUT, color=7)
    space = document.modelspace()
    on = {"layer": CUT}
    space.add_lwpolyline(_polyline(face.outerWire()), "xyb", close=True, dxfattribs=on)
    for wire in face.innerWires():
        edges = wire.Edges()
        if len(edges) != 1 or edges[0].geomType() != "CIRCLE":
            raise CannotDraw(part.name, "sheet", "a hole in it is not round")
        centre = edges[0].arcCenter()
        space.add_circle((_clean(centre.x), _clean(centre.y)), edges[0].radius(), dxfattribs=on)
    return document


def _polyline(wire: Any) -> list[tuple[float, float, float]]:
    """Return the corners of a closed wire, each with the bulge of the edge that leaves it.

    A bulge is the tangent of a quarter of an arc's angle, positive anticlockwise.
    """
    walk, found = BRepTools_WireExplorer(wire.wrapped), []
    while walk.More():
        edge = cq.Edge(walk.Current())
        ends = (edge.startPoint(), edge.endPoint())
        first = cq.Vertex(walk.CurrentVertex()).Center()
        start, end = ends if (ends[0] - first).Length < (ends[1] - first).Length else ends[::-1]
        chord, to_middle = end - start, edge.positionAt(0.5) - start
        turn = chord.x * to_middle.y - chord.y * to_middle.x
        bulge = 0.0 if edge.geomType() == "LINE" else -2.0 * turn / chord.Length**2
        found.append((_clean(start.x), _clean(start.y), bulge))
        walk.Next()
    return found


def _clean(value: float) -> float:
    return round(value, 9) + 0.0
