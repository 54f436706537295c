"""The ball foot: half a rubber ball in a cup under the frame, its dome on the desk.

The cup is that of a disc as wide as the ball; there is no sole. Its rim ends `stop` above the desk,
so that cup and desk meet before the ball is pressed too far. A ring saws balls in half.
"""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import cadquery as cq

from geometry.feet.cup_foot import cover, cup
from geometry.feet.fixing import beside_parts
from geometry.solids import features
from geometry.solids.outline import chamfered_volume, disc, foot_outline
from geometry.solids.part import CannotDraw, Part, layer_notes, mm
from isolator.design import Foot, PrintSettings
from isolator.design.naming import slug

GUIDE_PLAY = 0.4  # of the ball's diameter in the saw guide, beside the hole compensation [mm]
GUIDE_WALL = 6.0  # of the saw guide, wide enough to lay a blade on [mm]
GLUED = (
    "glue the ball's flat face to the face inside, within the scribed line; the rim stays off "
    "the desk"
)
VENT = (
    "pierce the ball's wall close to its flat face, some 2 mm wide: shut-in air would act as a "
    "second spring"
)


def ball_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the printed parts of a ball foot: cup, what holds it, and the saw guide."""
    _require_ball(foot, settings)
    seat = _seat(foot)
    drawn = cup(seat, settings)
    vent = (VENT,) if foot.pad.second > 0 else ()
    parts = [replace(drawn, notes=(GLUED, *vent, *drawn.notes[1:]))]
    if foot.covered:
        parts.append(cover(seat, settings))
    parts += beside_parts(seat, settings, foot_outline(seat), drawn.name)
    return [*parts, saw_guide(foot, settings)]


def ball_solid(foot: Foot) -> Any:
    """Return the unloaded half-ball about the z axis [mm], its flat face up, `cap` below z = 0."""
    top = -mm(foot.cap)
    solid = _dome(mm(foot.pad.first) / 2, top)
    if foot.pad.second > 0:
        solid = features.cut_all(solid, _dome(mm(foot.pad.second) / 2, top))
    return solid


def saw_guide(foot: Foot, settings: PrintSettings) -> Part:
    """Return the ring in which a ball lies while a blade on the ring's face cuts it in half."""
    ball, height = mm(foot.pad.first), mm(foot.pad.first) / 2
    room = disc(ball + GUIDE_PLAY + mm(settings.hole_compensation))
    outer, chamfer = room.grown(GUIDE_WALL), mm(settings.first_layer_chamfer)
    ring = features.prism(outer, 0.0, height, chamfer)
    return Part(
        name=slug(foot.name, "saw-guide"),
        owner=foot.name,
        role="saw-guide",
        quantity=1,
        solid=features.cut_all(
            ring, features.prism(room, -1.0, height + 1.0), features.relief(room)
        ),
        material=settings.material,
        orientation="as drawn: lying on the bed, the cut runs along its upper face",
        notes=(
            f"lay the ball of {ball:g} mm in it on a flat table, the mould's seam level with the "
            "upper face, and draw a wet blade flat across that face",
            *layer_notes(settings.layer, guide=height),
        ),
        box=(*outer.size, height),
        volume=chamfered_volume(lambda inset: outer.grown(-inset).area, chamfer, height)
        - room.area * height
        - features.relief_volume(room),
        loaded=(),
        places=(),
    )


def _seat(foot: Foot) -> Foot:
    """Return the foot as the cup sees it: a disc for a pad, nothing under it."""
    pad = replace(foot.pad, shape="disc", second=0.0)
    return replace(foot, pad=pad, sole=0.0, tread=0.0)


def _require_ball(foot: Foot, settings: PrintSettings) -> None:
    name = slug(foot.name, "cup")
    outer, inner = mm(foot.pad.first), mm(foot.pad.second)
    thickness, stop = mm(foot.pad.thickness), mm(foot.stop)
    wall, nozzle = mm(foot.wall), mm(settings.nozzle)
    if not 0 <= inner < outer:
        raise CannotDraw(
            slug(foot.name), "pad.second", f"a cavity of {inner:g} mm is not inside {outer:g} mm"
        )
    if abs(thickness - outer / 2) > 1e-6:
        raise CannotDraw(
            slug(foot.name),
            "pad.thickness",
            f"{thickness:g} mm is not half of the ball's {outer:g} mm",
        )
    if wall < nozzle:
        raise CannotDraw(name, "wall", f"{wall:g} mm is thinner than the nozzle's {nozzle:g} mm")
    if not 0 < stop < thickness:
        raise CannotDraw(
            name, "stop", f"{stop:g} mm is not between 0 and the half-ball's {thickness:g} mm"
        )


def _dome(radius: float, top: float) -> Any:
    """Return the lower half of a ball about (0, 0, `top`) [mm]."""
    return cq.Solid.makeSphere(radius, cq.Vector(0, 0, top), cq.Vector(0, 0, 1), -90.0, 0.0, 360.0)
