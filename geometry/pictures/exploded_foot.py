"""A foot pulled apart along its axis, from the printer's frame down to the desk, with numbers."""

from __future__ import annotations

import numpy as np

from geometry.assembly import COLOURS
from geometry.finish.raster import Colour, View
from geometry.finish.scene import Scene
from geometry.finish.triangles import Mesh
from geometry.pictures.picture import COARSE, COARSE_ANGLE, standing_alone
from geometry.solids.mesh import tessellate
from geometry.solids.part import Body, Part
from geometry.solids.verify import bounds
from isolator.design import Foot

SIZE = (480, 640)  # [pixels]
APART = 0.35  # between two bodies, in widths of the widest


def foot_exploded_scene(foot: Foot, parts: list[Part], size: tuple[int, int] = SIZE) -> Scene:
    """Return one foot pulled apart, unloaded, every body numbered under its lowest point."""
    found = _downwards(foot, parts)
    apart = APART * max(max(_sides(body)) for body in found)
    items: list[tuple[Mesh, Colour]] = []
    top = 0.0
    for body in found:
        mesh = tessellate(body.solid, COARSE, COARSE_ANGLE)
        low, high = float(mesh.vertices[:, 2].min()), float(mesh.vertices[:, 2].max())
        vertices = mesh.vertices + np.array([0.0, 0.0, top - high])
        items.append((Mesh(vertices=vertices, triangles=mesh.triangles), COLOURS[body.role]))
        top -= high - low + apart
    numbers = [(range(index, index + 1), index + 1) for index in range(len(items))]
    names = tuple(body.name for body in found)
    return Scene(items, View(azimuth=-60, elevation=20), size, numbers, names)


def _downwards(foot: Foot, parts: list[Part]) -> list[Body]:
    """Return the bodies in the order in which they hang from the printer's frame."""
    return sorted(standing_alone(foot, parts), key=_level)


def _level(body: Body) -> tuple[float, float, str]:
    """Return the upper face, highest first, then the lower one: what lies in a cup comes after."""
    low, high = bounds(body.solid)[2::3]
    return -round(high, 6), round(low, 6), body.name


def _sides(body: Body) -> tuple[float, float]:
    low_x, low_y, _, high_x, high_y, _ = bounds(body.solid)
    return high_x - low_x, high_y - low_y
