"""Which of several equally quiet feet to take: the ones that are least trouble.

Candidates within `EQUAL_DB` of the best sound alike. Of these the easiest to get and to make is
taken, then the one that sways less; below half its limit sway is worth nothing more. Ease is told
in steps, material and outline in a fixed order, so that a small change of the brief does not change
what is bought.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from isolator.design import OUTLINES, SHAPES
from isolator.design.got import ORDERED, POST
from isolator.feet.candidates import CandidateBatch
from isolator.feet.ranking import EQUAL_DB, Ranked
from isolator.feet.screen import Screened

ENOUGH = 0.5
"""Share of the sway limit below which less sway is worth no more material; convention."""
SWAY_EFFORT = 4.0
"""Effort that a whole limit's worth of sway counts; convention, no source."""
READY = 0.5
"""Steps that a ready-made mount spares: nothing is cut, nothing glued; convention, no source."""
HEIGHT, VOLUME = 0.02, 40e-6
"""Height [m] and volume of all pads [m³] that count one effort; convention, no source."""

Key = tuple[float, ...]


def supply_step(found: str) -> int:
    """Return how hard a material is to get, in steps: off a shelf or one's own printer, by post,
    asked for."""
    return {POST: 1, ORDERED: 3}.get(found, 0)


def ease(
    batch: CandidateBatch, row: int, material_rank: int, sway: float, sway_limit: float
) -> Key:
    """Return what sorts one candidate among equally quiet ones, easiest first."""
    feet, layers = len(batch.positions), int(batch.layers[row])
    supply = batch.material.supply
    steps = (layers - 1) + supply_step(supply.found) + 0.5 * max(feet - 4, 0)
    if OUTLINES[batch.shape].ready:
        steps -= READY
    effort = (
        feet * float(batch.volume[row]) / VOLUME
        + float(batch.thickness[row]) / HEIGHT
        + SWAY_EFFORT * max(sway / sway_limit - ENOUGH, 0.0)
    )
    order = SHAPES.index(batch.shape) if batch.shape in SHAPES else len(SHAPES)
    return (steps, supply.rank, material_rank, order, round(effort, 6), sway)


def calm_order(
    ranked: Ranked,
    screened: Screened,
    batches: Sequence[CandidateBatch],
    sway_limit: float,
) -> NDArray[np.intp]:
    """Return the places in `ranked` (n,) in the order in which they are taken.

    First those that count as equal to the best, easiest first; then all others by score.
    """
    if not len(ranked.score):
        return np.zeros(0, dtype=np.intp)
    idents = list(dict.fromkeys(batch.material.id for batch in batches))
    equal = ranked.score >= ranked.score[0] - EQUAL_DB

    def key(place: int) -> Key:
        index = ranked.index[place]
        batch, row = batches[screened.batch[index]], int(screened.row[index])
        rank = idents.index(batch.material.id)
        return ease(batch, row, rank, float(ranked.sway[place]), sway_limit)

    places = range(len(ranked.score))
    order = sorted(places, key=lambda at: key(at) if equal[at] else (math.inf, float(at)))
    return np.array(order, dtype=np.intp)
