"""Printed corners that grip a slab and hold the printer on it, so that it cannot walk off [mm].

Each is an L on the slab's upper face that reaches in up to the frame's corner, and under it a wall
that goes down outside the slab. Printed upside down, the face that is up in use on the bed: nothing
hangs over. Where the slab stands out unequally corners differ, and say in which they go.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import cadquery as cq

from geometry.lettering.lettering import engraved, lettering
from geometry.solids import booleans, features
from geometry.solids.outline import Outline, chamfered_volume
from geometry.solids.part import Body, CannotDraw, Part, layer_notes, mm
from isolator.design import Design, PrintSettings, Slab
from isolator.design.lips import BESIDE_FRAME, CORNERS, HELD, LEAST_SHELF, beside_frame, least_lip

NAME = "slab-lip"
WALL = 3.2  # eight lines of the usual nozzle [mm]
GRIP = 15.0  # down the slab's side [mm]
LEAST_GRIP = 3.0
ABOVE_DESK = 2.0  # left from the wall's end to the slab's lower face [mm]
PLAY = 0.3  # between wall and slab, for glue and a rough edge [mm]
FAR = WALL + PLAY  # of the wall's outside from the slab's edge [mm]
SPINS = (0.0, 90.0, 180.0, 270.0)  # of `CORNERS` about z, from the right back one
INITIALS = ("BR", "BL", "FL", "FR")  # of `CORNERS`, engraved: back or front, right or left


class Ell(NamedTuple):
    """An L round a slab's right back corner: how far each arm reaches in, and how long it is.

    `x`, `y` are the shelves along x and along y [mm], from the slab's edge to the frame.
    """

    x: float
    y: float

    @property
    def legs(self) -> tuple[float, float]:
        """Return how far the arms reach along x and y from the slab's corner [mm]."""
        return self.x + mm(HELD), self.y + mm(HELD)

    def area(self, inset: float = 0.0) -> float:
        """Return the area of the L on the slab and its wall, drawn in by `inset` [mm²]."""
        (long_x, long_y), (band_x, band_y) = self._sizes(self.x, self.y, inset)
        return long_x * band_y + long_y * band_x - band_x * band_y

    def wall_area(self) -> float:
        """Return the area of the wall outside the slab [mm²]."""
        (long_x, long_y), _ = self._sizes(0.0, 0.0, 0.0)
        return (long_x + long_y - WALL) * WALL

    def _sizes(
        self, shelf_x: float, shelf_y: float, inset: float
    ) -> tuple[tuple[float, float], tuple[float, float]]:
        longs = tuple(leg + FAR - 2 * inset for leg in self.legs)
        bands = tuple(FAR + shelf - 2 * inset for shelf in (shelf_x, shelf_y))
        return (longs[0], longs[1]), (bands[0], bands[1])

    def wire(self, z: float, inset: float = 0.0, shelf: bool = True) -> cq.Wire:
        """Return the outline as it lies on the bed; the slab goes on to -x and +y.

        Rolled over about x, its corner at the origin is the slab's right back one. Without its
        `shelf` it is the wall.
        """
        far = FAR - inset
        x, y = (-(side if shelf else -PLAY) + inset for side in (self.x, self.y))
        end_x, end_y = (-leg + inset for leg in self.legs)
        corners = [(far, far), (end_x, far), (end_x, y), (x, y), (x, end_y), (far, end_y)]
        return cq.Wire.makePolygon([cq.Vector(a, -b, z) for a, b in corners], close=True)


def lip_parts(design: Design) -> list[Part]:
    """Return the corners to print, each once with its quantity; none without slab or lip.

    Raises CannotDraw where the slab is too small or too thin, or the lip does not reach the frame.
    """
    slab = design.slab
    if slab is None or slab.lip <= 0:
        return []
    kinds = _kinds(design, slab)
    return [
        _part(ell, corners, slab, design.print, alone=len(kinds) == 1)
        for ell, corners in kinds.items()
    ]


def lip_bodies(design: Design) -> list[Body]:
    """Return the four corners in place; none where there is no lip.

    They are turned about z, each its own way, which a part's places do not tell.
    """
    slab, parts = design.slab, lip_parts(design)
    if slab is None or not parts:
        return []
    (wide, deep, _), (x, y) = slab.size, slab.position
    level = mm(slab.lip) - mm(slab.gap)
    roll = cq.Location(cq.Vector(0, 0, 0), cq.Vector(1, 0, 0), 180.0)
    found = []
    for part, corners in zip(parts, _kinds(design, slab).values(), strict=True):
        for number in corners:
            right, back = CORNERS[number]
            at = cq.Vector(mm(x + right * wide / 2), mm(y + back * deep / 2), level)
            there = cq.Location(at, cq.Vector(0, 0, 1), SPINS[number]) * roll
            solid = part.solid.moved(there)
            found.append(Body(name=f"{NAME}-{number + 1}", owner="slab", role="lip", solid=solid))
    return sorted(found, key=lambda body: body.name)


