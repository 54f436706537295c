"""How a foot is held: ears for slot screws, a captive hexagon screw, a plug for a tube, glue.

Every cup and printed foot lies with its upper face on the print bed, so nothing can stand out of
that face without support. Two ears in line with the slot therefore centre a foot on an extrusion,
and what must stand up (a tube plug) is a part of its own, held by the captive screw.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from geometry.fasteners import Thread, thread
from geometry.outline import Outline
from geometry.part import CannotDraw, mm
from isolator import design as shared
from isolator.design import COVER, EAR, FLOOR, Foot, attachment_thread, quantise_up

EAR_MARGIN = mm(shared.EAR_MARGIN)  # ear left round the screw head [mm]
HEAD_GAP = 0.5  # between screw head and the foot's side [mm]
HEX_FIT = mm(shared.HEX_FIT)  # play across flats of a pressed-in hexagon [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ears:
    """Two ears along x: one long outline through both, and their holes [mm]."""

    thread: Thread
    outline: Outline
    hole: float
    reach: float  # x of each hole

    def joined_area(self, body: Outline, inset: float) -> float:
        """Return the area [mm²] of body and ears together, both drawn in by `inset` [mm]."""
        ear, core = self.outline.grown(-inset), body.grown(-inset)
        return core.area + ear.area - core.strip_area(min(ear.size[1], core.size[1]))


@dataclass(frozen=True, slots=True, kw_only=True)
class Captive:
    """A hexagon head let into the cap under a cover [mm]."""

    thread: Thread
    hole: float
    across_flats: float
    depth: float
    cover: float


def ears(part: str, foot: Foot, body: Outline, hole_compensation: float, room: float) -> Ears:
    """Return the ears for a slot; `room` [mm] is the free height under them, desk to ear."""
    row = thread(part, mm(attachment_thread(foot.attachment, foot.bolt, foot.tube)))
    width = row.button + 2 * EAR_MARGIN
    if width > body.size[1]:
        raise CannotDraw(
            part,
            "bolt",
            f"the ear for {row.name} is {width:g} mm wide, "
            f"wider than the foot's {body.size[1]:g} mm",
        )
    if mm(foot.cap) < mm(EAR):
        raise CannotDraw(
            part, "cap", f"{mm(foot.cap):g} mm is thinner than the {mm(EAR):g} mm that an ear needs"
        )
    if row.button_height + 1.0 > room:
        raise CannotDraw(
            part,
            "pad.thickness",
            f"only {room:g} mm under the ear; the {row.name} screw head needs "
            f"{row.button_height + 1.0:g} mm",
        )
    reach = body.size[0] / 2 + HEAD_GAP + row.button / 2
    outline = Outline(core_x=2 * reach, core_y=0.0, offset=width / 2)
    return Ears(
        thread=row, outline=outline, hole=row.clearance + mm(hole_compensation), reach=reach
    )


def captive(
    part: str, foot: Foot, plate: Outline, hole_compensation: float, layer: float
) -> Captive:
    """Return the captive screw of a bolt or tube-end attachment; `plate` is the face over it."""
    row = thread(part, mm(attachment_thread(foot.attachment, foot.bolt, foot.tube)))
    depth, cover = mm(quantise_up(row.head / 1000.0, layer)), mm(quantise_up(COVER, layer))
    flats = row.across_flats + HEX_FIT + mm(hole_compensation)
    corners = 2 * flats / math.sqrt(3) + 2 * EAR_MARGIN
    if corners > min(plate.size):
        raise CannotDraw(
            part,
            "bolt",
            f"the {row.name} head needs {corners:.2f} mm of plate; "
            f"the foot has {min(plate.size):g} mm",
        )
    wanted = depth + cover + mm(quantise_up(FLOOR, layer))
    if mm(foot.cap) < wanted - 1e-9:
        raise CannotDraw(
            part,
            "cap",
            f"{mm(foot.cap):g} mm cannot hide the {row.name} head; {wanted:g} mm can",
        )
    return Captive(
        thread=row,
        hole=row.clearance + mm(hole_compensation),
        across_flats=flats,
        depth=depth,
        cover=cover,
    )


def is_slot(foot: Foot) -> bool:
    """Return whether the foot is screwed to an extrusion slot."""
    return foot.attachment.startswith("slot")


def is_captive(foot: Foot) -> bool:
    """Return whether the foot holds a screw under a cover."""
    return foot.attachment in ("bolt", "tube-end")
