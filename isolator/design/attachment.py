"""How a foot is held under a printer, and the room that this needs [m].

Four ways to hold: a flange beside the pad, through which screws go up into the frame; a hexagon
head, nut, insert or thread in the cap over the pad; a screw driven from below through the cap
before the pad is glued in; glue.
"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeVar

from isolator.design.layers import quantise_up
from isolator.design.screws import (
    DIRECT_DEPTH,
    DIRECT_HOLE,
    DIRECT_WALL,
    INSERTS,
    SELF_TAPPING,
    THIN_NUT,
    screw,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Width = TypeVar("Width", float, "NDArray[np.float64]")

ATTACHMENTS = (
    "slot-20",
    "slot-30",
    "slot-40",
    "tapped-end",
    "bolt",
    "two-bolts",
    "tube-end",
    "rod-end",
    "panel",
    "self-tapping",
    "stud",
    "holes",
    "adhesive",
)
FLANGED = ("slot-20", "slot-30", "slot-40", "two-bolts", "self-tapping", "holes")
"""Screws go up through a flange beside the pad, heads below it."""
CAPTIVE = ("bolt", "panel", "stud", "tube-end", "rod-end")
"""One thread in the middle of the cap, over the pad."""
SLOTS = ("slot-20", "slot-30", "slot-40")
FIXINGS = ("screw", "nut", "insert", "direct")
"""What the cap holds of a captive attachment: the head of a screw that stands up, or a nut, a
heat-set insert or a thread of its own for a screw from above."""
CHOOSES_FIXING = ("bolt", "panel")
"""Attachments that leave the fixing open; all others are held by a screw."""

EAR_MARGIN = 2.0e-3  # solid left round a screw head [m]
HEAD_GAP = 0.5e-3  # between a screw head and the foot's side [m]
HEAD_UNDER = 1.0e-3  # free height that a head under a flange needs besides its own [m]
SQUASHED = 0.7  # of a printed foot's free height is left at the hardest knock; no source
HEX_FIT = 0.2e-3  # play across flats of a pressed-in hexagon [m]
HEAD_PLAY = 0.6e-3  # on the diameter of a pocket that a round head is let into [m]
COVER = 1.6e-3  # printed layer between a captive screw head and the pad [m]
FLOOR = 2.4e-3  # least solid under a captive screw head [m]
EAR = 3.0e-3  # least thickness of an ear that a slot screw clamps [m]
SPARE = 1.5e-3  # of a nut's or insert's recess, or a blind thread, beyond what it holds [m]
LEVELLING = 10.0e-3  # by which a stud can be turned; it is drawn half out; convention, no source
PLATE = 1.2e-3  # least thickness of any printed plate under a pad [m]
KEY_GROOVE = 0.6e-3  # depth to which a loose slot key is let into the cap [m]
KEY_STANDS = 0.5e-3  # height by which it stands into the slot [m]
KEY_PLAY = 0.3e-3  # of the key's width in the slot [m]

_USUAL = {
    "slot-20": 0.005,
    "slot-30": 0.006,
    "slot-40": 0.008,
    "tapped-end": 0.005,
    "two-bolts": 0.005,
    "rod-end": 0.005,
    "panel": 0.005,
    "self-tapping": 0.0035,
    "stud": 0.008,
    "holes": 0.004,
}
"""Thread that goes with an attachment [m] (common practice, no source)."""


def hides(attachment: str) -> bool:
    """Return whether the cap holds a screw, nut, insert or thread of this attachment over the pad.

    >>> hides("stud"), hides("tapped-end"), hides("slot-20"), hides("adhesive")
    (True, True, False, False)
    """
    return attachment in CAPTIVE or attachment == "tapped-end"


def attachment_thread(attachment: str, bolt: float, tube: float) -> float:
    """Return the thread diameter [m] that an attachment is drawn with, 0 for "adhesive".

    `bolt` [m] rules where it is given (above 0). Otherwise slots take M5, M6 and M8, one bolt M6,
    a stud M8, old holes M4, plastic a 3.5 mm self-tapping screw, a tube M5 where its inner
    diameter `tube` [m] leaves a wall round the nut (13 mm and more), M4 from 11.6 mm and M3 below,
    and all else M5 (common practice, no source).
    """
    if attachment == "adhesive":
        return 0.0
    if bolt > 0:
        return bolt
    if attachment == "tube-end":
        return 0.005 if tube >= 0.013 else 0.004 if tube >= 0.0116 else 0.003
    return _USUAL.get(attachment, 0.006)


def head(attachment: str, thread: float) -> tuple[float, float]:
    """Return diameter and height [m] of the round head under a flange or of a driven screw.

    Button heads of ISO 7380-1, and pan heads of self-tapping screws.
    """
    if attachment == "self-tapping":
        row = SELF_TAPPING.get(round(thread, 6), SELF_TAPPING[max(SELF_TAPPING)])
        return row.head, row.head_height
    metric = screw(thread)
    return metric.button, metric.button_height


def least_cap(
    attachment: str,
    bolt: float,
    tube: float,
    layer: float,
    *,
    fixing: str = "screw",
    key: float = 0.0,
) -> float:
    """Return the least `cap` [m] with which a foot of this attachment can be drawn.

    A flange is as thick as the cap. A captive hexagon, insert or driven head is hidden in the cap
    with `FLOOR` over it and a glued cover of `COVER` below, so that the pad bears on its whole
    area; a direct thread leaves as much solid over it. `layer` is the layer height, `key` the
    width of a slot that a loose key guides in, 0 for none [m]; the result is whole layers.
    """
    if attachment == "adhesive":
        return quantise_up(PLATE, layer)
    if attachment in FLANGED:
        groove = quantise_up(KEY_GROOVE, layer) if key > 0 else 0.0
        return round(quantise_up(EAR, layer) + groove, 9)
    thread = attachment_thread(attachment, bolt, tube)
    if fixing == "direct":
        return round(
            quantise_up(DIRECT_DEPTH * thread + SPARE, layer) + quantise_up(COVER, layer), 9
        )
    depth = fixing_depth(attachment, thread, fixing)
    return round(sum(quantise_up(height, layer) for height in (COVER, depth, FLOOR)), 9)


def fixing_depth(attachment: str, thread: float, fixing: str) -> float:
    """Return how much of the cap's height the hidden head, nut or insert takes [m].

    Behind a nut and an insert `SPARE` is left, for a screw that is a little long and for plastic
    that an insert pushes before it.
    """
    if attachment == "tapped-end":
        return head(attachment, thread)[1]
    if fixing == "insert":
        return INSERTS.get(round(thread, 6), INSERTS[max(INSERTS)]).length + SPARE
    row = screw(thread)
    return row.nut_height + SPARE if fixing == "nut" else row.hexagon_height


def clearance(attachment: str, thread: float, fixing: str) -> float:
    """Return the hole [m] that an attachment's screw goes through, without compensation.

    Coarse series where holes were measured by hand, fine over an insert, which leans on what is
    left round it; else medium (ISO 273), and common practice for self-tapping screws.
    """
    if attachment == "self-tapping":
        row = SELF_TAPPING.get(round(thread, 6), SELF_TAPPING[max(SELF_TAPPING)])
        return row.clearance
    metric = screw(thread)
    if attachment in ("holes", "two-bolts"):
        return metric.coarse
    return metric.fine if fixing == "insert" else metric.clearance


def slot_reach(wide: Width, across: float, gap: float = HEAD_GAP) -> Width:
    """Return how far from the foot's middle its two screws in line are; all in one unit.

    `wide` is the foot's outside along the slot, `across` the width of a screw's head.
    """
    return wide / 2.0 + gap + across / 2.0


def lift_of(attachment: str, thread: float) -> float:
    """Return how far an attachment holds the cap off the frame [m]; 0 for most.

    On a stud a washer and a nut clamp its head in the cap, a thin nut and a washer lock it at the
    frame; between them half of `LEVELLING`. A rod stands on the closed end of its socket.
    """
    if attachment == "rod-end":
        return DIRECT_DEPTH * thread
    if attachment != "stud":
        return 0.0
    row = screw(thread)
    thin = THIN_NUT.get(round(thread * 1e3), 0.6 * thread)
    return 2.0 * row.washer_height + row.nut_height + LEVELLING / 2.0 + thin


def least_width(
    attachment: str, bolt: float, tube: float, compensation: float, *, fixing: str = "screw"
) -> float:
    """Return the least width [m] of what takes a foot's screw.

    For slots the foot's outside along y, which two ears in line join; for what is hidden in the
    cap the narrow side of the pocket over the pad; 0 for "adhesive" and for screws with places of
    their own, round which the flange is drawn. `compensation` [m] is what the user's printer adds
    to holes.
    """
    if attachment == "adhesive" or (attachment in FLANGED and attachment not in SLOTS):
        return 0.0
    thread = round(attachment_thread(attachment, bolt, tube), 6)
    if attachment in FLANGED:
        return head(attachment, thread)[0] + 2.0 * EAR_MARGIN
    if attachment == "tapped-end":
        return head(attachment, thread)[0] + HEAD_PLAY + compensation + 2.0 * EAR_MARGIN
    if fixing == "insert":
        row = INSERTS.get(thread, INSERTS[max(INSERTS)])
        return row.hole + compensation + 2.0 * row.wall
    if fixing == "direct":
        return DIRECT_HOLE * thread + compensation + 2.0 * DIRECT_WALL * thread
    return 2.0 * (screw(thread).flats + HEX_FIT + compensation) / math.sqrt(3.0) + 2.0 * EAR_MARGIN
