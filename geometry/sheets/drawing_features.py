"""What a drawing gives measures for, read from the solid: round holes and level faces [mm]."""

from __future__ import annotations

import math
from collections import defaultdict
from typing import Any, NamedTuple

from OCP.BRepAdaptor import BRepAdaptor_Surface
from OCP.TopAbs import TopAbs_REVERSED

from geometry.solids.verify import bounds

SAME = 1e-3  # two measures nearer than this are one [mm]
LEAST_FACE = 6.0  # smaller level faces get no measure: letters, ends of ribs [mm²]


class Hole(NamedTuple):
    """A round hole along z: its middle and its diameter."""

    x: float
    y: float
    diameter: float


class Recess(NamedTuple):
    """A level face between bed and top: its height, its box in x and y, the way it faces (±1)."""

    z: float
    wide: float
    deep: float
    facing: int


def round_holes(solid: Any) -> list[Hole]:
    """Return the round holes along z, whole circles only, in order of diameter, y and x.

    A screw's counterbore is a hole of its own.
    """
    return [hole for hole, turn in _hollows(solid) if turn > 0.999 * math.tau]


def slot_ends(solid: Any) -> list[Hole]:
    """Return the round ends of slots along z: half circles, as wide as their slot."""
    half = math.pi
    return [hole for hole, turn in _hollows(solid) if abs(turn - half) < 1e-3 * half]


def _hollows(solid: Any) -> list[tuple[Hole, float]]:
    """Return round walls along z that are hollow, and by how much they go round [rad]."""
    sweep: dict[tuple[float, ...], float] = defaultdict(float)
    for face in solid.Faces():
        if face.geomType() != "CYLINDER":
            continue
        cylinder = BRepAdaptor_Surface(face.wrapped).Cylinder()
        inward = (face.wrapped.Orientation() == TopAbs_REVERSED) == cylinder.Direct()
        if not inward or abs(cylinder.Axis().Direction().Z()) < 1 - 1e-9:
            continue
        middle, (first, last, _, _) = cylinder.Axis().Location(), face.uvBounds()
        at = (2 * cylinder.Radius(), middle.Y(), middle.X(), bounds(face)[2])
        sweep[tuple(round(each, 3) + 0.0 for each in at)] += last - first
    found: dict[tuple[float, ...], float] = {}
    for key, turn in sweep.items():  # at several heights the fullest counts
        found[key[:3]] = max(turn, found.get(key[:3], 0.0))
    return [(Hole(x, y, diameter), turn) for (diameter, y, x), turn in sorted(found.items())]


def recesses(solid: Any) -> list[Recess]:
    """Return level faces that are neither on the bed nor at the top, widest first."""
    top = bounds(solid)[5]
    found = set()
    for face in solid.Faces():
        if face.geomType() != "PLANE" or face.Area() < LEAST_FACE:
            continue
        normal = face.normalAt()
        if abs(normal.z) < 1 - 1e-9:
            continue
        low_x, low_y, z, high_x, high_y, _ = bounds(face)
        if SAME < z < top - SAME:
            found.add(
                Recess(
                    round(z, 3),
                    round(high_x - low_x, 3),
                    round(high_y - low_y, 3),
                    1 if normal.z > 0 else -1,
                )
            )
    return sorted(found, key=lambda each: (-each.wide * each.deep, each))
