"""All candidates through the cheap checks first: what is left, what stopped the rest."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Brief
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import PadBatch
from isolator.design import OUTLINES
from isolator.feet.candidates import CandidateBatch
from isolator.feet.checks import BY_NAME, RULES, holds, shortfall
from isolator.feet.foot_checks import BUCKLING, LEAST_LOAD
from isolator.feet.screw_clearance import (
    NUT,
    frame_left,
    head_room,
    least_head_room,
    least_screw_room,
    screw_room,
    slab_left,
)
from isolator.feet.sizing import foot_height, outer_width, over_pad, sole_height, tread_height
from isolator.physics.bodies.statics import G, equal_shares
from isolator.vibration.excitation import Tone, motor_tones
from isolator.vibration.isolation import insertion_losses
from isolator.vibration.printer import Machine, MassCase
from isolator.vibration.reversal import slip_margin, tip_margin, worst_tool_sway
from isolator.vibration.supports import FeetBatch, feet_of_pads, stiffness_factor
from isolator.vibration.system import build, gravity_factor, quick_modes

Array = NDArray[np.float64]
Progress = Callable[[int], None]

MODES = "modes below the motors"
THREADS = 2
"""Blocks screened side by side: the arithmetic of arrays lets another thread run."""
SAMPLE = 20
"""Of the feet that are too stiff, one in this many is followed to its sway."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Screened:
    """What the screen found of all n candidates, block after block.

    `block`, `row` say which candidate; `stopped` is the index in `RULES` of the first check that
    it failed, −1 for none; `miss` the sum of all fractions by which checks were missed as far as
    it was followed. `quiet` [dB] and `sway` [m] are NaN where it was stopped before.
    """

    block: NDArray[np.intp]
    row: NDArray[np.intp]
    stopped: NDArray[np.int64]
    other: NDArray[np.int64]  # the same, the modes left out
    miss: Array
    quiet: Array
    sway: Array
    highest: Array  # highest mode at the stiff, light end [Hz]


@dataclass(frozen=True, slots=True, kw_only=True)
class ModeLimit:
    """What every mode must stay below [Hz]: for the slowest speed, and for the fastest."""

    asked: float
    loosest: float


class Sieve:
    """Follows one block's candidates through the checks in their order."""

    def __init__(self, count: int) -> None:
        self.stopped = np.full(count, -1, dtype=np.int64)
        self.miss = np.zeros(count)
        self.other = np.full(count, -1, dtype=np.int64)
        self.alive = np.arange(count)

    def check(self, name: str, value: Array | float, limit: Array | float) -> None:
        """Note a check of the candidates that are still followed; stop nothing yet."""
        rule = BY_NAME[name]
        value = np.broadcast_to(np.asarray(value, dtype=float), self.alive.shape)
        failed = ~holds(rule, value, limit)
        self.miss[self.alive] += shortfall(rule, value, limit)
        code = [each.name for each in RULES].index(name)
        for stopped in (self.stopped, self.other)[: 1 if name == MODES else 2]:
            first = failed & (stopped[self.alive] < 0)
            stopped[self.alive[first]] = code

    def drop(self) -> NDArray[np.bool_]:
        """Stop following what failed; return which of the followed were kept."""
        kept = self.stopped[self.alive] < 0
        self.alive = self.alive[kept]
        return kept


def pads_of(block: CandidateBatch) -> PadBatch:
    """Return a block's pads, faces bonded as a cup foot holds them."""
    return unloaded(block.material, block.shape, block.first, block.second, block.thickness)


def feet_at(brief: Brief, pads: PadBatch, positions: Array, case: MassCase, end: str) -> FeetBatch:
    """Return pads as feet under one mass case at one end of the band.

    The weight is shared as equal linear springs share it; the chosen feet get the nonlinear
    equilibrium.
    """
    room = brief.room
    factor = stiffness_factor(
        pads.material, end=end, low=room.temperature_low, high=room.temperature_high
    )
    shares = equal_shares(positions, case.com[:2], case.mass * G)
    load = np.broadcast_to(np.maximum(shares, 0.0), (len(pads.thickness), len(shares)))
    return feet_of_pads(
        pads, positions, load, over_pad(brief, pads.material), modulus_factor=factor
    )


def strain_limit(brief: Brief, block: CandidateBatch) -> float:
    """Return the largest static strain of a block's material: the brief's or the card's."""
    own = block.material.strain_limit.value
    asked = brief.limits.static_strain
    return own if asked is None else asked


