"""The foot on a ready-made mount: a plate under the frame and one on the desk [mm].

Each plate is screwed to the mount before it comes to its place: a button head or the nut on a stud
lies in a recess that opens away from the mount, below the plate's face. Plates print with the
mount's side on the bed, recess upwards, so that nothing hangs free.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any, NamedTuple

import cadquery as cq
import numpy as np

from geometry.feet.flange import Flange, flange, half_width
from geometry.feet.slot_key import groove, slot_key
from geometry.solids import booleans, features
from geometry.solids.outline import Outline, chamfered_volume, disc, foot_outline
from geometry.solids.part import CannotDraw, Part, Placement, layer_notes, mm
from isolator.design import Ends, Foot, PrintSettings
from isolator.design.attachment import HEX_FIT, SQUASHED
from isolator.design.ends import PLAIN, STUD, Seat, recess, seat
from isolator.design.naming import slug
from isolator.design.screws import screw

STEPS = 4001
MOUNT_SIDE_DOWN = "as drawn: the face towards the buffer lies on the bed, recess upwards"


class Recess(NamedTuple):
    """The hole through a plate and the recess for what is screwed, from the mount's side up."""

    cutters: tuple[Any, ...]
    removed: float  # [mm³]
    half: Callable[[Any], Any]  # half its width in x at heights y of its plan [mm]


