"""The printed foot: one body of flexible filament with solid skins above and below.

A foot held by one screw or in a tube is bonded to a rigid mount that hides the screw head; the
skin over the head then belongs to the flexible body, so that its whole section carries.
"""

from __future__ import annotations

from geometry.feet.captive import hidden, hidden_note
from geometry.feet.fixing import beside_parts, cap_of
from geometry.lettering.label import Marked, marked
from geometry.solids import features
from geometry.solids.outline import Outline, chamfered_volume, pad_outlines
from geometry.solids.part import CannotDraw, Part, Placement, layer_notes, mm
from isolator.design import Foot, PrintSettings
from isolator.design.attachment import SQUASHED
from isolator.design.fill import foot_fill
from isolator.design.naming import slug

SETTINGS = "type that into the slicer, which reads no such settings from a file"
"""Said of walls and infill: the standard of 3MF leaves settings of a print open."""


def printed_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the flexible body, and the rigid mount and what goes with it where needed."""
    name, outer = slug(foot.name, "foot"), pad_outlines(foot.pad)[0]
    if not foot.mounted:
        return [_body(foot, settings, mm(foot.cap)), *beside_parts(foot, settings, outer, name)]
    mount = _mount(foot, settings)
    body = _body(foot, settings, mm(foot.cap) - mount.box[2])
    return [body, mount, *beside_parts(foot, settings, outer, name)]


def _body(foot: Foot, settings: PrintSettings, skin: float) -> Part:
    name, settings = slug(foot.name, "foot"), settings.for_filament(foot.pad.material)
    outer, inner = pad_outlines(foot.pad)
    thickness, sole, chamfer = (
        mm(foot.pad.thickness),
        mm(foot.sole),
        mm(settings.first_layer_chamfer),
    )
    height = skin + thickness + sole
    if min(skin, sole) < mm(settings.layer):
        raise CannotDraw(name, "sole", f"{min(skin, sole):g} mm of skin is less than one layer")
    room = SQUASHED * thickness
    held = None if foot.mounted else cap_of(name, foot, settings, outer, outer, skin, room)
    solid = features.prism(outer, 0.0, height, chamfer)
    volume = chamfered_volume(lambda inset: outer.grown(-inset).area, chamfer, height)
    widths, cutters = outer.size, []
    fill = foot_fill(foot, settings)
    notes = [f"print {fill.words}; {SETTINGS}"]
    hollow = (1.0 - fill.infill) * _core(outer, inner, mm(fill.wall)) * thickness
    if held is not None:
        solid, volume = held.joined(solid), volume + held.volume
        widths, cutters = held.widths(outer), list(held.cutters)
        notes += held.notes
    # a key's groove is bridged across, and ends nowhere but at walls: the skin over it is whole
    closed = held is not None and len(held.grooves) > 0
    if inner is not None:
        # the pad's own hole is drawn as solved, without compensation
        cutters.append(features.prism(inner, skin if closed else -1.0, height + 1.0))
        volume -= inner.area * (height - skin if closed else height)
    told = Marked(features.cut_all(solid, *cutters), 0.0, ())
    if held is not None:  # else the mount bears the label
        hole = () if inner is None or closed else ((0.0, 0.0, inner.offset),)
        told = marked(told.solid, foot, settings, outer, skin, hole, held.grooves)
    return Part(
        name=name,
        owner=foot.name,
        role="foot",
        quantity=len(foot.positions),
        solid=told.solid,
        material=foot.pad.material,
        orientation="as drawn: the face towards the printer's frame lies on the bed",
        notes=(
            *notes,
            *told.notes,
            *layer_notes(settings.layer, cap=skin, pad=thickness, sole=sole),
        ),
        box=(*widths, height),
        volume=volume - told.removed,
        fill=fill,
        hollow=hollow,
        loaded=((skin, -1), (skin + thickness, 1)),
        places=tuple(
            Placement(x=mm(x), y=mm(y), z=skin - mm(foot.cap), turned=True)
            for x, y in foot.positions
        ),
    )


def _core(outer: Outline, inner: Outline | None, wall: float) -> float:
    """Return the area [mm²] of a pad inside its walls."""
    if 2.0 * wall >= min(outer.size):
        return 0.0
    hole = 0.0 if inner is None else inner.grown(wall).area
    return max(0.0, outer.grown(-wall).area - hole)


def _mount(foot: Foot, settings: PrintSettings) -> Part:
    name = slug(foot.name, "mount")
    outline: Outline = pad_outlines(foot.pad)[0]
    held = hidden(name, foot, outline, settings.hole_compensation, settings.layer)
    height, chamfer = mm(foot.cap) - held.cover, mm(settings.first_layer_chamfer)
    solid = features.cut_all(features.prism(outline, 0.0, height, chamfer), *held.cutters())
    volume = chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height)
    volume -= held.removed()
    told = marked(solid, foot, settings, outline, height, ((0.0, 0.0, held.mouth),))
    return Part(
        name=name,
        owner=foot.name,
        role="mount",
        quantity=len(foot.positions),
        solid=told.solid,
        material=settings.material,
        orientation="as drawn: the face towards the printer's frame lies on the bed",
        notes=(hidden_note(foot, held, "the flexible body, glued all over"), *told.notes),
        box=(*outline.size, height),
        volume=volume - told.removed,
        loaded=((height, 1),),
        places=tuple(Placement(x=mm(x), y=mm(y), z=0.0, turned=True) for x, y in foot.positions),
    )
