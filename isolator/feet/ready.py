"""Feet on ready-made mounts: the plates above and below each, and how tall that makes them."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from isolator.cards import Material
from isolator.design import FOOT_KINDS, Ends, Foot, Pad, least_cap, least_width, quantise_up
from isolator.design.ends import disc, heights, plate_width
from isolator.design.soles import USUAL_TREAD, stands_with
from isolator.feet.batch import CandidateBatch
from isolator.feet.sizing import kind
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array

WHOLE = 0.5e-3
"""To which the plates' width is rounded up [m]."""


def upper_plate(task: FeetTask, ends: Ends) -> float:
    """Return the thickness of the plate under the frame [m], which takes the attachment too."""
    feet, layer = task.feet, task.print.layer
    least = least_cap(
        feet.attachment, feet.bolt, feet.tube, layer, fixing=feet.fixing, key=feet.slot_key
    )
    return max(least, heights(ends, layer)[0])


def lower_plate(task: FeetTask, ends: Ends) -> float:
    """Return the thickness of the plate on the desk [m]; 0 where the mount stands by itself."""
    return heights(ends, task.print.layer)[1]


def overhang(task: FeetTask, ends: Ends, diameter: float) -> float:
    """Return how far both plates reach beyond a mount of this `diameter` [m] on every side."""
    feet, more = task.feet, task.print.hole_compensation
    ear = least_width(feet.attachment, feet.bolt, feet.tube, more, fixing=feet.fixing)
    width = max(plate_width(ends, diameter, more), ear)
    return float(np.ceil((width - diameter) / 2.0 / WHOLE - 1e-6)) * WHOLE


def over_rubber(task: FeetTask, batch: CandidateBatch) -> Array:
    """Return the solid height over each mount's rubber (n, 1) [m]: its plate and its metal."""
    sizes = zip(batch.ends, batch.thickness, batch.second, strict=True)
    over = [upper_plate(task, ends) + disc(ends, tall, rubber) for ends, tall, rubber in sizes]
    return np.array(over)[:, None]


def tread(task: FeetTask, ends: Ends) -> float:
    """Return the thickness of the tread under the lower plate [m]; 0 for none.

    Where the brief leaves it open, of one that is there if it is needed.
    """
    asked = USUAL_TREAD if task.feet.tread is None else task.feet.tread
    if asked <= 0 or lower_plate(task, ends) == 0:
        return 0.0
    return quantise_up(asked, task.print.layer)


def stands_on(task: FeetTask, ends: Ends) -> str:
    """Return what feet on such mounts stand on the desk with, as `isolator.feet.sizing.touches`."""
    return stands_with(FOOT_KINDS["buffer"], tread(task, ends), lower_plate(task, ends))


def foot_heights(task: FeetTask, batch: CandidateBatch) -> Array:
    """Return how tall feet on these mounts are (n,) [m], treads counted in."""
    plates = [
        sum(each(task, ends) for each in (upper_plate, lower_plate, tread)) for ends in batch.ends
    ]
    return np.array(plates) + batch.thickness


def foot_widths(task: FeetTask, batch: CandidateBatch) -> Array:
    """Return the outside of these feet (n,) [m]."""
    sizes = zip(batch.ends, batch.first, strict=True)
    beyond = [overhang(task, ends, wide) for ends, wide in sizes]
    return np.asarray(batch.first + 2.0 * np.array(beyond))


def ready_foot(task: FeetTask, batch: CandidateBatch, row: int) -> Foot:
    """Return the foot on a ready-made mount that is solved and drawn; its sag is not known yet."""
    ends, feet, wide = batch.ends[row], task.feet, float(batch.first[row])
    pad = Pad(
        shape=batch.shape,
        first=wide,
        second=float(batch.second[row]),
        thickness=float(batch.thickness[row]),
        layers=1,
        material=batch.material.id,
        printed=False,
    )
    return Foot(
        name="foot",
        kind=kind(task, batch.material, batch.shape),
        pad=pad,
        positions=tuple((float(x), float(y)) for x, y in batch.positions),
        attachment=feet.attachment,
        bolt=feet.bolt,
        tube=feet.tube,
        cap=upper_plate(task, ends),
        sole=lower_plate(task, ends),
        wall=overhang(task, ends, wide),
        side_room=0.0,
        sag=0.0,
        stop=0.0,
        holes=feet.holes,
        grip=feet.grip,
        fixing=feet.fixing,
        along=feet.slot_along,
        key=feet.slot_key,
        tread=tread(task, ends),
        ends=replace(ends, grade=grade(batch.material)),
    )


def grade(material: Material) -> str:
    """Return what a mount is asked for as in a shop: its hardness, or its own name."""
    hardness = material.hardness
    return material.name if hardness is None else f"{hardness.value:g} Shore A"
