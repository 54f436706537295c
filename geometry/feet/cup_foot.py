"""The cup foot: a cup under the frame, a sole on the desk, the pad glued between them.

The rim round the pad is shorter than the pad by `stop`, so cup and sole meet before the pad is
ruined. Cup and sole have one outside, so that flush edges show the pad to be in the middle.
"""

from __future__ import annotations

from typing import Any

from geometry.feet.captive import hidden, key_path
from geometry.feet.fixing import beside_parts, cap_of
from geometry.lettering.label import Marked, marked
from geometry.solids import features
from geometry.solids.outline import chamfered_volume, foot_outline, pad_outlines
from geometry.solids.part import CannotDraw, Part, Placement, layer_notes, mm
from isolator.design import Foot, PrintSettings
from isolator.design.naming import slug

COVER_FIT = 0.2  # gap between cover and pocket, so that the cover centres itself [mm]
BED_SIDE_DOWN = "as drawn: the face towards the printer's frame lies on the bed, pocket upwards"


def cup_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the printed parts of a cup foot: cup and sole, cover and tube plug where needed."""
    _require_rim(foot, settings)
    parts = [cup(foot, settings), _sole(foot, settings)]
    if foot.covered:
        parts.append(cover(foot, settings))
    return [*parts, *beside_parts(foot, settings, foot_outline(foot), slug(foot.name, "cup"))]


def rim_depth(foot: Foot) -> float:
    """Return how far the rim reaches below the pad's upper face [mm]."""
    return mm(foot.pad.thickness) - mm(foot.stop)


def _require_rim(foot: Foot, settings: PrintSettings) -> None:
    thickness, stop = mm(foot.pad.thickness), mm(foot.stop)
    wall, nozzle = mm(foot.wall), mm(settings.nozzle)
    if wall < nozzle:
        raise CannotDraw(
            slug(foot.name, "cup"),
            "wall",
            f"{wall:g} mm is thinner than the nozzle's {nozzle:g} mm",
        )
    if not 0 < stop < thickness:
        raise CannotDraw(
            slug(foot.name, "cup"),
            "stop",
            f"{stop:g} mm is not between 0 and the pad's thickness of {thickness:g} mm",
        )


def cup(foot: Foot, settings: PrintSettings) -> Part:
    """Return the cup: the cap that is fixed to the printer and the rim round the pad."""
    name = slug(foot.name, "cup")
    outer = foot_outline(foot)
    pocket = pad_outlines(foot.pad)[0].grown(mm(foot.side_room))
    whole, rim, chamfer = mm(foot.cap), rim_depth(foot), mm(settings.first_layer_chamfer)
    height = whole + rim
    cap = cap_of(name, foot, settings, outer, pocket, whole, rim)
    solid = cap.joined(features.prism(outer, 0.0, height, chamfer))
    volume = chamfered_volume(lambda inset: outer.grown(-inset).area, chamfer, height)
    volume += cap.volume - pocket.area * (height - cap.ceiling)
    cutters = [*cap.cutters, features.prism(pocket, cap.ceiling, height + 1.0)]
    solid, where = features.cut_all(solid, *cutters), ""
    if not foot.covered:  # else the cover bears the line
        where = ", within the scribed line"
        solid, removed = _scribed(solid, foot, settings, mm(foot.side_room), whole)
        volume, whole = volume - removed, whole - features.MARK_DEPTH
    told = marked(solid, foot, settings, outer, whole, cap.holes, cap.grooves)
    return Part(
        name=name,
        owner=foot.name,
        role="cup",
        quantity=len(foot.positions),
        solid=told.solid,
        material=settings.material,
        orientation=BED_SIDE_DOWN,
        notes=(
            f"glue the pad to the whole face inside{where}; cup and sole edges flush",
            *cap.notes,
            *told.notes,
            *layer_notes(settings.layer, cap=mm(foot.cap), rim=rim),
        ),
        box=(*cap.widths(outer), height),
        volume=volume - told.removed,
        loaded=((cap.ceiling, 1),),
        places=tuple(Placement(x=mm(x), y=mm(y), z=0.0, turned=True) for x, y in foot.positions),
    )


