"""A part cut through its middle: what is seen behind the cut, hatching of the cut, walls [mm]."""

from __future__ import annotations

import math
from itertools import pairwise
from typing import Any, NamedTuple

import cadquery as cq

from geometry.finish.page import Point, Polyline
from geometry.sheets.projection import FRONT, projected
from geometry.solids import booleans
from geometry.solids.verify import bounds

SAME = 1e-3  # two measures nearer than this are one [mm]
CHORDS = 48  # of a curved edge


class CutView(NamedTuple):
    """A section seen from the front: x to the right, z upwards."""

    seen: tuple[Polyline, ...]
    hatching: tuple[Polyline, ...]
    walls: tuple[tuple[float, float, float], ...]  # from x to x at a height z, left to right


def cut_view(solid: Any, spacing: float) -> CutView | None:
    """Return the section in the middle of a part's depth, hatched at `spacing` [mm].

    None where what is left behind the cut is not as wide and as high as the whole part: the plain
    view tells more then.
    """
    low_x, low_y, low_z, high_x, high_y, high_z = bounds(solid)
    middle = (low_y + high_y) / 2
    far = 2.0 * max(high_x - low_x, high_y - low_y, high_z - low_z) + 10.0
    front = cq.Solid.makeBox(
        2 * far, far, 2 * far, cq.Vector((low_x + high_x) / 2 - far, middle - far, low_z - far)
    )
    rest = booleans.cut(solid, front)
    box = bounds(rest)
    if any(
        abs(box[i] - whole) > SAME
        for i, whole in ((0, low_x), (2, low_z), (3, high_x), (5, high_z))
    ):
        return None
    loops = _loops(rest, middle)
    walls = _walls(loops, high_z - min(0.5, (high_z - low_z) / 20))
    return CutView(
        seen=projected(rest, FRONT).visible,
        hatching=tuple(_hatched(loops, spacing)),
        walls=tuple((a, b, high_z) for a, b in walls),
    )


def _loops(rest: Any, middle: float) -> list[list[Point]]:
    """Return the outlines of all faces in the cut as closed polygons in x and z."""
    found = []
    for face in rest.Faces():
        if face.geomType() != "PLANE" or abs(face.normalAt().y + 1.0) > 1e-6:
            continue
        if abs(face.Center().y - middle) > SAME:
            continue
        for wire in face.Wires():
            found.append(_polygon(wire))
    return found


def _polygon(wire: Any) -> list[Point]:
    points = []
    for edge in cq.Wire.assembleEdges(wire.Edges()).Edges():
        count = 1 if edge.geomType() == "LINE" else CHORDS
        points.append([edge.positionAt(i / count) for i in range(count + 1)])
    chain = points.pop(0)
    while points:  # edges come in order, but each may run either way
        end = chain[-1]
        after = points.pop(min(range(len(points)), key=lambda i: _nearest(points[i], end)))
        turned = (after[0] - end).Length > (after[-1] - end).Length
        chain += (after[::-1] if turned else after)[1:]
    return [(at.x, at.z) for at in chain]


def _nearest(edge: list[Any], end: Any) -> float:
    return float(min((edge[0] - end).Length, (edge[-1] - end).Length))


def _crossed(loops: list[list[Point]], level: float) -> list[tuple[float, float]]:
    """Return from where to where a level line runs inside polygons, by counting crossings."""
    at = []
    for loop in loops:
        for (x, y), (u, v) in pairwise([*loop, loop[0]]):
            if (y <= level) != (v <= level):
                at.append(x + (u - x) * (level - y) / (v - y))
    at.sort()
    return [(a, b) for a, b in zip(at[0::2], at[1::2], strict=False) if b - a > SAME]


def _hatched(loops: list[list[Point]], spacing: float) -> list[Polyline]:
    """Return lines at 45 degrees inside polygons."""
    root = math.sqrt(0.5)
    turned = [[((x + z) * root, (z - x) * root) for x, z in loop] for loop in loops]
    levels = [z for loop in turned for _, z in loop]
    found: list[Polyline] = []
    if not levels:
        return found
    level = math.ceil(min(levels) / spacing) * spacing
    while level < max(levels):
        for a, b in _crossed(turned, level + 1e-6):
            found.append(
                (((a - level) * root, (a + level) * root), ((b - level) * root, (b + level) * root))
            )
        level += spacing
    return found


def _walls(loops: list[list[Point]], level: float) -> list[tuple[float, float]]:
    """Return the left wall at a height, where the part is hollow there; none where it is not."""
    across = _crossed(loops, level)
    return across[:1] if len(across) > 1 else []
