"""All candidates through the cheap checks first: what is left, what stopped the rest."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cache
from threading import Lock

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Room
from isolator.cards.pad_law import unloaded
from isolator.cards.pads import PadBatch
from isolator.feet.candidates import CandidateBatch
from isolator.feet.checks import (
    BY_NAME,
    RULES,
    SIZE_VALUES,
    Bounds,
    allowed_strain,
    holds,
    shortfall,
)
from isolator.feet.listening import Listening
from isolator.feet.sized import over_pads, sized, stand_heights, stands_on
from isolator.feet.sizing import over_pad
from isolator.feet.task import FeetTask
from isolator.physics.arrays import Array
from isolator.physics.bodies.statics import G, equal_shares
from isolator.physics.bodies.zigzag import SHORT
from isolator.vibration.installation import Installation
from isolator.vibration.printer import MassCase
from isolator.vibration.reversal import quick_shaken, slip_margin, tip_margin
from isolator.vibration.supports import FeetBatch, feet_of_pads, loss_at, stiffness_factor
from isolator.vibration.system import build, gravity_factor, quick_modes

Progress = Callable[[int], None]

THREADS = 2
"""Batches screened side by side: the arithmetic of arrays lets another thread run."""
WIDEST = 2e-3
"""Sway up to which feet are listened to whatever the limit [m]: alternatives are told of them."""
NEAR = 2.0
"""Feet with so many times the margins against tipping and sliding on soft pads are not asked on
others, which shake by half as much again in one of a hundred."""
SAMPLE = 20
"""Of feet that sway more, one in this many is listened to: the chart shows them."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Screened:
    """What the screen found of all n candidates, batch after batch.

    `batch`, `row` say which candidate; `stopped` is the index in `RULES` of the first check that
    it failed, −1 for none; `miss` the sum of all fractions by which checks were missed as far as
    it was followed. `gain` [dB(A)] and `sway` [m] are NaN where it was stopped before.
    """

    batch: NDArray[np.intp]
    row: NDArray[np.intp]
    stopped: NDArray[np.int64]
    miss: Array
    gain: Array  # mean over the speeds, as far as is promised, in the middle of all bands
    sway: Array  # worst of the soft end

    def take(self, some: NDArray[np.intp]) -> Screened:
        """Return the candidates at `some`."""
        return Screened(**{name: getattr(self, name)[some] for name in self.__slots__})


class Sieve:
    """Follows one batch's candidates through the checks in their order.

    What it finds of every candidate it keeps by the names that `Screened` has.
    """

    def __init__(self, count: int, bounds: Bounds, ignored: str = "") -> None:
        self.bounds, self.ignored = bounds, ignored
        self.stopped = np.full(count, -1, dtype=np.int64)
        self.miss = np.zeros(count)
        self.gain, self.sway = np.full(count, np.nan), np.full(count, np.nan)
        self.alive = np.arange(count)

    def limit(self, name: str) -> float:
        """Return the limit of a check."""
        return BY_NAME[name].limit(self.bounds)

    def check(self, name: str, value: Array | float) -> None:
        """Note a check of the candidates that are still followed; stop nothing yet."""
        if name == self.ignored:
            return
        rule = BY_NAME[name]
        limit = self.limit(name)
        value = np.broadcast_to(np.asarray(value, dtype=float), self.alive.shape)
        failed = ~holds(rule, value, limit)
        if not failed.any():
            return
        who = self.alive[failed]
        self.miss[who] += shortfall(rule, value[failed], limit)
        self.stopped[who[self.stopped[who] < 0]] = RULES.index(rule)

    def drop(self) -> NDArray[np.bool_]:
        """Stop following what failed; return which of the followed were kept."""
        kept = self.stopped[self.alive] < 0
        self.alive = self.alive[kept]
        return kept


def pads_of(batch: CandidateBatch) -> PadBatch:
    """Return a batch's pads, faces bonded as a cup foot holds them."""
    return unloaded(batch.material, batch.shape, (batch.first, batch.second, batch.thickness))


def feet_at(
    task: FeetTask,
    room: Room,
    pads: PadBatch,
    positions: Array,
    case: MassCase,
    end: str,
    over: Array | None = None,
) -> FeetBatch:
    """Return pads as feet under one mass case at one end of the band.

    `over` (n, 1) [m] is the solid height over each pad, where it is not the material's own. The
    weight is shared as equal linear springs share it; the chosen feet get the nonlinear
    equilibrium.
    """
    factor = stiffness_factor(
        pads.material, end=end, low=room.temperature_low, high=room.temperature_high
    )
    shares = equal_shares(positions, case.com[:2], case.mass * G)
    load = np.broadcast_to(np.maximum(shares, 0.0), (len(pads.thickness), len(shares)))
    return feet_of_pads(
        pads,
        positions,
        load,
        over_pad(task, pads.material) if over is None else over,
        modulus_factor=factor,
        loss=loss_at(pads.material, end),
    )


