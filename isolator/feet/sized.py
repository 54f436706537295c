"""What the sizes of feet alone decide, for one foot or for many: width, height, room for screws."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.design import OUTLINES, Foot
from isolator.feet import screw_clearance as room
from isolator.feet.candidates import CandidateBatch, batch_of
from isolator.feet.sizing import foot_height, outer_width
from isolator.feet.task import FeetTask

Array = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedBatch:
    """Candidates with the sizes of their feet; every method returns (n,) [m].

    Infinite where a foot needs none of what is asked.
    """

    task: FeetTask
    batch: CandidateBatch
    width: Array  # of the feet's outside (n,) [m]
    height: Array  # of the feet, a slab over them not counted (n,) [m]

    def screw_room(self) -> Array:
        """Return the width that a foot's screw has to fit in."""
        batch = self.batch
        if room.least_screw_room(self.task) == 0:
            return np.full(len(batch), np.inf)
        pads = (batch.material, batch.shape, batch.first, batch.second)
        return room.screw_room(self.task, *pads, self.width)

    def head_room(self) -> Array:
        """Return the height that is free for screw heads under a flange."""
        batch = self.batch
        if room.least_head_room(self.task) == 0:
            return np.full(len(batch), np.inf)
        return room.head_room(self.task, batch.material, batch.shape, batch.thickness)

    def frame_left(self) -> Array:
        """Return what is left of the frame beyond the outer slot screws."""
        batch = self.batch
        pads = (batch.shape, batch.first, batch.second)
        return room.frame_left(self.task, *pads, self.width, batch.positions)

    def slab_left(self) -> Array:
        """Return what is left of the slab beyond the outer pads."""
        batch = self.batch
        return room.slab_left(self.task, batch.shape, batch.first, batch.second, batch.positions)


def sized(task: FeetTask, batch: CandidateBatch) -> SizedBatch:
    """Return candidates with the sizes of their feet."""
    outer = np.maximum(batch.first, OUTLINES[batch.shape].along_y(batch.first, batch.second))
    # few widths come again and again
    own, which = np.unique(outer, return_inverse=True)
    width = np.array([outer_width(task, float(one), batch.material, batch.shape) for one in own])
    return SizedBatch(
        task=task,
        batch=batch,
        width=width[which],
        height=foot_height(task, batch.material, batch.shape, batch.thickness),
    )


def sized_foot(task: FeetTask, foot: Foot, material: Material) -> SizedBatch:
    """Return a drawn foot as a batch of one, as tall as its sheet says."""
    height = foot.height - (0.0 if foot.build.hung else foot.cap)
    return replace(sized(task, batch_of(foot, material)), height=np.array([height]))
