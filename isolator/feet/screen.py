"""All candidates through the cheap checks first: what is left, what stopped the rest."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Room
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import PadBatch
from isolator.feet.candidates import CandidateBatch
from isolator.feet.checks import (
    BY_NAME,
    MODES,
    RULES,
    SIZE_VALUES,
    Bounds,
    allowed_strain,
    holds,
    shortfall,
)
from isolator.feet.sized import sized
from isolator.feet.sizing import over_pad, stand_height
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G, equal_shares
from isolator.physics.bodies.zigzag import SHORT
from isolator.vibration.installation import Installation
from isolator.vibration.isolation import floor_energy, rigid_energy
from isolator.vibration.lines import mean_loss, sparse_line
from isolator.vibration.printer import MassCase
from isolator.vibration.reversal import quick_shaken, slip_margin, tip_margin
from isolator.vibration.source import Source, motor_source
from isolator.vibration.supports import FeetBatch, feet_of_pads, stiffness_factor
from isolator.vibration.system import System, build, gravity_factor, quick_modes

Progress = Callable[[int], None]

THREADS = 2
"""Batches screened side by side: the arithmetic of arrays lets another thread run."""
SAMPLE = 20
"""Of the feet that are too stiff, one in this many is followed to its sway."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Screened:
    """What the screen found of all n candidates, batch after batch.

    `batch`, `row` say which candidate; `stopped` is the index in `RULES` of the first check that
    it failed, −1 for none; `miss` the sum of all fractions by which checks were missed as far as
    it was followed. `quiet` [dB] and `sway` [m] are NaN where it was stopped before.
    """

    batch: NDArray[np.intp]
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
    """Follows one batch's candidates through the checks in their order.

    What it finds of every candidate it keeps by the names that `Screened` has.
    """

    def __init__(self, count: int, bounds: Bounds) -> None:
        self.bounds = bounds
        self.stopped = np.full(count, -1, dtype=np.int64)
        self.other = np.full(count, -1, dtype=np.int64)
        self.miss = np.zeros(count)
        self.quiet, self.sway, self.highest = (np.full(count, np.nan) for _ in range(3))
        self.alive = np.arange(count)

    def check(self, name: str, value: Array | float) -> None:
        """Note a check of the candidates that are still followed; stop nothing yet."""
        rule = BY_NAME[name]
        limit = rule.limit(self.bounds)
        value = np.broadcast_to(np.asarray(value, dtype=float), self.alive.shape)
        failed = ~holds(rule, value, limit)
        self.miss[self.alive] += shortfall(rule, value, limit)
        for stopped in (self.stopped, self.other)[: 1 if name == MODES else 2]:
            first = failed & (stopped[self.alive] < 0)
            stopped[self.alive[first]] = RULES.index(rule)

    def drop(self) -> NDArray[np.bool_]:
        """Stop following what failed; return which of the followed were kept."""
        kept = self.stopped[self.alive] < 0
        self.alive = self.alive[kept]
        return kept


def pads_of(batch: CandidateBatch) -> PadBatch:
    """Return a batch's pads, faces bonded as a cup foot holds them."""
    return unloaded(batch.material, batch.shape, (batch.first, batch.second, batch.thickness))


def feet_at(
    task: FeetTask, room: Room, pads: PadBatch, positions: Array, case: MassCase, end: str
) -> FeetBatch:
    """Return pads as feet under one mass case at one end of the band.

    The weight is shared as equal linear springs share it; the chosen feet get the nonlinear
    equilibrium.
    """
    factor = stiffness_factor(
        pads.material, end=end, low=room.temperature_low, high=room.temperature_high
    )
    shares = equal_shares(positions, case.com[:2], case.mass * G)
    load = np.broadcast_to(np.maximum(shares, 0.0), (len(pads.thickness), len(shares)))
    return feet_of_pads(pads, positions, load, over_pad(task, pads.material), modulus_factor=factor)


