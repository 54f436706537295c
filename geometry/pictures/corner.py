"""One foot in its place under a corner of the printer."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import cadquery as cq

from geometry.assembly import COLOURS, FRAME_BAR, bodies, frame_outline
from geometry.feet.bought import bought_bodies
from geometry.finish.raster import Colour, View
from geometry.finish.scene import Scene
from geometry.finish.triangles import Mesh
from geometry.pictures.picture import COARSE, COARSE_ANGLE, FRAME_COLOUR
from geometry.solids import booleans
from geometry.solids.mesh import tessellate
from geometry.solids.part import Part, mm
from isolator.design import Design, Foot

SIZE = (480, 360)  # [pixels]
VIEW = View(azimuth=-58, elevation=4)
RAIL_COLOUR: Colour = (0.70, 0.72, 0.74)
REACH = 2.2  # how far round a foot is shown, in its widths
LEAST = 60.0  # and at least [mm]
OVER = 50.0  # of the frame above a foot [mm]
Strip = tuple[float, float, float, float]  # left, right, front, back [m]


def corner_scene(
    design: Design, parts: list[Part], metal: Sequence[Strip], size: tuple[int, int] = SIZE
) -> Scene:
    """Return the foot that is nearest to the eye, with what of the printer is round it.

    `metal` are the rails that feet are fixed to; where none are known, the printer's outline alone
    is over the foot.
    """
    foot, (x, y) = _nearest(design)
    reach = max(REACH * mm(max(foot.widths)) / 2, LEAST)
    window = cq.Solid.makeBox(
        2 * reach, 2 * reach, 1e3 + OVER, cq.Vector(mm(x) - reach, mm(y) - reach, -1e3)
    )
    shown: list[tuple[Any, Colour]] = [
        (body.solid, COLOURS[body.role])
        for body in (*bodies(design, parts), *bought_bodies(foot, design.print))
    ]
    shown.append((frame_outline(design), FRAME_COLOUR))
    shown += [(_rail(strip), RAIL_COLOUR) for strip in metal]
    items = [(mesh, colour) for solid, colour in shown for mesh in _within(solid, window)]
    return Scene(items, VIEW, size)


def _nearest(design: Design) -> tuple[Foot, tuple[float, float]]:
    """Return the foot nearest to the eye, and where it stands [m]."""
    eye = VIEW.axes()[2]
    each = [(foot, place) for foot in design.feet for place in foot.positions]
    return max(each, key=lambda one: one[1][0] * eye[0] + one[1][1] * eye[1])


def _rail(strip: Strip) -> Any:
    left, right, front, back = (mm(edge) for edge in strip)
    return cq.Solid.makeBox(right - left, back - front, 2 * FRAME_BAR, cq.Vector(left, front, 0.0))


def _within(solid: Any, window: Any) -> list[Mesh]:
    """Return what of a solid lies in a window, nothing where none does."""
    kept = booleans.common(solid, window)
    return [tessellate(each, COARSE, COARSE_ANGLE) for each in kept.Solids() if each.Volume() > 0]