def screen_batch(
    task: FeetTask,
    installation: Installation,
    batch: CandidateBatch,
    places: ByPlaces,
    heard: Listening,
    pads_for: Callable[[CandidateBatch], PadBatch],
    ignored: str = "",
) -> Sieve:
    """Return what the checks find of one batch, all but one that is `ignored`."""
    limits, material, printer = installation.limits, batch.material, installation.printer
    excitation, room = installation.excitation, installation.surroundings.room
    sieve = Sieve(len(batch), Bounds(task=task, limits=limits, modes=np.inf), ignored)
    sizes = sized(task, batch)
    for name, size_of in SIZE_VALUES.items():
        sieve.check(name, size_of(sizes))
    sieve.check("every foot carries", places.least_load)
    tall = stand_heights(sizes)
    heights, which = np.unique(tall, return_inverse=True)
    tipping = np.array([places.tipping(float(height)) for height in heights])[which]
    sieve.check("tipping", tipping)
    sieve.check("sliding", places.sliding)
    batch = batch.take(sieve.drop())
    if len(batch) == 0:
        return sieve
    pads, positions, over = pads_for(batch), batch.positions, over_pads(task, batch)
    soft = feet_at(task, room, pads, positions, printer.heavy, "soft", over)
    sieve.check("pad strain", soft.strain.max(axis=1) / allowed_strain(limits, material))
    sieve.check("pad buckling", soft.buckling.max(axis=1))
    kept = sieve.drop()
    if not kept.any():
        return sieve
    pads, over, soft = pads.take(kept), over[kept], soft.take(np.flatnonzero(kept))
    lazy = build(soft, printer.heavy)
    sieve.check("standing upright", gravity_factor(lazy))
    speeds = excitation.motion.speeds
    # the fastest move shakes hardest, or else the slowest; all are asked of what is ranked
    ends = tuple(dict.fromkeys((min(speeds), max(speeds))))
    (reach,), (shaken,) = quick_shaken(excitation, [(lazy, quick_modes(lazy))], ends)
    nominal = build(
        feet_at(task, room, pads, positions, printer.nominal, "nominal", over), printer.nominal
    )
    falls, slips = tipping[sieve.alive] / SHORT, places.sliding / SHORT
    spare = np.minimum(falls / sieve.limit("tipping"), slips / sieve.limit("sliding")) / shaken
    close = np.flatnonzero(spare < NEAR)
    if len(close):
        some = pads.take(spare < NEAR)
        stiff = feet_at(task, room, some, positions, printer.light, "stiff", over[close])
        states = [(e, quick_modes(e)) for e in (nominal.take(close), build(stiff, printer.light))]
        also = quick_shaken(excitation, states, ends[-1:])[1].max(axis=0)
        shaken[close] = np.maximum(shaken[close], also)
    sieve.check("tipping", falls / shaken)
    sieve.check("sliding", slips / shaken)
    sieve.check("sway", reach)
    sieve.sway[sieve.alive] = reach
    followed = (reach <= max(limits.sway, WIDEST)) | (np.arange(len(reach)) % SAMPLE == 0)
    sieve.alive = sieve.alive[followed]
    heard_of = nominal.take(np.flatnonzero(followed))
    sieve.gain[sieve.alive] = heard.gains(heard_of).mean(axis=1)
    return sieve


@dataclass(frozen=True, slots=True, kw_only=True)
class ByPlaces:
    """What depends on places and soles alone: least foot load over the mean, tipping, sliding."""

    least_load: float
    tipping: Callable[[float], float]  # of feet of a height [m]
    sliding: float


def by_places(installation: Installation, positions: Array, touches: str) -> ByPlaces:
    """Return what the places decide for feet that stand on the desk with `touches`."""
    cases, motion = installation.printer.cases, installation.excitation.motion
    friction = installation.surroundings.grip(touches)
    shares = [equal_shares(positions, case.com[:2], 1.0) for case in cases]
    return ByPlaces(
        least_load=min(float(share.min()) for share in shares) * len(positions),
        # a few dozen heights come again in every batch
        tipping=cache(
            lambda tall: min(tip_margin(motion, case, positions, tall) for case in cases)
        ),
        sliding=min(slip_margin(motion, case, friction) for case in cases),
    )


def _pads_once() -> Callable[[CandidateBatch], PadBatch]:
    """Return `pads_of` that works equal pads in other places out once."""
    known: dict[tuple[object, ...], PadBatch] = {}
    one = Lock()  # batches of equal pads are screened side by side

    def found(batch: CandidateBatch) -> PadBatch:
        sizes = (batch.first, batch.second, batch.thickness)
        key = (batch.material.id, batch.shape, *(each.tobytes() for each in sizes))
        with one:
            if key not in known:
                known[key] = pads_of(batch)
            return known[key]

    return found


def screen(
    task: FeetTask,
    installation: Installation,
    batches: list[CandidateBatch],
    heard: Listening,
    progress: Progress,
    ignored: str = "",
) -> Screened:
    """Put every candidate through the checks, and compare what is `heard` with what was before.

    `progress` is told how many are done. The check `ignored` stops nothing.
    """
    sieves: list[Sieve] = []
    counts = [len(batch) for batch in batches]
    grips = [stands_on(task, batch) for batch in batches]
    standing = [(b.positions.tobytes(), grip) for b, grip in zip(batches, grips, strict=True)]
    alike = dict(zip(standing, batches, strict=True))
    places = {key: by_places(installation, b.positions, key[1]) for key, b in alike.items()}

    pads_for = _pads_once()

    def put(batch: CandidateBatch) -> Sieve:
        own = places[batch.positions.tobytes(), stands_on(task, batch)]
        return screen_batch(task, installation, batch, own, heard, pads_for, ignored)

    with ThreadPoolExecutor(THREADS) as pool:
        for sieve in pool.map(put, batches):
            sieves.append(sieve)
            progress(sum(counts[: len(sieves)]))
    found = ("stopped", "miss", "gain", "sway")
    return Screened(
        batch=np.repeat(np.arange(len(batches)), counts),
        row=np.concatenate([np.arange(count) for count in counts]),
        **{name: np.concatenate([getattr(each, name) for each in sieves]) for name in found},
    )
