"""The room that a foot leaves its screws, and the room that they need: what the drawing refuses is
stopped by a check before."""

from __future__ import annotations

import math

import numpy as np

from isolator.design import OUTLINES, least_width
from isolator.design.attachment import HEAD_GAP, HEAD_UNDER, SQUASHED
from isolator.design.attachment_room import bearing, head, slot_reach
from isolator.feet.sized import SizedBatch
from isolator.feet.sizing import stop_share, wall_thickness
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array


def screw_room(of: SizedBatch) -> Array:
    """Return the width [m] that a foot's screw has to fit in, as `least_screw_room` asks it."""
    task, batch = of.task, of.batch
    if least_screw_room(task) == 0:
        return _boundless(of)
    wide, deep = batch.widths
    beside = of.width - np.maximum(wide, deep)
    wider, _ = _washers(of)
    if task.feet.holes:
        body = wide + beside, deep + beside
        room = _beside(task.feet.holes, *body, round_body=OUTLINES[batch.shape].round)
        return room - wider / 2.0
    if task.fastening.flanged:
        return np.asarray((deep if task.feet.slot_along == "x" else wide) + beside - wider)
    rim = 0.0 if batch.material.family == "printed" else 2.0 * wall_thickness(task)
    return np.asarray(np.minimum(wide, deep) + beside - rim)


def _washers(of: SizedBatch) -> tuple[float, float]:
    """Return by how much washers under heads are wider than these, and how high they are [m]."""
    task = of.task
    if of.batch.material.family != "printed" or not task.fastening.flanged:
        return 0.0, 0.0
    plain = head(task.feet.attachment, task.thread)
    across, tall = bearing(task.feet.attachment, task.thread, soft=True)
    return across - plain[0], tall - plain[1]


def _boundless(of: SizedBatch) -> Array:
    """Return the room of feet that need none."""
    return np.full(len(of.batch), np.inf)


def _beside(
    holes: tuple[tuple[float, float], ...], wide: Array, deep: Array, *, round_body: bool
) -> Array:
    """Return how far from the side of a body the middle of the nearest screw is [m]."""
    if round_body:
        return np.asarray(min(math.hypot(x, y) for x, y in holes) - wide / 2.0)
    gaps = []
    for x, y in holes:
        right, back = abs(x) - wide / 2.0, abs(y) - deep / 2.0
        corner = (right > 0) & (back > 0)
        gaps.append(np.where(corner, np.hypot(right, back), np.maximum(right, back)))
    return np.asarray(np.minimum.reduce(gaps))


def least_screw_room(task: FeetTask) -> float:
    """Return the width [m] that the brief's attachment needs; beside the foot for placed screws."""
    feet = task.feet
    if task.slab is not None:
        return 0.0
    if feet.holes:
        return head(feet.attachment, task.thread)[0] / 2.0 + HEAD_GAP
    return least_width(
        feet.attachment, feet.bolt, feet.tube, task.print.hole_compensation, fixing=feet.fixing
    )


def head_room(of: SizedBatch) -> Array:
    """Return the height [m] that is free for screw heads under a flange.

    Heads must stay above the sole beside them, or they would touch it as the printer sways: they
    have the depth of a cup's rim, and a printed foot's pad or a mount at the hardest knock.
    """
    batch, layer = of.batch, of.task.print.layer
    if least_head_room(of.task) == 0:
        return _boundless(of)
    if batch.material.family == "printed" or batch.ends:
        return SQUASHED * batch.thickness - _washers(of)[1]
    rim = batch.thickness * (1.0 - stop_share(batch.material, batch.shape))
    return np.maximum(np.floor(rim / layer + 0.5 + 1e-9), 1.0) * layer


def least_head_room(task: FeetTask) -> float:
    """Return the height [m] that a flange's screw heads need under it, 0 without a flange."""
    if task.slab is not None or not task.fastening.flanged:
        return 0.0
    return head(task.feet.attachment, task.thread)[1] + HEAD_UNDER


NUT = 6e-3
"""Half of a slot nut, which must lie in its profile [m]; common practice, no source."""


def frame_left(of: SizedBatch) -> Array:
    """Return what is left of the frame beyond the outer slot screws [m], infinite without slots.

    A profile is taken as long as the printer is wide, or deep.
    """
    task, batch = of.task, of.batch
    if task.slab is not None or task.fastening.slot is None:
        return _boundless(of)
    axis = "xy".index(task.feet.slot_along)
    outside = batch.widths[axis] + of.width - np.maximum(*batch.widths)
    across = head(task.feet.attachment, task.thread)[0] + _washers(of)[0]
    reach = slot_reach(outside, across)
    farthest = float(np.abs(batch.positions[:, axis]).max())
    return np.asarray(task.frame[axis] / 2.0 - farthest - reach)


def slab_left(of: SizedBatch) -> Array:
    """Return what is left of the slab beyond the outer pads [m], infinite without a slab."""
    slab, batch = of.task.slab, of.batch
    if slab is None:
        return _boundless(of)
    places = np.abs(batch.positions - np.array(slab.position)).max(axis=0)
    left = [
        side / 2.0 - place - wide / 2.0
        for side, place, wide in zip(slab.size[:2], places, batch.widths, strict=True)
    ]
    return np.asarray(np.minimum(*left))