def screen_batch(
    task: FeetTask,
    installation: Installation,
    batch: CandidateBatch,
    limit: ModeLimit,
    places: ByPlaces,
    drone: Drone,
) -> Sieve:
    """Return what the checks find of one batch."""
    limits, material, printer = installation.limits, batch.material, installation.printer
    excitation, room = installation.excitation, installation.surroundings.room
    sieve = Sieve(len(batch), Bounds(task=task, limits=limits, modes=limit.asked))
    sizes = sized(task, batch)
    for name, size_of in SIZE_VALUES.items():
        sieve.check(name, size_of(sizes))
    sieve.check("every foot carries", places.least_load)
    tall = stand_height(task, material, batch.shape, batch.thickness)
    heights, which = np.unique(tall, return_inverse=True)
    tipping = np.array([places.tipping(float(height)) for height in heights])[which]
    sieve.check("tipping", tipping)
    sieve.check("sliding", places.sliding)
    batch = batch.take(sieve.drop())
    if len(batch) == 0:
        return sieve
    pads, positions = pads_of(batch), batch.positions
    soft = feet_at(task, room, pads, positions, printer.heavy, "soft")
    sieve.check("pad strain", soft.strain.max(axis=1) / allowed_strain(limits, material))
    sieve.check("pad buckling", soft.buckling.max(axis=1))
    kept = sieve.drop()
    if not kept.any():
        return sieve
    pads, soft = pads.take(kept), soft.take(np.flatnonzero(kept))
    stiff = feet_at(task, room, pads, positions, printer.light, "stiff")
    taut = build(stiff, printer.light)
    swings = quick_modes(taut)
    high = swings.frequency[:, -1]
    sieve.highest[sieve.alive] = high
    sieve.check(MODES, high)
    # feet too stiff for every speed cannot win; a sample of them still shows on the chart
    followed = (high <= limit.loosest) | (np.arange(len(high)) % SAMPLE == 0)
    sieve.alive = sieve.alive[followed]
    rows = np.flatnonzero(followed)
    pads, soft = pads.take(followed), soft.take(rows)
    lazy = build(soft, printer.heavy)
    sieve.check("standing upright", gravity_factor(lazy))
    reach, shaken = quick_shaken(excitation, lazy, quick_modes(lazy), excitation.motion.speeds)
    nominal = build(
        feet_at(task, room, pads, positions, printer.nominal, "nominal"), printer.nominal
    )
    fastest = (max(excitation.motion.speeds),)  # which shakes hardest
    for each, own in ((nominal, quick_modes(nominal)), (taut.take(rows), swings.take(rows))):
        shaken = np.maximum(shaken, quick_shaken(excitation, each, own, fastest)[1])
    sieve.check("tipping", tipping[sieve.alive] / (SHORT * shaken))
    sieve.check("sliding", places.sliding / (SHORT * shaken))
    sieve.check("sway", reach)
    sieve.quiet[sieve.alive] = drone.loss(nominal)
    sieve.sway[sieve.alive] = reach
    return sieve


@dataclass(frozen=True, slots=True, kw_only=True)
class ByPlaces:
    """What depends on the places alone: least foot load over the mean, tipping, sliding."""

    least_load: float
    tipping: Callable[[float], float]  # of feet of a height [m]
    sliding: float


def by_places(installation: Installation, positions: Array) -> ByPlaces:
    """Return what the places alone decide."""
    cases, motion = installation.printer.cases, installation.excitation.motion
    friction = installation.surroundings.friction
    shares = [equal_shares(positions, case.com[:2], 1.0) for case in cases]
    return ByPlaces(
        least_load=min(float(share.min()) for share in shares) * len(positions),
        # a few dozen heights come again in every batch
        tipping=cache(
            lambda tall: min(tip_margin(motion, case, positions, tall) for case in cases)
        ),
        sliding=min(slip_margin(motion, case, friction) for case in cases),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Drone:
    """The line that the screen looks at: the electrical one of the slowest speed."""

    source: Source
    weights: Array  # (f, m)

    def loss(self, system: System) -> Array:
        """Return its insertion loss (n,) [dB], mean over directions."""
        if not self.weights.any():
            return np.zeros(len(system.static))
        before, after = rigid_energy(system, self.source), floor_energy(system, self.source)
        return mean_loss(before, after, self.weights)


def slowest_electrical(installation: Installation) -> Drone:
    """Return the electrical line of the slowest speed, from the printer in its nominal state."""
    excitation = installation.excitation
    speed = min(excitation.motion.speeds)
    frequency, weights = sparse_line(excitation, "electrical", speed)
    source = motor_source(excitation, installation.printer.nominal, frequency)
    return Drone(source=source, weights=weights)


def screen(
    task: FeetTask,
    installation: Installation,
    batches: list[CandidateBatch],
    limit: ModeLimit,
    progress: Progress,
) -> Screened:
    """Put every candidate through the checks; `progress` is told how many are done."""
    sieves: list[Sieve] = []
    counts = [len(batch) for batch in batches]
    drone = slowest_electrical(installation)
    alike = {batch.positions.tobytes(): batch.positions for batch in batches}
    places = {key: by_places(installation, positions) for key, positions in alike.items()}

    def put(batch: CandidateBatch) -> Sieve:
        own = places[batch.positions.tobytes()]
        return screen_batch(task, installation, batch, limit, own, drone)

    with ThreadPoolExecutor(THREADS) as pool:
        for sieve in pool.map(put, batches):
            sieves.append(sieve)
            progress(sum(counts[: len(sieves)]))
    found = ("stopped", "other", "miss", "quiet", "sway", "highest")
    return Screened(
        batch=np.repeat(np.arange(len(batches)), counts),
        row=np.concatenate([np.arange(count) for count in counts]),
        **{name: np.concatenate([getattr(each, name) for each in sieves]) for name in found},
    )
