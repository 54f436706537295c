"""The outside of feet, one or many: their width and height."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np

from isolator.cards import Material
from isolator.design import Foot
from isolator.feet import ready
from isolator.feet.batch import CandidateBatch, batch_of
from isolator.feet.sizing import cap_height, foot_height, outer_width, over_pad, touches
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
    if batch.ends:
        wide, tall = ready.foot_widths(task, batch), ready.foot_heights(task, batch)
        return SizedBatch(task=task, batch=batch, width=wide, height=tall)
    # few widths come again and again
    own, which = np.unique(np.maximum(*batch.widths), return_inverse=True)
    width = np.array([outer_width(task, float(one), batch.material, batch.shape) for one in own])
    return SizedBatch(
        task=task,
        batch=batch,
        width=width[which],
        height=foot_height(task, batch.material, batch.shape, batch.thickness),
    )


def over_pads(task: FeetTask, batch: CandidateBatch) -> Array:
    """Return the solid height between the printer's underside and what gives way (n, 1) [m]."""
    if batch.ends:
        return ready.over_rubber(task, batch)
    return np.full((len(batch), 1), over_pad(task, batch.material))


def stands_on(task: FeetTask, batch: CandidateBatch) -> str:
    """Return what feet stand on the desk with, one of `isolator.design.soles.FRICTION`."""
    if batch.ends:
        return ready.stands_on(task, batch.ends[0])
    return touches(task, batch.material, batch.shape)


def stand_heights(sizes: SizedBatch) -> Array:
    """Return how high the printer stands over the desk (n,) [m], a slab counted in."""
    task, material = sizes.task, sizes.batch.material
    return sizes.height + (0.0 if task.slab is None else cap_height(task, material))


def sized_foot(task: FeetTask, foot: Foot, material: Material) -> SizedBatch:
    """Return a drawn foot as a batch of one, as tall as its sheet says."""
    height = foot.height - (0.0 if foot.build.hung else foot.cap)
    return replace(sized(task, batch_of(foot, material)), height=np.array([height]))