def _part(
    ell: Ell, corners: list[int], slab: Slab, settings: PrintSettings, *, alone: bool
) -> Part:
    where = [INITIALS[number] for number in corners]
    name = NAME if alone else "-".join([NAME, *where]).lower()
    lip, grip, chamfer = mm(slab.lip), _grip(slab), mm(settings.first_layer_chamfer)
    if lip < 2 * mm(settings.layer) or lip <= chamfer:
        raise CannotDraw(NAME, "lip", f"{lip:g} mm is too thin to print")
    band = FAR + min(ell)
    if chamfer > band / 4:
        raise CannotDraw(
            NAME, "first_layer_chamfer", f"{chamfer:g} mm does not fit a band of {band:g} mm"
        )
    solid = cq.Solid.extrudeLinear(ell.wire(chamfer), [], cq.Vector(0, 0, lip - chamfer))
    if chamfer > 0:
        edge = [ell.wire(0.0, chamfer), ell.wire(chamfer)]
        solid = booleans.fused(solid, cq.Solid.makeLoft(edge, True))
    wall = cq.Solid.extrudeLinear(ell.wire(lip, shelf=False), [], cq.Vector(0, 0, grip))
    solid = features.one_solid(booleans.fused(solid, wall).clean())
    solid, removed = (solid, 0.0) if alone else _engraved(solid, ell, " ".join(where), settings)
    told = "one over each corner of the slab" if alone else f"at the corners {' and '.join(where)}"
    key = "" if alone else " (B back, F front, L left, R right)"
    return Part(
        name=name,
        owner="slab",
        role="lip",
        quantity=len(corners),
        solid=solid,
        material=settings.material,
        orientation="as drawn: the face that is up in use lies on the bed, the wall upwards",
        notes=(
            f"glue {told}{key}; the frame stands inside all four, {mm(BESIDE_FRAME):g} mm from "
            "each",
            *layer_notes(settings.layer, lip=lip),
        ),
        box=(ell.legs[0] + FAR, ell.legs[1] + FAR, lip + grip),
        volume=chamfered_volume(ell.area, chamfer, lip) + ell.wall_area() * grip - removed,
        loaded=(),
        places=(),
    )


def _engraved(solid: Any, ell: Ell, text: str, settings: PrintSettings) -> tuple[Any, float]:
    """Return a corner with its place engraved into the face that is up in use, if it has room."""
    chamfer, leg = mm(settings.first_layer_chamfer), ell.legs[0]
    wide, high = leg + FAR - 2 * chamfer, FAR + ell.y - 2 * chamfer
    letters = lettering(text, Outline(core_x=wide, core_y=high, offset=0.0), settings)
    if letters is None:
        return solid, 0.0
    # about the middle of the arm along x, whose outer side is at y = -FAR as it lies
    middle = cq.Vector((FAR - leg) / 2, (ell.y - FAR) / 2, 0.0)
    there = solid.moved(cq.Location(-middle))
    cut, removed = engraved(there, letters, 0.0, mirrored=True, into=1)
    return cut.moved(cq.Location(middle)), removed


def _kinds(design: Design, slab: Slab) -> dict[Ell, list[int]]:
    """Return the corners by what is alike in them, each turned to the right back one."""
    frame = design.frame_size
    sides = beside_frame(slab.size, slab.position, frame)
    short = mm(min(min(each) for each in sides))
    least = mm(LEAST_SHELF + BESIDE_FRAME)
    if short < least - 1e-9:
        raise CannotDraw(
            NAME,
            "slab.size",
            f"{max(0.0, short):.1f} mm of slab beside the printer's frame; {least:g} mm is the "
            "least for corners that hold it",
        )
    if slab.lip < least_lip(slab.gap) - 1e-9:
        raise CannotDraw(
            NAME,
            "lip",
            f"{mm(slab.lip):g} mm holds nothing: the frame is {mm(slab.gap):g} mm over the slab; "
            f"{mm(least_lip(slab.gap)):g} mm is the least",
        )
    found: dict[Ell, list[int]] = {}
    for number, (beside_x, beside_y) in enumerate(sides):
        x, y = (mm(each - BESIDE_FRAME) for each in (beside_x, beside_y))
        found.setdefault(Ell(y, x) if number % 2 else Ell(x, y), []).append(number)
    _require_legs(found, slab, frame)
    return found


def _require_legs(found: dict[Ell, list[int]], slab: Slab, frame: tuple[float, ...]) -> None:
    """Refuse corners that would meet each other along a side of the frame."""
    short = mm(min(frame[:2]))
    least = 2 * mm(HELD) + 1.0
    if short < least:
        raise CannotDraw(
            NAME,
            "slab",
            f"a frame of {short:g} mm is too short for printed corners; {least:g} mm is the least",
        )


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
