"""Every foot that the stock allows: materials × outlines × sizes × layers × counts."""

from __future__ import annotations

import itertools
import math

import numpy as np

from isolator.brief import designed_positions
from isolator.cards import Material
from isolator.cards.supply import UNKNOWN
from isolator.design import BALL, OUTLINES, SHAPES, quantise
from isolator.design.got import ORDERED
from isolator.design.screws import screw
from isolator.feet.batch import CandidateBatch, batch_of
from isolator.feet.ready_made import ready_made
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.physics.rubber.section import shape_factor, within_fits

__all__ = ["CandidateBatch", "batch_of", "candidates", "easy", "heights", "outlines"]

HOLES = (0.35, 0.6)
"""Hole over outside width, for rings and squares with a hole."""
ASPECTS = (1.0, 1.5, 2.0)
"""Long over short side of rectangles."""
PRINTED_HEIGHTS = (0.006, 0.008, 0.010, 0.012, 0.015, 0.020, 0.025)
"""Pad heights offered for printed feet [m]; sheets come in the card's own thicknesses."""


def easy(material: Material) -> bool:
    """Return whether a material is offered unasked: got by the piece, or the user's own card."""
    return material.supply == UNKNOWN or material.supply.found != ORDERED


def outlines(shape: str, widths: Array) -> list[tuple[float, float]]:
    """Return the (first, second) dimensions [m] of one outline over `widths` [m].

    A rectangle stands with either side along x.
    """
    if OUTLINES[shape].oblong:
        # freed of binary dust, so that what is solved is what the sheet says
        pairs = {
            (round(w, 9), round(w * a, 9))
            for w in widths
            for a in ASPECTS
            if w * a <= widths[-1] * 1.0001
        }
        return sorted(pairs | {(b, a) for a, b in pairs})
    holes = HOLES if OUTLINES[shape].holed else (0.0,)
    return [(width, round(width * hole, 9)) for width in widths for hole in holes]


def heights(material: Material, task: FeetTask) -> list[tuple[float, int]]:
    """Return (total thickness [m], layers) that the stock of one material gives."""
    if material.family == "printed":
        return [(quantise(height, task.print.layer), 1) for height in PRINTED_HEIGHTS]
    sheets = task.stock.thicknesses or material.thicknesses
    stacks: dict[float, int] = {}
    for sheet, layers in itertools.product(sheets, range(1, task.stock.max_layers + 1)):
        total = round(sheet * layers, 7)
        stacks[total] = min(layers, stacks.get(total, layers))
    return sorted(stacks.items())


def candidates(task: FeetTask, cards: dict[str, Material]) -> list[CandidateBatch]:
    """Return all candidates, one batch for each material, outline and set of places."""
    low, high, step = task.stock.widths
    # whole steps that do not pass the largest width, rounding aside
    widths = np.round(low + step * np.arange(math.floor((high - low) / step + 1e-9) + 1), 9)
    # places written in the brief rule, whatever the count
    counts = task.feet.count[:1] if task.feet.positions is not None else task.feet.count
    places: list[Array] = [
        np.array(designed_positions(task.feet, task.frame, task.slab, count), dtype=float)
        for count in counts
    ]
    wanted = task.stock.materials or tuple(ident for ident, card in cards.items() if easy(card))
    made: list[CandidateBatch] = [] if task.slab is not None else _balls(task, cards, places)
    shapes = [shape for shape in task.stock.shapes or SHAPES if not OUTLINES[shape].bought]
    keyed = [shape for shape in shapes if OUTLINES[shape].cut_hole]
    if task.fastening.driven and keyed:
        shapes, made = keyed, []  # a key has to reach the screw through the pad
    made += ready_made(task, cards, wanted, places)
    for ident, shape, positions in itertools.product(wanted, shapes, places):
        material = cards[ident]
        if not material.in_sheets:
            continue  # poured alone: it comes in no sheet
        if task.slab is not None and material.family == "printed":
            continue  # what goes under a slab is cut and glued
        if task.fastening.turned and not OUTLINES[shape].round:
            continue  # a stud is levelled by turning its foot
        pads = itertools.product(outlines(shape, widths), heights(material, task))
        sizes = np.array([(*outline, *stack) for outline, stack in pads])
        if task.fastening.driven and OUTLINES[shape].cut_hole:
            sizes = sizes[sizes[:, 1] >= screw(task.thread).key_hole - 1e-9]
        fits = within_fits(shape_factor(shape, sizes[:, 0], sizes[:, 1], sizes[:, 2]))
        first, second, thickness, layers = sizes[fits].T
        if len(first) == 0:
            continue
        made.append(
            CandidateBatch(
                material=material,
                shape=shape,
                positions=positions,
                first=first,
                second=second,
                thickness=thickness,
                layers=layers.astype(np.int64),
            )
        )
    return made


def _balls(task: FeetTask, cards: dict[str, Material], places: list[Array]) -> list[CandidateBatch]:
    """Return the halves of the balls in stock; a ball is as it is bought, so nothing varies."""
    return [
        CandidateBatch(
            material=cards[ball.material],
            shape=BALL,
            positions=positions,
            first=np.array([ball.diameter]),
            second=np.array([max(0.0, round(ball.diameter - 2.0 * ball.wall, 9))]),
            thickness=np.array([ball.diameter / 2.0]),
            layers=np.array([1]),
        )
        for ball in task.stock.balls
        for positions in places
    ]