def _sole(foot: Foot, settings: PrintSettings) -> Part:
    name = slug(foot.name, "sole")
    outer = foot_outline(foot)
    sole, chamfer = mm(foot.sole), mm(settings.first_layer_chamfer)
    if sole < features.MARK_DEPTH + 0.8:
        raise CannotDraw(
            name, "sole", f"{sole:g} mm is thinner than {features.MARK_DEPTH + 0.8:g} mm"
        )
    volume = chamfered_volume(lambda inset: outer.grown(-inset).area, chamfer, sole)
    solid = features.prism(outer, 0.0, sole, chamfer)
    solid, removed = _scribed(solid, foot, settings, mm(foot.side_room), sole)
    key = key_path(foot, settings, sole)
    solid, volume = features.cut_all(solid, *key.cutters), volume - removed - key.removed
    lowest = -(mm(foot.cap) + mm(foot.pad.thickness) + sole)
    told = Marked(features.one_solid(solid), 0.0, ())
    if foot.tread == 0:  # a tread would hide it
        told = marked(told.solid, foot, settings, outer, sole, key.mouths)
    return Part(
        name=name,
        owner=foot.name,
        role="sole",
        quantity=len(foot.positions),
        solid=told.solid,
        material=settings.material,
        orientation="as drawn: the face towards the desk lies on the bed",
        notes=(
            "glue the pad inside the scribed line",
            *key.notes,
            *told.notes,
            *layer_notes(settings.layer, sole=sole),
        ),
        box=(*outer.size, sole),
        volume=volume - told.removed,
        loaded=((sole, 1),),
        places=tuple(
            Placement(x=mm(x), y=mm(y), z=lowest, turned=False) for x, y in foot.positions
        ),
    )


def _scribed(
    solid: Any, foot: Foot, settings: PrintSettings, room: float, top: float
) -> tuple[Any, float]:
    """Return a solid with the scribed line round its pad in the face at `top`, and what it takes.

    `room` is what is free outside the pad [mm]: a ring thinner than a strand would not print, so
    the line then goes on to the edge.
    """
    nozzle = mm(settings.nozzle)
    width = room if room < 3 * nozzle else 2 * nozzle
    if width <= 0:
        return features.one_solid(solid), 0.0
    cutter, removed = features.mark(pad_outlines(foot.pad)[0], width, top)
    return features.cut_all(solid, cutter), removed


def cover(foot: Foot, settings: PrintSettings) -> Part:
    """Return the cover over what the cap hides."""
    name = slug(foot.name, "cover")
    pocket = pad_outlines(foot.pad)[0].grown(mm(foot.side_room))
    held = hidden(name, foot, pocket, settings.hole_compensation, settings.layer)
    fit = min(COVER_FIT, mm(foot.side_room))
    outline, chamfer = pocket.grown(-fit), mm(settings.first_layer_chamfer)
    # a sharp or nearly sharp outline cannot be drawn in round its corners: leave the edge plain
    chamfer = chamfer if outline.offset > chamfer or outline.offset == 0 else 0.0
    under, room = -mm(foot.cap), mm(foot.side_room) - fit
    solid, removed = _scribed(
        features.prism(outline, 0.0, held.cover, chamfer), foot, settings, room, held.cover
    )
    key = key_path(foot, settings, held.cover)
    return Part(
        name=name,
        owner=foot.name,
        role="cover",
        quantity=len(foot.positions),
        solid=features.cut_all(solid, *key.cutters),
        material=settings.material,
        orientation="as drawn: the chamfered face lies on the bed and goes into the recess's side",
        notes=(
            "glue it over the recess, then glue the pad to it within the scribed line: the whole "
            "pad is carried",
            *key.notes,
        ),
        box=(*outline.size, held.cover),
        volume=chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, held.cover)
        - removed
        - key.removed,
        loaded=((held.cover, 1),),
        places=tuple(
            Placement(x=mm(x), y=mm(y), z=under + held.cover, turned=True)
            for x, y in foot.positions
        ),
    )
