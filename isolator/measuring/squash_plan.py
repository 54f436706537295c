"""What to squash and with which weights, so that a card of one's own serves the feet designed."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from isolator.cards import Material
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import PadBatch, pad_state
from isolator.design import Pad, quantise
from isolator.design.squash_piece import SquashPiece
from isolator.physics.bodies.statics import G

SHAPE = "rectangle"
"""Squares are cut with a knife along a ruler."""
SQUEEZE = 1.1
"""Over the card's largest strain: so far the weights should squeeze a piece. Feet never go further,
and the card's law is made for no more: beyond, cells of foam close up for good."""
CURVE = 0.95
"""Of a foam's curve, at most."""
LOW, HIGH = 10e-3, 18e-3
"""Heights of a stack of rubber and of foam at least, so that callipers tell its squeeze [m]."""
PRINTED = 12e-3
LEAST, MOST = 12e-3, 50e-3
"""Sides of the square [m]."""
SLENDER = 1.2
"""Side over height at least: a tall piece leans."""
HEAVY, HEAVIEST = 12.0, 25.0
"""Mass that one person piles up with ease, and the most that is asked for [kg]."""
STEPS = 8
RUNS = 3
"""Times up and down."""
ROUND = (1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class SquashPlan:
    """A piece, the masses piled on it, and how far they should squeeze it by the card now held."""

    piece: SquashPiece
    material: Material
    masses: tuple[float, ...]  # [kg] from 0 up; where it is bonded, from the upper board
    squeezed: float  # under all of them [m]

    @property
    def bonded(self) -> bool:
        """Return whether its faces have to be held; foam does not bulge."""
        return self.material.family != "foam"


def squash_plan(pad: Pad, material: Material, layer: float) -> SquashPlan | None:
    """Return what to squash for feet with a pad of this material; None of what is bought ready.

    `layer` [m] is the layer height of prints.
    """
    if pad.outline.bought or material.mount is not None or material.supply.ready:
        return None
    if pad.printed:
        thickness, layers = quantise(PRINTED, layer), 1
    else:
        thickness = pad.thickness / pad.layers
        wanted = HIGH if material.family == "foam" else LOW
        layers = max(1, math.ceil(wanted / thickness - 1e-9))
    height = thickness * layers
    strain = SQUEEZE * material.strain_limit.value
    if material.curve is not None:
        strain = min(strain, CURVE * material.curve.strain[-1])
    least = max(LEAST, math.ceil(1e3 * SLENDER * height) / 1e3)
    sides = np.arange(least, max(MOST, least) + 1e-9, 1e-3)
    force = _pads(material, sides, height).pressed(np.full((len(sides), 1), strain * height))[0]
    light = np.flatnonzero(force[:, 0] <= HEAVY * G)
    at = int(light[-1]) if len(light) else 0
    top = min(float(force[at, 0]) / G, HEAVIEST)
    step = _rounded(top / STEPS)
    # a taped piece never stands without its upper board
    first = 0 if material.family == "foam" else 1
    # up for foam, whose curve is flat there: a little less weight would squeeze it far less
    count = math.ceil(top / step - 1e-9) if material.family == "foam" else round(top / step)
    masses = tuple(round(step * n, 6) for n in range(first, count + 1))
    load = np.array([[masses[-1] * G]])
    state = pad_state(_pads(material, sides[at : at + 1], height), load)
    return SquashPlan(
        piece=SquashPiece(
            side=round(float(sides[at]), 6), thickness=thickness, layers=layers, pad=pad
        ),
        material=material,
        masses=masses,
        squeezed=float(state.strain[0, 0]) * height,
    )


def _pads(material: Material, sides: np.ndarray, height: float) -> PadBatch:
    return unloaded(material, SHAPE, (sides, sides, np.full_like(sides, height)))


def _rounded(value: float) -> float:
    """Return the round number nearest to a positive one.

    >>> [_rounded(each) for each in (0.13, 1.4, 0.045, 2.7)]
    [0.125, 1.5, 0.05, 2.5]
    """
    power = 10.0 ** math.floor(math.log10(value))
    return min((power * each for each in ROUND), key=lambda each: abs(math.log(each / value)))
