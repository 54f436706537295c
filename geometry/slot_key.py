"""The loose key that guides a foot in an extrusion's slot: a strip in a groove of the cap [mm].

The face towards the printer lies on the print bed, so nothing can stand out of it; the key is a
part of its own, which a groove in that face holds in place.
"""

from __future__ import annotations

from typing import NamedTuple

from geometry import features
from geometry.flange import Flange
from geometry.outline import Outline, chamfered_volume
from geometry.part import CannotDraw, Part, Place, mm, slug
from isolator.design import Foot, PrintSettings, quantise_up
from isolator.design.attachment import KEY_GROOVE, KEY_PLAY, KEY_STANDS

FIT = 0.2  # of the groove over the key's width and length [mm]
HOLE_WALL = 2.0  # from the groove's end to a screw hole [mm]
LEAST_LENGTH = 2.0  # of the key, in widths


class Groove(NamedTuple):
    """The groove in the cap's face [mm]."""

    outline: Outline
    depth: float

    @property
    def removed(self) -> float:
        """Return the volume it takes [mm³]."""
        return self.outline.area * self.depth


def groove(part: str, foot: Foot, held: Flange, settings: PrintSettings) -> Groove:
    """Return the groove between the screws of a slot's flange; raises CannotDraw where it does
    not fit."""
    wide = mm(foot.key) - mm(KEY_PLAY) + FIT + mm(settings.hole_compensation)
    room = held.outline.size[1] - 2 * mm(settings.first_layer_chamfer) - 2 * HOLE_WALL
    if wide > room:
        raise CannotDraw(
            part, "key",
            f"its groove of {wide:.2f} mm does not fit the flange; {room:.2f} mm does",
        )  # fmt: skip
    reach = min(abs(x) for x, _ in held.places)
    long = 2 * (reach - held.hole / 2 - HOLE_WALL)
    if long < LEAST_LENGTH * wide:
        raise CannotDraw(
            part, "key",
            f"{long:.2f} mm between the screw holes is too short for one {mm(foot.key):g} mm wide",
        )  # fmt: skip
    return Groove(
        outline=Outline(core_x=long - wide, core_y=0.0, offset=wide / 2),
        depth=mm(quantise_up(KEY_GROOVE, settings.layer)),
    )


def slot_key(foot: Foot, cut: Groove, settings: PrintSettings) -> Part:
    """Return the key that lies in a groove and stands into the slot, no higher than KEY_STANDS."""
    name = slug(foot.name, "key")
    layer = mm(settings.layer)
    stands = int(mm(KEY_STANDS) / layer + 1e-9) * layer
    if stands < layer:
        raise CannotDraw(
            name, "layer", f"{layer:g} mm is higher than the key may stand, {mm(KEY_STANDS):g} mm"
        )
    less = FIT + mm(settings.hole_compensation)
    outline = cut.outline.grown(-less / 2)
    height = cut.depth + stands
    chamfer = min(mm(settings.first_layer_chamfer), height / 2)
    return Part(
        name=name, owner=foot.name, role="key", quantity=len(foot.positions),
        solid=features.one_solid(features.prism(outline, 0.0, height, chamfer)),
        material=settings.material,
        orientation="as drawn: the chamfered face lies on the bed and goes into the groove",
        notes=(
            f"lay it into the groove; it stands {stands:g} mm into the slot and guides the foot",
        ),
        box=(*outline.size, height),
        volume=chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height),
        loaded=(),
        places=tuple(
            Place(x=mm(x), y=mm(y), z=-cut.depth, turned=False) for x, y in foot.positions
        ),
    )  # fmt: skip
