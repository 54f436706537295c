"""What a piece gave while its loads were held: over all holds, and beyond their scatter."""

from __future__ import annotations

import numpy as np

from isolator.physics.arrays import Array
from isolator.recordings.squash_file import Readings

STANDS_OUT = 3.0
"""Standard errors from which what held loads added is creep, and not the reader's hand."""
LONGER = 2.0
"""Ratio of times under one load from which creep is read."""


def creep_of(readings: Readings, squeezed: Array) -> tuple[float | None, float | None]:
    """Return what loads that were held added, over the compression [-] and a decade of time [-].

    `squeezed` [m] is as long as the readings. None where nothing stands out of the scatter; the
    second also where no times tell.
    """
    force, time = readings.force, readings.time
    rows: list[tuple[float, float, float]] = []  # compression, what was added, decades
    at = 0
    while at < len(force):
        end = at
        while end + 1 < len(force) and force[end + 1] == force[at]:
            end += 1
        if end > at and squeezed[at] > 0 and at > 0 and force[at] > force[at - 1]:
            decades = 0.0
            if time is not None:
                early, late = time[[at, end]] - time[at - 1]
                if early > 0 and late >= LONGER * early:
                    decades = float(np.log10(late / early))
            rows.append((float(squeezed[at]), float(squeezed[end] - squeezed[at]), decades))
        at = end + 1
    if not rows:
        return None, None
    first, added, decades_held = np.array(rows).T
    share = float(added.sum() / first.sum())
    scatter = float(np.std(added - share * first, ddof=1)) if len(first) > 1 else 0.0
    # a sum of n is off by √n times what one is, and one by a step of the gauge at least
    error = max(scatter, readings.place_step) * float(np.sqrt(len(first)) / first.sum())
    if share <= STANDS_OUT * error * (1 + 1e-9):
        return None, None
    timed = decades_held > 0
    if not timed.any():
        return share, None
    return share, float(added[timed].sum() / (first * decades_held)[timed].sum())
