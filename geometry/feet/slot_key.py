"""The loose key that guides a foot in an extrusion's slot: a strip in a groove of the cap [mm].

The face towards the printer lies on the print bed, so nothing can stand out of it; the key is a
part of its own, which a groove in that face holds in place.
"""

from __future__ import annotations

from typing import Any, NamedTuple

from geometry.feet.flange import Flange
from geometry.solids import features
from geometry.solids.bridges import LONGEST_BRIDGE
from geometry.solids.outline import Outline, chamfered_volume
from geometry.solids.part import CannotDraw, Part, Placement, mm
from isolator.design import EAR, Foot, PrintSettings, quantise_up
from isolator.design.attachment import KEY_GROOVE, KEY_PLAY
from isolator.design.naming import slug

FIT = 0.2  # of the groove over the key's width and length [mm]
HOLE_WALL = 2.0  # from the groove's end to a screw hole [mm]
LEAST_LENGTH = 2.0  # of the key, in widths
WIDEST = LONGEST_BRIDGE - 0.05  # of a groove, which is bridged across; a thread's play less [mm]
MOST_PLAY = 0.8  # of a key in a slot that still guides the foot; no source [mm]


class Groove(NamedTuple):
    """The groove in the cap's face [mm]."""

    outline: Outline
    depth: float

    @property
    def removed(self) -> float:
        """Return the volume it takes [mm³]."""
        return self.outline.area * self.depth + features.relief_volume(self.outline, self._relief)

    @property
    def mouth(self) -> Outline:
        """Return the groove's outline in the face on the bed."""
        return self.outline.grown(self._relief)

    def cutters(self) -> list[Any]:
        """Return what to cut from the cap, its face towards the printer at z = 0."""
        straight = features.prism(self.outline, -1.0, self.depth)
        return [straight, features.relief(self.outline, self._relief)]

    @property
    def _relief(self) -> float:
        return min(features.RELIEF, self.depth / 2)


def groove(part: str, foot: Foot, held: Flange, settings: PrintSettings) -> Groove:
    """Return the groove between the screws of a slot's flange.

    Raises CannotDraw where it does not fit the flange, leaves too little of it, or would be too
    wide to be bridged: a key somewhat wider is drawn as wide as a strand spans.
    """
    more = FIT + mm(settings.hole_compensation)
    wide = min(mm(foot.key) - mm(KEY_PLAY) + more, WIDEST)
    if mm(foot.key) - (wide - more) > MOST_PLAY + 1e-9:
        raise CannotDraw(
            part,
            "key",
            f"{mm(foot.key):g} mm is wider than a groove can be bridged for; "
            f"{WIDEST - more + MOST_PLAY:.2f} mm can",
        )
    axis = "xy".index(foot.along)
    room = held.outline.size[1 - axis] - 2 * mm(settings.first_layer_chamfer) - 2 * HOLE_WALL
    if wide > room:
        raise CannotDraw(
            part,
            "key",
            f"its groove of {wide:.2f} mm does not fit the flange; {room:.2f} mm does",
        )
    reach = min(abs(at[axis]) for at in held.places)
    long = 2 * (reach - held.hole / 2 - HOLE_WALL)
    if long < LEAST_LENGTH * wide:
        raise CannotDraw(
            part,
            "key",
            f"{long:.2f} mm between the screw holes is too short for one {mm(foot.key):g} mm wide",
        )
    depth = mm(quantise_up(KEY_GROOVE, settings.layer))
    if mm(foot.cap) - depth < mm(EAR) - 1e-9:
        raise CannotDraw(
            part,
            "cap",
            f"{mm(foot.cap):g} mm is thinner than the {mm(EAR) + depth:g} mm that an ear with a "
            "key's groove needs",
        )
    core = (long - wide, 0.0) if axis == 0 else (0.0, long - wide)
    return Groove(outline=Outline(core_x=core[0], core_y=core[1], offset=wide / 2), depth=depth)


def slot_key(foot: Foot, cut: Groove, settings: PrintSettings) -> Part:
    """Return the key that lies in a groove and stands into the slot, nearly through its lips."""
    name = slug(foot.name, "key")
    layer = mm(settings.layer)
    slot = foot.fastening.slot
    if slot is None:
        raise CannotDraw(name, "key", f"{foot.attachment} has no slot that a key could guide in")
    most = mm(slot.key_stands)
    stands = round(int(most / layer + 1e-9) * layer, 9)
    if stands < layer:
        raise CannotDraw(
            name, "layer", f"{layer:g} mm is higher than the key may stand, {most:g} mm"
        )
    less = FIT + mm(settings.hole_compensation)
    outline = cut.outline.grown(-less / 2)
    height = cut.depth + stands
    chamfer = min(mm(settings.first_layer_chamfer), height / 2)
    return Part(
        name=name,
        owner=foot.name,
        role="key",
        quantity=len(foot.positions),
        solid=features.one_solid(features.prism(outline, 0.0, height, chamfer)),
        material=settings.material,
        orientation="as drawn: the chamfered face lies on the bed and goes into the groove",
        notes=(
            f"lay it into the groove with a drop of glue; it stands {stands:g} mm into the slot "
            "past its rounded edges, and guides the foot",
        ),
        box=(*outline.size, height),
        volume=chamfered_volume(lambda inset: outline.grown(-inset).area, chamfer, height),
        loaded=(),
        places=tuple(
            Placement(x=mm(x), y=mm(y), z=-cut.depth, turned=False) for x, y in foot.positions
        ),
    )
