"""The printed foot: one body of flexible filament with solid skins above and below.

A foot held by one screw or in a tube is bonded to a rigid mount that hides the screw head; the
skin over the head then belongs to the flexible body, so that its whole section carries.
"""

from __future__ import annotations

from geometry import attachment, features
from geometry.outline import Outline, chamfered_volume, pad_outlines
from geometry.part import CannotDraw, Part, Place, layer_notes, mm, slug
from geometry.tube_plug import tube_plug
from isolator.design import Foot, PrintSettings

SQUASHED = 0.7  # of the free height is left under an ear at the hardest knock; no source


def printed_parts(foot: Foot, settings: PrintSettings) -> list[Part]:
    """Return the flexible body, and the rigid mount and tube plug where needed."""
    if not attachment.is_captive(foot):
        return [_body(foot, settings, mm(foot.cap))]
    mount = _mount(foot, settings)
    skin = mm(foot.cap) - mount.box[2]
    parts = [_body(foot, settings, skin), mount]
    if foot.attachment == "tube-end":
        parts.append(tube_plug(foot, settings))
    return parts


def _body(foot: Foot, settings: PrintSettings, skin: float) -> Part:
    name = slug(foot.name, "foot")
    outer, inner = pad_outlines(foot.pad)
    thickness, sole, chamfer = (
        mm(foot.pad.thickness),
        mm(foot.sole),
        mm(settings.first_layer_chamfer),
    )
    height = skin + thickness + sole
    if min(skin, sole) < mm(settings.layer):
        raise CannotDraw(name, "sole", f"{min(skin, sole):g} mm of skin is less than one layer")
    solid = features.prism(outer, 0.0, height, chamfer)
    volume = chamfered_volume(lambda inset: outer.grown(-inset).area, chamfer, height)
    size_x = outer.size[0]
    cutters = []
    notes = [
        f"solid for {skin:g} mm at the bed and {sole:g} mm at the top; "
        f"{foot.pad.material} in the {thickness:g} mm between",
    ]
    if attachment.is_slot(foot):
        ears = attachment.ears(
            name, foot, outer, settings.hole_compensation, SQUASHED * thickness + sole
        )
        solid = solid.fuse(features.prism(ears.outline, 0.0, skin, chamfer)).clean()
        volume += chamfered_volume(
            lambda inset: ears.joined_area(outer, inset) - outer.grown(-inset).area, chamfer, skin
        )
        cutters += [
            features.hole(ears.hole, -1.0, skin + 1.0, x) for x in (-ears.reach, ears.reach)
        ]
        volume -= 2 * features.hole_area(ears.hole) * skin
        size_x = max(size_x, ears.outline.size[0])
        notes.append(f"two ISO 7380-1 {ears.thread.name} screws from below into slot nuts")
    if inner is not None:
        # the pad's own hole is drawn as solved, without compensation
        cutters.append(features.prism(inner, -1.0, height + 1.0))
        volume -= inner.area * height
    return Part(
        name=name,
        owner=foot.name,
        role="foot",
        quantity=len(foot.positions),
        solid=features.cut_all(solid, *cutters),
        material=foot.pad.material,
        orientation="as drawn: the face towards the printer's frame lies on the bed",
        notes=(*notes, *layer_notes(settings.layer, cap=skin, pad=thickness, sole=sole)),
        box=(size_x, outer.size[1], height),
        volume=volume,
        loaded=((skin, -1), (skin + thickness, 1)),
        places=tuple(
            Place(x=mm(x), y=mm(y), z=skin - mm(foot.cap), turned=True) for x, y in foot.positions
        ),
    )


def _mount(foot: Foot, settings: PrintSettings) -> Part:
    name = slug(foot.name, "mount")
    outline: Outline = pad_outlines(foot.pad)[0]
    screw = attachment.captive(name, foot, outline, settings.hole_compensation, settings.layer)
    height, chamfer = mm(foot.cap) - screw.cover, mm(settings.first_layer_chamfer)
    floor = height - screw.depth
    solid = features.cut_all(
        features.prism(outline, 0.0, height, chamfer),
        features.hole(screw.hole, -1.0, floor + 1.0),
        features.hexagon(screw.across_flats, floor, height + 1.0),
    )
    volume = chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height)
    volume -= features.hole_area(screw.hole) * floor
    volume -= features.hexagon_area(screw.across_flats) * screw.depth
    return Part(
        name=name,
        owner=foot.name,
        role="mount",
        quantity=len(foot.positions),
        solid=solid,
        material=settings.material,
        orientation="as drawn: the face towards the printer's frame lies on the bed",
        notes=(f"one ISO 4017 {screw.thread.name} screw; glue the flexible body over its head",),
        box=(*outline.size, height),
        volume=volume,
        loaded=((height, 1),),
        places=tuple(Place(x=mm(x), y=mm(y), z=0.0, turned=True) for x, y in foot.positions),
    )
