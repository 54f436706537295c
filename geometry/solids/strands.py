"""Filament that a slicer lays: less where infill is open, more where it joins walls [mm]."""

from __future__ import annotations

import numpy as np

from geometry.finish.triangles import Mesh
from geometry.solids.mesh import depths, tessellate
from geometry.solids.part import Part
from isolator.design.fill import LINE

WALLS = 3  # lines that slicers of the common family lay round a part unless told otherwise
FEWEST = 3  # lines of infill between two walls; where fewer fit, walls alone are laid
OVERLAP = 0.13  # by which infill and its turns run into a wall; found by slicing what is drawn [mm]
UPRIGHT = 0.5  # a facet whose normal's upward part is less is a side, which walls are laid along


def laid(part: Part, nozzle: float) -> float:
    """Return the volume of filament that a part takes [mm³]; `nozzle` is its diameter [mm].

    Held against a slicer, within 5 % for every kind of part.
    """
    walls = part.fill.walls or WALLS
    beside = part.fill.infill * overlapping(tessellate(part.solid), nozzle, walls)
    return part.volume - part.hollow + beside


def overlapping(mesh: Mesh, nozzle: float, walls: int = WALLS) -> float:
    """Return the filament [mm³] that a part printed solid takes beyond its volume.

    Infill runs into the innermost line of a wall, so that they hold together. It is laid where the
    solid is thicker behind a side than the `walls` lines of both its faces and a few between.
    """
    sides = np.abs(mesh.normals()[:, 2]) < UPRIGHT
    filled = depths(mesh) > (2 * walls + FEWEST) * LINE * nozzle
    return OVERLAP * float(mesh.areas()[sides & filled].sum())
