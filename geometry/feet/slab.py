"""A slab under the printer: the slab itself, its pads and its lips [mm]."""

from __future__ import annotations

from typing import Any

import cadquery as cq

from geometry.feet.slab_lips import lip_bodies
from geometry.solids.part import Body, CannotDraw, Part, mm
from isolator.design import Design, Foot, PrintSettings, Slab
from isolator.design.naming import slug


def slab_solid(slab: Slab) -> Any:
    """Return the slab in its place, its upper face `gap` below the printer's underside."""
    wide, deep, thick = (mm(side) for side in slab.size)
    x, y = (mm(at) for at in slab.position)
    low = cq.Vector(x - wide / 2, y - deep / 2, -mm(slab.gap) - thick)
    return cq.Solid.makeBox(wide, deep, thick, low)


def slab_bodies(design: Design) -> list[Body]:
    """Return the slab and its lips in their places; none where there is no slab."""
    if design.slab is None:
        return []
    whole = Body(name="slab", owner="slab", role="slab", solid=slab_solid(design.slab))
    return [whole, *lip_bodies(design)]


def bare_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the printed parts of a bare foot: none, its pad is cut and glued as it is.

    Raises CannotDraw where the foot asks for what only a printed part could have.
    """
    for dimension, asked in (("sole", foot.sole), ("tread", foot.tread)):
        if asked > 0:
            raise CannotDraw(
                slug(foot.name, "pad"),
                dimension,
                f"{mm(asked):g} mm: under a bare pad there is nothing but the desk",
            )
    return []
