"""Ready-made mounts as candidates: buffers in the sizes of the trade, and the user's own."""

from __future__ import annotations

from functools import cache

import numpy as np

from isolator.cards import Material
from isolator.cards.buffers import trade_buffers
from isolator.design import BUFFER
from isolator.design.ends import PLAIN, ReadyMade, fits, heights
from isolator.feet.batch import CandidateBatch
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.physics.rubber.section import shape_factor, within_fits


def ready_made(
    task: FeetTask, cards: dict[str, Material], wanted: tuple[str, ...], places: list[Array]
) -> list[CandidateBatch]:
    """Return the ready-made mounts of the stock: buffers of what is `wanted`, and the user's own.

    They are screwed to plates, which are fixed to the frame by a flange or by glue: what else
    holds a foot stands where the mount's own screw would. ReadyMades are offered where "buffer" is
    among the outlines.
    """
    if task.slab is not None or task.fastening.where == "cap":
        return []
    layer = task.print.layer
    buffers = [cards[ident] for ident in wanted if BUFFER in task.stock.shapes]
    # feet of one batch stand on the desk alike
    stock = [(card, rows) for card in buffers if card.supply.ready for rows in trade_sizes(layer)]
    stock += [
        (cards[each.id], (each.size,)) for each in task.stock.mounts if fits(each.size.ends, layer)
    ]
    return [
        CandidateBatch(
            material=card,
            shape=BUFFER,
            positions=positions,
            first=np.array([row.diameter for row in rows]),
            second=np.array([row.rubber for row in rows]),
            thickness=np.array([row.height for row in rows]),
            layers=np.ones(len(rows), dtype=np.int64),
            ends=tuple(row.ends for row in rows),
        )
        for card, rows in stock
        for positions in places
    ]


@cache
def trade_sizes(layer: float) -> tuple[tuple[ReadyMade, ...], ...]:
    """Return every size of buffer with the ends that make the lowest feet, at `layer` [m].

    First those screwed to plates above and below, then those that stand on their own rubber.
    Slender ones, for which no formula holds, are left out.
    """
    best: dict[tuple[float, float, bool], ReadyMade] = {}
    for row in trade_buffers():
        if not (fits(row.ends, layer) and _holds(row)):
            continue
        key = (row.diameter, row.height, row.ends.lower == PLAIN)
        if key not in best or _plates(row, layer) < _plates(best[key], layer):
            best[key] = row
    return tuple(
        tuple(row for (*_, plain), row in best.items() if plain == alone) for alone in (False, True)
    )


def _plates(row: ReadyMade, layer: float) -> float:
    """Return the thickness of both plates of a buffer [m]."""
    return sum(heights(row.ends, layer))


def _holds(row: ReadyMade) -> bool:
    """Return whether the formulas of bonded rubber hold for a buffer."""
    return bool(within_fits(shape_factor("disc", row.diameter, 0.0, row.rubber)))
