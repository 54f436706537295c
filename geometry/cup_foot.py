"""The cup foot: a cup under the frame, a sole on the desk, the pad glued between them.

The rim round the pad is shorter than the pad by `stop`, so cup and sole meet before the pad is
ruined. Cup and sole have one outside, so that flush edges show the pad to be in the middle.
"""

from __future__ import annotations

from geometry import attachment, features
from geometry.outline import Outline, chamfered_volume, pad_outlines
from geometry.part import CannotDraw, Part, Place, layer_notes, mm, slug
from geometry.tube_plug import tube_plug
from isolator.design import Foot, PrintSettings

COVER_FIT = 0.2  # gap between cover and pocket, so that the cover centres itself [mm]
BED_SIDE_DOWN = "as drawn: the face towards the printer's frame lies on the bed, pocket upwards"


def cup_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the printed parts of a cup foot: cup and sole, cover and tube plug where needed."""
    _require_rim(foot, settings)
    parts = [_cup(foot, settings), _sole(foot, settings)]
    if attachment.is_captive(foot):
        parts.append(_cover(foot, settings))
    if foot.attachment == "tube-end":
        parts.append(tube_plug(foot, settings))
    return parts


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


def _outside(foot: Foot) -> Outline:
    return pad_outlines(foot.pad)[0].grown(mm(foot.side_room) + mm(foot.wall))


def _cup(foot: Foot, settings: PrintSettings) -> Part:
    name = slug(foot.name, "cup")
    outer = _outside(foot)
    pocket = pad_outlines(foot.pad)[0].grown(mm(foot.side_room))
    cap, rim, chamfer = mm(foot.cap), rim_depth(foot), mm(settings.first_layer_chamfer)
    height = cap + rim
    solid = features.prism(outer, 0.0, height, chamfer)
    volume = chamfered_volume(lambda inset: outer.grown(-inset).area, chamfer, height)
    size_x = outer.size[0]
    cutters = []
    notes = ["glue the pad to the whole face inside; cup and sole edges flush"]
    ceiling = cap
    if attachment.is_slot(foot):
        room = rim + mm(foot.sole)
        ears = attachment.ears(name, foot, outer, settings.hole_compensation, room)
        solid = solid.fuse(features.prism(ears.outline, 0.0, cap, chamfer)).clean()
        volume += chamfered_volume(
            lambda inset: ears.joined_area(outer, inset) - outer.grown(-inset).area, chamfer, cap
        )
        cutters += [features.hole(ears.hole, -1.0, cap + 1.0, x) for x in (-ears.reach, ears.reach)]
        volume -= 2 * features.hole_area(ears.hole) * cap
        size_x = max(size_x, ears.outline.size[0])
        notes.append(f"two ISO 7380-1 {ears.thread.name} screws from below into slot nuts")
    if attachment.is_captive(foot):
        screw = attachment.captive(name, foot, pocket, settings.hole_compensation, settings.layer)
        ceiling = cap - screw.cover
        floor = ceiling - screw.depth
        cutters += [
            features.hole(screw.hole, -1.0, floor + 1.0),
            features.hexagon(screw.across_flats, floor, ceiling + 1.0),
        ]
        volume -= features.hole_area(screw.hole) * floor
        volume -= features.hexagon_area(screw.across_flats) * screw.depth
        notes.append(
            f"one ISO 4017 {screw.thread.name} screw, put in from the pocket, then the cover"
        )
    cutters.append(features.prism(pocket, ceiling, height + 1.0))
    volume -= pocket.area * (height - ceiling)
    return Part(
        name=name,
        owner=foot.name,
        role="cup",
        quantity=len(foot.positions),
        solid=features.cut_all(solid, *cutters),
        material=settings.material,
        orientation=BED_SIDE_DOWN,
        notes=(*notes, *layer_notes(settings.layer, cap=cap, rim=rim)),
        box=(size_x, outer.size[1], height),
        volume=volume,
        loaded=((ceiling, 1),),
        places=tuple(Place(x=mm(x), y=mm(y), z=0.0, turned=True) for x, y in foot.positions),
    )


def _sole(foot: Foot, settings: PrintSettings) -> Part:
    name = slug(foot.name, "sole")
    outer, pad = _outside(foot), pad_outlines(foot.pad)[0]
    sole, chamfer = mm(foot.sole), mm(settings.first_layer_chamfer)
    groove = min(2 * mm(settings.nozzle), mm(foot.side_room))
    if sole < features.MARK_DEPTH + 0.8:
        raise CannotDraw(
            name, "sole", f"{sole:g} mm is thinner than {features.MARK_DEPTH + 0.8:g} mm"
        )
    volume = chamfered_volume(lambda inset: outer.grown(-inset).area, chamfer, sole)
    solid = features.prism(outer, 0.0, sole, chamfer)
    if groove > 0:
        cutter, removed = features.mark(pad, groove, sole)
        solid, volume = features.cut_all(solid, cutter), volume - removed
    lowest = -(mm(foot.cap) + mm(foot.pad.thickness) + sole)
    return Part(
        name=name,
        owner=foot.name,
        role="sole",
        quantity=len(foot.positions),
        solid=features.one_solid(solid),
        material=settings.material,
        orientation="as drawn: the face towards the desk lies on the bed",
        notes=("glue the pad inside the scribed line", *layer_notes(settings.layer, sole=sole)),
        box=(*outer.size, sole),
        volume=volume,
        loaded=((sole, 1),),
        places=tuple(Place(x=mm(x), y=mm(y), z=lowest, turned=False) for x, y in foot.positions),
    )


def _cover(foot: Foot, settings: PrintSettings) -> Part:
    name = slug(foot.name, "cover")
    pocket = pad_outlines(foot.pad)[0].grown(mm(foot.side_room))
    screw = attachment.captive(name, foot, pocket, settings.hole_compensation, settings.layer)
    fit = min(COVER_FIT, mm(foot.side_room))
    outline, chamfer = pocket.grown(-fit), mm(settings.first_layer_chamfer)
    # a sharp or nearly sharp outline cannot be drawn in round its corners: leave the edge plain
    chamfer = chamfer if outline.offset > chamfer or outline.offset == 0 else 0.0
    under = -mm(foot.cap)
    return Part(
        name=name,
        owner=foot.name,
        role="cover",
        quantity=len(foot.positions),
        solid=features.one_solid(features.prism(outline, 0.0, screw.cover, chamfer)),
        material=settings.material,
        orientation="as drawn: the chamfered face lies on the bed and goes towards the screw head",
        notes=("glue over the screw head, then glue the pad to it: the whole pad is carried",),
        box=(*outline.size, screw.cover),
        volume=chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, screw.cover),
        loaded=((screw.cover, 1),),
        places=tuple(
            Place(x=mm(x), y=mm(y), z=under + screw.cover, turned=True) for x, y in foot.positions
        ),
    )
