"""Plane outlines: a rectangle, a point or a line, grown by an offset; their areas in closed form.

A disc is a point grown by its radius; a sheet rectangle is a rectangle grown by nothing; a pocket
that keeps the same gap all round a sharp-cornered pad is that rectangle grown by the gap.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import cadquery as cq

from geometry.solids.part import mm
from isolator.design import Foot, Pad


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """A core of `core_x` by `core_y` about the origin, grown by `offset` [mm]."""

    core_x: float
    core_y: float
    offset: float

    @property
    def size(self) -> tuple[float, float]:
        """Return the outside widths in x and y [mm]."""
        return self.core_x + 2 * self.offset, self.core_y + 2 * self.offset

    @property
    def area(self) -> float:
        """Return the enclosed area [mm²]."""
        a, b, o = self.core_x, self.core_y, self.offset
        return a * b + 2 * (a + b) * o + math.pi * o * o

    def grown(self, by: float) -> Outline:
        """Return the parallel outline `by` [mm] outwards; inwards, sharp corners stay sharp."""
        if self.offset + by >= 0 and (self.offset > 0 or by >= 0):
            return Outline(core_x=self.core_x, core_y=self.core_y, offset=self.offset + by)
        shrink = 2 * (self.offset + by)
        return Outline(core_x=self.core_x + shrink, core_y=self.core_y + shrink, offset=0.0)

    def strip_area(self, width: float) -> float:
        """Return the area [mm²] of the part within |y| <= width/2; width at most the size in y."""
        a, b, o = self.core_x / 2, self.core_y / 2, self.offset
        h = min(width / 2, b + o)
        quarter = a * h + o * min(h, b)
        u = h - b
        if u > 0 and o > 0:
            quarter += 0.5 * (u * math.sqrt(o * o - u * u) + o * o * math.asin(u / o))
        return 4 * quarter

    def wire(self, z: float) -> Any:
        """Return the closed cadquery wire at height `z` [mm]."""
        a, b, o = self.core_x / 2, self.core_y / 2, self.offset
        if a == 0 and b == 0:
            return cq.Wire.makeCircle(o, cq.Vector(0, 0, z), cq.Vector(0, 0, 1))
        edges: list[Any] = []
        corners = ((a, b, 0.0), (-a, b, 90.0), (-a, -b, 180.0), (a, -b, 270.0))
        at = [_corner(x, y, o, angle, z) for x, y, angle in corners]
        for i, (start, middle, end) in enumerate(at):
            if o > 0:
                edges.append(cq.Edge.makeThreePointArc(start, middle, end))
            following = at[(i + 1) % 4][0]
            if (end - following).Length > 1e-9:
                edges.append(cq.Edge.makeLine(end, following))
        return cq.Wire.assembleEdges(edges)


def _corner(x: float, y: float, o: float, angle: float, z: float) -> tuple[Any, Any, Any]:
    """Return start, middle and end of the arc round one corner of the core."""
    start, middle, end = (
        cq.Vector(x + o * math.cos(turn), y + o * math.sin(turn), z)
        for turn in (math.radians(angle + more) for more in (0.0, 45.0, 90.0))
    )
    return start, middle, end


def disc(diameter: float) -> Outline:
    """Return a circle of the given diameter [mm]."""
    return Outline(core_x=0.0, core_y=0.0, offset=diameter / 2)


def pad_outlines(pad: Pad) -> tuple[Outline, Outline | None]:
    """Return a pad's outer outline and that of its hole, if it has one [mm]."""
    shape = pad.outline.plan or pad.shape
    if shape not in PAD_OUTLINES:
        raise ValueError(f"a pad cannot have the shape {shape!r}")
    return PAD_OUTLINES[shape](mm(pad.first), mm(pad.second))


def _block(wide: float, deep: float) -> Outline:
    return Outline(core_x=wide, core_y=deep, offset=0.0)


PAD_OUTLINES: dict[str, Callable[[float, float], tuple[Outline, Outline | None]]] = {
    "disc": lambda first, second: (disc(first), None),
    "ring": lambda first, second: (disc(first), disc(second)),
    "rectangle": lambda first, second: (_block(first, second), None),
    "square-with-hole": lambda first, second: (_block(first, first), disc(second)),
}
"""The outside and the hole of each outline of `isolator.design.OUTLINES` that is cut or printed."""


def foot_outline(foot: Foot) -> Outline:
    """Return the outside of a foot's body: of cup and sole, or of what is printed as one."""
    outer = pad_outlines(foot.pad)[0]
    return outer.grown(mm(foot.side_room) + mm(foot.wall)) if foot.rim > 0 else outer


def chamfered_volume(area: Callable[[float], float], chamfer: float, height: float) -> float:
    """Return the volume [mm³] of a prism whose lowest `chamfer` [mm] narrows at 45 degrees.

    `area(inset)` is the section's area when its outline is drawn in by `inset` [mm]. The integral
    over the chamfer uses three Gauss points, exact for the quadratic that an offset area is.
    """
    solid = area(0.0) * (height - chamfer)
    if chamfer == 0:
        return solid
    half = chamfer / 2
    nodes = ((0.0, 8 / 9), (math.sqrt(0.6), 5 / 9), (-math.sqrt(0.6), 5 / 9))
    return solid + half * sum(weight * area(half * (1 + x)) for x, weight in nodes)
