"""The outside of feet, one or many: their width and height."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from isolator.cards import Material
from isolator.design import Foot
from isolator.feet.candidates import CandidateBatch, batch_of
from isolator.feet.sizing import foot_height, outer_width
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array


@dataclass(frozen=True, slots=True, kw_only=True)
class SizedBatch:
    """Candidates with the sizes of their feet."""

    task: FeetTask
    batch: CandidateBatch
    width: Array  # of the feet's outside (n,) [m]
    height: Array  # of the feet, a slab over them not counted (n,) [m]


def sized(task: FeetTask, batch: CandidateBatch) -> SizedBatch:
    """Return candidates with the sizes of their feet."""
    # few widths come again and again
    own, which = np.unique(np.maximum(*batch.widths), return_inverse=True)
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
