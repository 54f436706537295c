"""Printed corners that grip a slab and stand over it, so that the printer cannot walk off [mm].

One corner serves all four: an L that lies on the slab's upper face, and under it a wall that goes
down outside. Printed upside down, the face that is up in use on the bed: nothing hangs over.
"""

from __future__ import annotations

import cadquery as cq

from geometry.solids import features
from geometry.solids.outline import chamfered_volume
from geometry.solids.part import Body, CannotDraw, Part, layer_notes, mm
from isolator.design import Design, Slab
from isolator.design.lips import BESIDE_FRAME, LEAST_SHELF, PART_OF_SIDE, SHELF, leg_of, shelf_of

NAME = "slab-lip"
WALL = 3.2  # eight lines of the usual nozzle [mm]
LEAST_LEG = 16.0
GRIP = 15.0  # down the slab's side [mm]
LEAST_GRIP = 3.0
ABOVE_DESK = 2.0  # left from the wall's end to the slab's lower face [mm]
PLAY = 0.3  # between wall and slab, for glue and a rough edge [mm]
CORNERS = ((1, 1, 0.0), (-1, 1, 90.0), (-1, -1, 180.0), (1, -1, 270.0))


def lip_part(design: Design) -> Part | None:
    """Return the corner that is printed four times; None where there is no slab or no lip.

    Raises CannotDraw where the slab is too small or too thin, or the frame leaves no room.
    """
    slab = design.slab
    if slab is None or slab.lip <= 0:
        return None
    settings = design.print
    lip, chamfer = mm(slab.lip), mm(settings.first_layer_chamfer)
    if lip < 2 * mm(settings.layer) or lip <= chamfer:
        raise CannotDraw(NAME, "lip", f"{lip:g} mm is too thin to print")
    leg, grip, shelf = _leg(slab), _grip(slab), _shelf(design)
    far, band = WALL + PLAY, WALL + PLAY + shelf
    if chamfer > band / 4:
        raise CannotDraw(
            NAME, "first_layer_chamfer", f"{chamfer:g} mm does not fit a band of {band:g} mm"
        )
    upper = cq.Solid.extrudeLinear(
        _ell(far, leg, band, chamfer), [], cq.Vector(0, 0, lip - chamfer)
    )
    if chamfer > 0:
        edge = [
            _ell(far - chamfer, leg - chamfer, band - 2 * chamfer, 0.0),
            _ell(far, leg, band, chamfer),
        ]
        upper = upper.fuse(cq.Solid.makeLoft(edge, True))
    wall = cq.Solid.extrudeLinear(_ell(far, leg, WALL, lip), [], cq.Vector(0, 0, grip))
    long = leg + far
    volume = chamfered_volume(
        lambda inset: ell_area(long - 2 * inset, band - 2 * inset), chamfer, lip
    )
    return Part(
        name=NAME,
        owner="slab",
        role="lip",
        quantity=4,
        solid=features.one_solid(upper.fuse(wall).clean()),
        material=settings.material,
        orientation="as drawn: the face that is up in use lies on the bed, the wall upwards",
        notes=(
            "glue one over each corner of the slab; the printer's own feet stand inside them",
            *layer_notes(settings.layer, lip=lip),
        ),
        box=(long, long, lip + grip),
        volume=volume + ell_area(long, WALL) * grip,
        loaded=(),
        places=(),
    )


def lip_bodies(design: Design) -> list[Body]:
    """Return the four corners in place; none where there is no lip.

    They are turned about z, each its own way, which a part's places do not tell.
    """
    part, slab = lip_part(design), design.slab
    if part is None or slab is None:
        return []
    (wide, deep, _), (x, y) = slab.size, slab.position
    level = mm(slab.lip) - mm(slab.gap)
    roll = cq.Location(cq.Vector(0, 0, 0), cq.Vector(1, 0, 0), 180.0)
    found = []
    for number, (right, back, spin) in enumerate(CORNERS, 1):
        corner = cq.Vector(mm(x + right * wide / 2), mm(y + back * deep / 2), level)
        there = cq.Location(corner, cq.Vector(0, 0, 1), spin) * roll
        solid = part.solid.moved(there)
        found.append(Body(name=f"{NAME}-{number}", owner="slab", role="lip", solid=solid))
    return found


def ell_area(long: float, band: float) -> float:
    """Return the area of an L of two arms as long as each other [mm²]: outside length, width."""
    return 2 * long * band - band**2


def _ell(far: float, leg: float, band: float, z: float) -> cq.Wire:
    """Return the L round a slab's corner at the origin, as it lies on the bed.

    The slab goes on to -x and +y: rolled over about x, that is its right back corner.
    """
    near = far - band
    corners = [(far, far), (-leg, far), (-leg, near), (near, near), (near, -leg), (far, -leg)]
    return cq.Wire.makePolygon([cq.Vector(x, -y, z) for x, y in corners], close=True)


def _leg(slab: Slab) -> float:
    short, leg = mm(min(slab.size[:2])), mm(leg_of(slab.size))
    if leg < LEAST_LEG:
        raise CannotDraw(
            NAME,
            "slab.size",
            f"a side of {short:g} mm is too short for printed corners; "
            f"{LEAST_LEG / PART_OF_SIDE:.0f} mm is the least",
        )
    return leg


def _grip(slab: Slab) -> float:
    thick = mm(slab.size[2])
    grip = min(GRIP, thick - ABOVE_DESK)
    if grip < LEAST_GRIP:
        raise CannotDraw(
            NAME,
            "slab.size",
            f"a slab of {thick:g} mm is too thin for printed corners; "
            f"{LEAST_GRIP + ABOVE_DESK:g} mm is the least",
        )
    return grip


def _shelf(design: Design) -> float:
    """Return how far the lips may reach in over the slab: up to the frame they would meet."""
    slab = design.slab
    if slab is None:
        return mm(SHELF)
    room = shelf_of(slab.size, slab.position, slab.gap, slab.lip, design.frame_size)
    if room < LEAST_SHELF:
        raise CannotDraw(
            NAME,
            "lip",
            f"a lip of {mm(slab.lip):g} mm meets the printer's frame, which is {mm(slab.gap):g} mm "
            f"over the slab and leaves {max(0.0, mm(room + BESIDE_FRAME)):.1f} mm beside it; "
            f"{mm(LEAST_SHELF + BESIDE_FRAME):g} mm is the least",
        )
    return mm(room)