def buffer_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the printed parts of a foot on a mount: its plates, and a slot key where asked."""
    ends = _ends(foot)
    parts = [_upper(foot, ends, settings)]
    if foot.sole > 0:
        parts.append(_lower(foot, ends, settings))
    elif ends.lower != PLAIN:
        raise CannotDraw(slug(foot.name, "sole"), "sole", "0 mm: the mount's lower end needs one")
    if foot.key > 0 and foot.fastening.flanged:
        held = _flange(foot, settings)
        cut = groove(slug(foot.name, "plate"), foot, held, settings)
        parts.append(slot_key(foot, cut, settings))
    return parts


def _ends(foot: Foot) -> Ends:
    if foot.ends is None:
        raise CannotDraw(slug(foot.name), "ends", "a foot on a mount needs what the mount ends in")
    return foot.ends


def _flange(foot: Foot, settings: PrintSettings) -> Flange:
    room = SQUASHED * mm(foot.pad.thickness)
    name = slug(foot.name, "plate")
    return flange(name, foot, foot_outline(foot), settings.hole_compensation, room)


def _upper(foot: Foot, ends: Ends, settings: PrintSettings) -> Part:
    name = slug(foot.name, "plate")
    body, cap, chamfer = foot_outline(foot), mm(foot.cap), mm(settings.first_layer_chamfer)
    if foot.fastening.hides:
        raise CannotDraw(
            name, "attachment", f"{foot.attachment} stands where the buffer's own screw is"
        )
    solid = features.prism(body, 0.0, cap, chamfer)
    volume = chamfered_volume(lambda inset: body.grown(-inset).area, chamfer, cap)
    wide, notes = body.size, []
    cut = _recess(name, foot, ends, ends.upper, cap, settings)
    cutters = list(cut.cutters)
    if foot.fastening.flanged:
        held = _flange(foot, settings)
        solid = booleans.fused(solid, held.solid(chamfer, cap)).clean()
        volume += held.added_volume(body, chamfer, cap)
        # a flange is laid out with its face to the frame down; this plate lies the other way up
        cutters += replace(held, places=tuple((x, -y) for x, y in held.places)).cutters(cap)
        wide = (max(wide[0], held.outline.size[0]), max(wide[1], held.outline.size[1]))
        if foot.key > 0:
            slot = groove(name, foot, held, settings)
            # on this plate's upper face: it opens to no bed
            over = cq.Location(cq.Vector(0, 0, cap), cq.Vector(1, 0, 0), 180.0)
            cutters.append(features.prism(slot.outline, -1.0, slot.depth).moved(over))
            volume -= slot.depth * (slot.outline.area - shared(slot.outline, cut.half))
            notes.append("the slot key lies in the groove")
    return Part(
        name=name,
        owner=foot.name,
        role="plate",
        quantity=len(foot.positions),
        solid=features.cut_all(solid, *cutters),
        material=settings.material,
        orientation=MOUNT_SIDE_DOWN,
        notes=(
            _words(ends, ends.upper, settings),
            *notes,
            *layer_notes(settings.layer, plate=cap),
        ),
        box=(*wide, cap),
        volume=volume - cut.removed,
        loaded=((0.0, -1),),
        places=tuple(Placement(x=mm(x), y=mm(y), z=-cap, turned=False) for x, y in foot.positions),
    )


def _lower(foot: Foot, ends: Ends, settings: PrintSettings) -> Part:
    name = slug(foot.name, "sole")
    body, sole, chamfer = foot_outline(foot), mm(foot.sole), mm(settings.first_layer_chamfer)
    if ends.lower == PLAIN:
        raise CannotDraw(name, "sole", "a mount that stands by itself is screwed to none")
    cut = _recess(name, foot, ends, ends.lower, sole, settings)
    solid = features.prism(body, 0.0, sole, chamfer)
    volume = chamfered_volume(lambda inset: body.grown(-inset).area, chamfer, sole)
    under = -(mm(foot.cap) + mm(foot.pad.thickness))
    return Part(
        name=name,
        owner=foot.name,
        role="sole",
        quantity=len(foot.positions),
        solid=features.cut_all(solid, *cut.cutters),
        material=settings.material,
        orientation=MOUNT_SIDE_DOWN,
        notes=(_words(ends, ends.lower, settings), *layer_notes(settings.layer, sole=sole)),
        box=(*body.size, sole),
        volume=volume - cut.removed,
        loaded=((0.0, -1),),
        places=tuple(Placement(x=mm(x), y=mm(y), z=under, turned=True) for x, y in foot.positions),
    )


def _recess(
    part: str, foot: Foot, ends: Ends, end: str, height: float, settings: PrintSettings
) -> Recess:
    """Return what is cut from a plate `height` thick for what screws it to the mount.

    Raises CannotDraw where no screw fits, or the plate is too thin or too narrow for it.
    """
    found = seat(ends, end, settings.layer)
    if found is None:
        raise CannotDraw(part, f"ends.{end}", "no sold screw or nut holds a plate to this end")
    _require(part, foot, found, height, recess(ends, end, settings.hole_compensation))
    row, more, floor = screw(ends.thread), mm(settings.hole_compensation), mm(found.floor)
    across = mm(row.clearance) + more
    hole, mouth = features.hole(across, -1.0, floor + 1.0), features.relief(disc(across))
    removed = features.hole_area(across) * floor + features.relief_volume(disc(across))
    if end == STUD:
        flats = mm(row.flats) + mm(HEX_FIT) + more
        room, area = features.hexagon(flats, floor, height + 1.0), features.hexagon_area(flats)
        half = partial(_hexagon_half, flats)
    else:
        wide = mm(recess(ends, end, settings.hole_compensation))
        room, area = features.hole(wide, floor, height + 1.0), features.hole_area(wide)
        half = partial(half_width, disc(wide))
    return Recess((hole, mouth, room), removed + area * (height - floor), half)


def _hexagon_half(flats: float, y: Any) -> Any:
    """Return half the width in x [mm] of a hexagon, flats square to y, at heights `y` [mm]."""
    inside = np.abs(y) <= flats / 2
    return np.where(inside, (flats - np.abs(y)) / math.sqrt(3), 0.0)


def shared(groove: Outline, half: Callable[[Any], Any]) -> float:
    """Return the area [mm²] that a groove and a recess about one middle share.

    By the trapezoid rule over `STEPS`; errors about 1e-5 of it.
    """
    y = np.linspace(0.0, groove.size[1] / 2, STEPS)
    return 4.0 * float(np.trapezoid(np.minimum(half_width(groove, y), half(y)), y))


def _require(part: str, foot: Foot, found: Seat, height: float, wide: float) -> None:
    if height < mm(found.height) - 1e-9:
        name = "cap" if part.endswith("plate") else "sole"
        raise CannotDraw(
            part, name, f"{height:g} mm cannot hide the screw; {mm(found.height):g} mm can"
        )
    body = min(foot_outline(foot).size)
    if mm(wide) > body:
        raise CannotDraw(part, "wall", f"{body:g} mm of plate is narrower than its own recess")


def _words(ends: Ends, end: str, settings: PrintSettings) -> str:
    """Return how a plate is screwed to the mount, one line."""
    found = seat(ends, end, settings.layer)
    assert found is not None
    size = f"M{mm(ends.thread):g}"
    if end == STUD:
        return f"one ISO 4032 {size} nut on the buffer's stud, in the recess"
    return f"one ISO 7380-1 {size} × {mm(found.screw):g} screw into the buffer, head in the recess"


def mount_solid(foot: Foot) -> Any:
    """Return a ready-made mount as one solid about the z axis, its upper face `cap` below z = 0."""
    rubber, *metal = mount_solids(foot)
    return features.one_solid(booleans.fused(rubber, *metal).clean())


def mount_solids(foot: Foot) -> list[Any]:
    """Return a ready-made mount about the z axis, its upper face `cap` below z = 0.

    Its rubber, then the metal: discs and studs as one solid each.
    """
    ends, pad = _ends(foot), foot.pad
    top, high, rubber = -mm(foot.cap), mm(pad.thickness), mm(pad.second)
    metal = mm(foot.over_rubber) - mm(foot.lift) - mm(foot.cap)
    round_it = disc(mm(pad.first))
    body = features.prism(round_it, top - metal - rubber, top - metal)
    found = [body, _metal(ends, ends.upper, round_it, top - metal, top, up=True)]
    if ends.lower != PLAIN:
        low = top - high
        found.append(_metal(ends, ends.lower, round_it, low, low + metal, up=False))
    return found


def _metal(ends: Ends, end: str, outline: Any, low: float, top: float, *, up: bool) -> Any:
    """Return one metal disc with its stud, or with what its thread takes of it."""
    plate, thick, long = features.prism(outline, low, top), mm(ends.thread), mm(ends.stud)
    if end != STUD:
        return features.cut_all(plate, features.hole(thick, low - 1.0, top + 1.0))
    start = top - 0.1 if up else low - long
    stud = cq.Solid.makeCylinder(thick / 2, long + 0.1, cq.Vector(0, 0, start))
    return features.one_solid(booleans.fused(plate, stud).clean())
