"""The room that an attachment needs in and beside a foot [m]: cap, head, hole, width."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING, TypeVar

from isolator.design.attachment import (
    ATTACHMENTS,
    COVER,
    EAR,
    EAR_MARGIN,
    FLOOR,
    HEAD_GAP,
    HEAD_PLAY,
    HEX_FIT,
    KEY_GROOVE,
    PLATE,
    SPARE,
    attachment_thread,
)
from isolator.design.layers import quantise_up
from isolator.design.screws import (
    DIRECT_DEPTH,
    DIRECT_HOLE,
    DIRECT_WALL,
    insert,
    screw,
    self_tapping,
    washer_row,
)

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

Width = TypeVar("Width", float, "NDArray[np.float64]")


def bearing(attachment: str, thread: float, *, soft: bool) -> tuple[float, float]:
    """Return diameter and height [m] of what bears under a flange: a screw's head.

    Under a `soft` flange a washer lies between, or the head would sink in.
    """
    across, tall = head(attachment, thread)
    if not soft:
        return across, tall
    row = washer_row(thread)
    return max(across, row.washer), tall + row.washer_height


def head(attachment: str, thread: float) -> tuple[float, float]:
    """Return diameter and height [m] of the round head under a flange or of a driven screw.

    Button heads of ISO 7380-1, and pan heads of self-tapping screws.
    """
    if ATTACHMENTS[attachment].tapping:
        row = self_tapping(thread)
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
    kind = ATTACHMENTS[attachment]
    if kind.where == "face":
        return quantise_up(PLATE, layer)
    if kind.flanged:
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
    if ATTACHMENTS[attachment].driven:
        return head(attachment, thread)[1]
    if fixing == "insert":
        return insert(thread).length + SPARE
    row = screw(thread)
    return row.nut_height + SPARE if fixing == "nut" else row.hexagon_height


def clearance(attachment: str, thread: float, fixing: str) -> float:
    """Return the hole [m] that an attachment's screw goes through, without compensation.

    Coarse series where holes were measured by hand, fine over an insert, which leans on what is
    left round it; else medium (ISO 273), and common practice for self-tapping screws.
    """
    if ATTACHMENTS[attachment].tapping:
        return self_tapping(thread).clearance
    metric = screw(thread)
    if ATTACHMENTS[attachment].coarse:
        return metric.coarse
    return metric.fine if fixing == "insert" else metric.clearance


def slot_reach(wide: Width, across: float, gap: float = HEAD_GAP) -> Width:
    """Return how far from the foot's middle its two screws in line are; all in one unit.

    `wide` is the foot's outside along the slot, `across` the width of a screw's head.
    """
    return wide / 2.0 + gap + across / 2.0


def least_width(
    attachment: str,
    bolt: float,
    tube: float,
    compensation: float,
    *,
    fixing: str = "screw",
    soft: bool = False,
) -> float:
    """Return the least width [m] of what takes a foot's screw.

    For slots the foot's outside along y, which two ears in line join; for what is hidden in the
    cap the narrow side of the pocket over the pad; 0 for glue and for screws with places of
    their own, round which the flange is drawn. Ears of a `soft` flange hold
    washers. `compensation` [m] is what the user's printer adds
    to holes.
    """
    kind = ATTACHMENTS[attachment]
    if kind.where == "face" or (kind.flanged and kind.slot is None):
        return 0.0
    thread = attachment_thread(attachment, bolt, tube)
    if kind.flanged:
        return bearing(attachment, thread, soft=soft)[0] + 2.0 * EAR_MARGIN
    if kind.driven:
        return head(attachment, thread)[0] + HEAD_PLAY + compensation + 2.0 * EAR_MARGIN
    if fixing == "insert":
        row = insert(thread)
        return row.hole + compensation + 2.0 * row.wall
    if fixing == "direct":
        return DIRECT_HOLE * thread + compensation + 2.0 * DIRECT_WALL * thread
    return 2.0 * (screw(thread).flats + HEX_FIT + compensation) / math.sqrt(3.0) + 2.0 * EAR_MARGIN