def screen_block(
    brief: Brief,
    machine: Machine,
    block: CandidateBatch,
    limit: ModeLimit,
    places: Steady,
    tones: Sequence[Tone],
) -> tuple[Sieve, Array, Array, Array]:
    """Return one block's sieve and quiet [dB], sway [m], highest mode [Hz] of all its rows.

    `limit` is what every mode's upper band must stay below.
    """
    sieve = Sieve(len(block))
    quiet, swayed, top = (np.full(len(block), np.nan) for _ in range(3))
    limits, material, shape = brief.limits, block.material, block.shape
    outer = np.maximum(block.first, OUTLINES[block.shape].along_y(block.first, block.second))
    widths = np.unique(outer)
    width = np.array([outer_width(brief, float(value), material, shape) for value in widths])
    width = width[np.searchsorted(widths, outer)]
    below = sole_height(brief, material, shape) + tread_height(brief, material, shape)
    tall = block.thickness + over_pad(brief, material) + below
    sieve.check("foot width", width, limits.foot_width)
    room = screw_room(brief, material, block.shape, block.first, block.second, width)
    sieve.check("room for its screw", room, least_screw_room(brief))
    heads = head_room(brief, material, shape, block.thickness)
    sieve.check("room under its screws", heads, least_head_room(brief))
    left = frame_left(brief, shape, block.first, block.second, width, block.positions)
    sieve.check("frame beyond its screws", left, NUT)
    edge = slab_left(brief, shape, block.first, block.second, block.positions)
    sieve.check("slab beyond its pads", edge, 0.0)
    feet_tall = foot_height(brief, material, shape, block.thickness)
    sieve.check("foot height", feet_tall, limits.foot_height)
    sieve.check("every foot carries", places.least_load, LEAST_LOAD)
    heights, which = np.unique(tall, return_inverse=True)
    tipping = np.array([places.tipping(float(height)) for height in heights])[which]
    sieve.check("tipping", tipping, limits.tip_margin)
    sieve.check("sliding", places.sliding, limits.slip_margin)
    block = block.take(sieve.drop())
    if len(block) == 0:
        return sieve, quiet, swayed, top
    pads, positions = pads_of(block), block.positions
    soft = feet_at(brief, pads, positions, machine.heavy, "soft")
    sieve.check("pad strain", soft.strain.max(axis=1) / strain_limit(brief, block), 1.0)
    sieve.check("pad buckling", soft.buckling.max(axis=1), BUCKLING)
    kept = sieve.drop()
    if not kept.any():
        return sieve, quiet, swayed, top
    pads, soft = pads.take(kept), soft.take(np.flatnonzero(kept))
    stiff = build(feet_at(brief, pads, positions, machine.light, "stiff"), machine.light)
    high = quick_modes(stiff).frequency[:, -1]
    top[sieve.alive] = high
    sieve.check(MODES, high, limit.asked)
    # feet too stiff for every speed cannot win; a sample of them still shows on the chart
    followed = (high <= limit.loosest) | (np.arange(len(high)) % SAMPLE == 0)
    sieve.alive = sieve.alive[followed]
    pads, soft = pads.take(followed), soft.take(np.flatnonzero(followed))
    lazy = build(soft, machine.heavy)
    sieve.check("standing upright", gravity_factor(lazy), 1.0 - limits.gravity_share)
    reach = worst_tool_sway(brief, lazy, quick_modes(lazy), brief.motion.speeds)
    sieve.check("sway", reach, limits.sway)
    quiet[sieve.alive] = _quiet(brief, machine, pads, positions, tones)
    swayed[sieve.alive] = reach
    return sieve, quiet, swayed, top


@dataclass(frozen=True, slots=True, kw_only=True)
class Steady:
    """What depends on the places alone: least foot load over the mean, tipping, sliding."""

    least_load: float
    tipping: Callable[[float], float]  # of feet of a height [m]
    sliding: float


def steady(brief: Brief, machine: Machine, positions: Array) -> Steady:
    """Return what the places alone decide."""
    shares = [equal_shares(positions, case.com[:2], 1.0) for case in machine.cases]
    return Steady(
        least_load=min(float(share.min()) for share in shares) * len(positions),
        # a few dozen heights come again in every block
        tipping=cache(
            lambda tall: min(tip_margin(brief, case, positions, tall) for case in machine.cases)
        ),
        sliding=min(slip_margin(brief, case) for case in machine.cases),
    )


def slowest_electrical(brief: Brief) -> list[Tone]:
    """Return the electrical line of the slowest speed, moves along x and along y."""
    speed = np.array([min(brief.motion.speeds)])
    return [
        tone
        for direction in (0.0, 90.0)
        for tone in motor_tones(brief, speed, direction)
        if tone.source == "electrical"
    ]


def _quiet(
    brief: Brief, machine: Machine, pads: PadBatch, positions: Array, tones: Sequence[Tone]
) -> Array:
    """Return the least loss (n,) [dB] of the tones, nominal."""
    feet = feet_at(brief, pads, positions, machine.nominal, "nominal")
    worst: Array = insertion_losses(build(feet, machine.nominal), tones).min(axis=1)
    return worst


def screen(
    brief: Brief,
    machine: Machine,
    blocks: list[CandidateBatch],
    limit: ModeLimit,
    progress: Progress,
) -> Screened:
    """Put every candidate through the checks; `progress` is told how many are done."""
    gathered: list[tuple[NDArray[Any], ...]] = []
    done = 0
    places: dict[bytes, Steady] = {}
    tones = slowest_electrical(brief)
    for block in blocks:
        key = block.positions.tobytes()
        if key not in places:
            places[key] = steady(brief, machine, block.positions)

    def put(block: CandidateBatch) -> tuple[Sieve, Array, Array, Array]:
        own = places[block.positions.tobytes()]
        return screen_block(brief, machine, block, limit, own, tones)

    with ThreadPoolExecutor(THREADS) as pool:
        for index, (block, found) in enumerate(zip(blocks, pool.map(put, blocks), strict=True)):
            sieve, quiet, swayed, top = found
            rows, which = np.arange(len(block)), np.full(len(block), index)
            gathered.append(
                (which, rows, sieve.stopped, sieve.other, sieve.miss, quiet, swayed, top)
            )
            done += len(block)
            progress(done)
    columns = [np.concatenate(column) for column in zip(*gathered, strict=True)]
    return Screened(
        block=columns[0].astype(np.intp),
        row=columns[1].astype(np.intp),
        stopped=columns[2].astype(np.int64),
        other=columns[3].astype(np.int64),
        miss=columns[4],
        quiet=columns[5],
        sway=columns[6],
        highest=columns[7],
    )
