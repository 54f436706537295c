"""The room that a foot leaves its screws, and the room that they need: what the drawing refuses is
stopped by a check before."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.design import OUTLINES, attachment_thread, least_width
from isolator.design.attachment import (
    ATTACHMENTS,
    HEAD_GAP,
    HEAD_UNDER,
    SQUASHED,
    head,
    slot_reach,
)
from isolator.feet.sizing import stop_share, wall_thickness
from isolator.feet.task import FeetTask

Array = NDArray[np.float64]


def screw_room(
    task: FeetTask, material: Material, shape: str, first: Array, second: Array, width: Array
) -> Array:
    """Return the width [m] that a foot's screw has to fit in, as `least_screw_room` asks it.

    `first`, `second` of the pad and the foot's outside `width`, arrays of one shape [m].
    """
    outline = OUTLINES[shape]
    deep = outline.along_y(first, second)
    beside = width - np.maximum(first, deep)
    if task.feet.holes:
        return _beside(
            task.feet.holes,
            first + beside,
            deep + beside,
            round_body=outline.round,
        )
    flange = ATTACHMENTS[task.feet.attachment].flanged
    across = deep if task.feet.slot_along == "x" else first
    narrow = across if flange else np.minimum(first, deep)
    rim = 0.0 if flange or material.family == "printed" else 2.0 * wall_thickness(task)
    return np.asarray(narrow + beside - rim)


def _beside(
    holes: tuple[tuple[float, float], ...], wide: Array, deep: Array, *, round_body: bool
) -> Array:
    """Return how far from the side of a body the middle of the nearest screw is [m]."""
    if round_body:
        return np.asarray(min(math.hypot(x, y) for x, y in holes) - wide / 2.0)
    gaps = [
        np.where(
            (abs(x) > wide / 2.0) & (abs(y) > deep / 2.0),
            np.hypot(abs(x) - wide / 2.0, abs(y) - deep / 2.0),
            np.maximum(abs(x) - wide / 2.0, abs(y) - deep / 2.0),
        )
        for x, y in holes
    ]
    return np.asarray(np.minimum.reduce(gaps))


def least_screw_room(task: FeetTask) -> float:
    """Return the width [m] that the brief's attachment needs; beside the foot for placed screws."""
    feet = task.feet
    if task.slab is not None:
        return 0.0
    if feet.holes:
        thread = attachment_thread(feet.attachment, feet.bolt, feet.tube)
        return head(feet.attachment, thread)[0] / 2.0 + HEAD_GAP
    return least_width(
        feet.attachment, feet.bolt, feet.tube, task.print.hole_compensation, fixing=feet.fixing
    )


def head_room(task: FeetTask, material: Material, shape: str, thickness: Array | float) -> Array:
    """Return the height [m] that is free for screw heads under a flange, over a pad's thickness.

    Heads must stay above the sole beside them, or they would touch it as the printer sways: they
    have the depth of a cup's rim, and a printed foot's pad at the hardest knock.
    """
    tall = np.asarray(thickness, dtype=float)
    if material.family == "printed":
        return SQUASHED * tall
    layer = task.print.layer
    rim = np.maximum(np.floor(tall * (1.0 - stop_share(material, shape)) / layer + 0.5 + 1e-9), 1.0)
    return rim * layer


def least_head_room(task: FeetTask) -> float:
    """Return the height [m] that a flange's screw heads need under it, 0 without a flange."""
    feet = task.feet
    if task.slab is not None or not ATTACHMENTS[feet.attachment].flanged:
        return 0.0
    thread = attachment_thread(feet.attachment, feet.bolt, feet.tube)
    return head(feet.attachment, thread)[1] + HEAD_UNDER


NUT = 6e-3
"""Half of a slot nut, which must lie in its profile [m]; common practice, no source."""


def frame_left(
    task: FeetTask, shape: str, first: Array, second: Array, width: Array, positions: Array
) -> Array:
    """Return what is left of the frame beyond the outer slot screws [m], infinite without slots.

    A profile is taken as long as the printer is wide, or deep. `first`, `second` of the pads and
    the feet's outside `width`, arrays of one shape [m]; `positions` (s, 2) [m].
    """
    feet = task.feet
    if task.slab is not None or ATTACHMENTS[feet.attachment].slot is None:
        return np.full(np.shape(first), np.inf)
    axis = "xy".index(feet.slot_along)
    sides = first, OUTLINES[shape].along_y(first, second)
    thread = attachment_thread(feet.attachment, feet.bolt, feet.tube)
    outside = sides[axis] + width - np.maximum(*sides)
    reach = slot_reach(outside, head(feet.attachment, thread)[0])
    farthest = float(np.abs(np.asarray(positions)[:, axis]).max())
    return np.asarray(task.frame[axis] / 2.0 - farthest - reach)


def slab_left(task: FeetTask, shape: str, first: Array, second: Array, positions: Array) -> Array:
    """Return what is left of the slab beyond the outer pads [m], infinite without a slab.

    `first`, `second` of the pads, arrays of one shape, `positions` (s, 2) [m].
    """
    slab = task.slab
    if slab is None:
        return np.full(np.shape(first), np.inf)
    places = np.abs(np.asarray(positions) - np.array(slab.position)).max(axis=0)
    deep = OUTLINES[shape].along_y(first, second)
    return np.asarray(
        np.minimum(
            slab.size[0] / 2.0 - places[0] - first / 2.0,
            slab.size[1] / 2.0 - places[1] - deep / 2.0,
        )
    )
