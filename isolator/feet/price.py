"""What one check costs: how much quieter the feet would be that it alone stops."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from isolator.feet.candidates import CandidateBatch
from isolator.feet.checks import BY_NAME, RULES
from isolator.feet.listening import Listening
from isolator.feet.screen import Screened, screen
from isolator.feet.task import FeetTask
from isolator.vibration.installation import Installation

LOOKED_AT = 40
"""Of each material's so many are screened without the check that stops them, evenly spread over
the batch in which it stops most."""


def gain_without(
    name: str,
    task: FeetTask,
    installation: Installation,
    batches: list[CandidateBatch],
    screened: Screened,
    heard: Listening,
) -> float | None:
    """Return the gain [dB(A)] of the best feet that the check `name` alone keeps from holding.

    The mean over the speeds, in the middle of all bands; None where other checks stop all that
    were looked at.
    """
    stopped = screened.stopped == RULES.index(BY_NAME[name])
    counts = np.bincount(screened.batch[stopped], minlength=len(batches))
    most: dict[str, int] = {}  # of each material the batch of which it stops most
    for at in np.argsort(counts, kind="stable")[np.count_nonzero(counts == 0) :].tolist():
        most[batches[at].material.id] = at
    rows = {at: screened.row[stopped & (screened.batch == at)] for at in sorted(most.values())}
    few = [batches[at].take(_spread(own, LOOKED_AT)) for at, own in rows.items()]
    if not few:
        return None
    found = screen(task, installation, few, heard, lambda done: None, ignored=name)
    held = (found.stopped < 0) & np.isfinite(found.gain)
    return float(found.gain[held].max()) if held.any() else None


def _spread(rows: NDArray[np.intp], most: int) -> NDArray[np.intp]:
    """Return at most so many of the rows, evenly spread."""
    if len(rows) <= most:
        return rows
    return rows[np.unique(np.linspace(0, len(rows) - 1, most).astype(np.intp))]
