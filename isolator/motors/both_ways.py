"""Dampers that hold, compared by what is heard of their motors through bracket and feet.

How much of a motor is heard which way is not known, so the mean of both gains counts. All that hold
are compared through the bracket; the best of each rubber and outline through the feet too, in a few
samples and frequencies; and the first of these closely.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.feet.calm import supply_step
from isolator.feet.ranking import score
from isolator.motors.belt_load import LoadedDamper
from isolator.motors.belt_ring import ring_left
from isolator.motors.bracket import Bracket, bracket_weights
from isolator.motors.candidates import DamperBatch
from isolator.motors.feet_way import CLOSE, FeetWay
from isolator.motors.mount import Damper, Shared
from isolator.motors.plates import Plates
from isolator.motors.preferred import Gains, benefit, in_order
from isolator.motors.sampled import Drawn
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.vibration.heard import (
    works_from,
)
from isolator.vibration.sampled import sample_band
from isolator.vibration.spreads import SHARP, PadFactors, ends

KEEN = 3
"""Of those with most benefit so many are compared through the feet, louder or not."""
SHORTLIST = 5
"""So many are looked at closely, and the keenest beside them."""
FIRST = 6
"""Samples in which all are compared through the feet."""
LEFT_STEP = 0.03
"""Of the belts' resonance: one damper at least of each step is compared through the feet."""
USUAL = (0.05, 0.1, 0.2)
"""Print speeds that count beside the brief's own where a damper is wanted whatever it does
[m/s]."""
SLOWEST, FASTEST = 0.01, 1.0
"""Print speeds that are worth telling of [m/s]."""
SWEEP = np.geomspace(SLOWEST, FASTEST, 32)
"""Speeds looked at for the one from which a damper helps [m/s]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """Dampers of one batch that hold standing still under all of the motors that share one."""

    offered: DamperBatch
    loaded: tuple[LoadedDamper, ...]  # under each motor
    plates: Plates
    left: Array  # (n,) of the belts' resonance, as a share of today's, the lowest of the motors
    rubber: PadFactors
    low: Array  # (n, k) gain through the bracket, the lowest of band and motors [dB(A)]: at the
    # brief's speeds, and at `USUAL` ones

    def ease(self) -> Array:
        """Return what sorts those that sound alike (n, 5), the least first."""
        wedge, stack = (
            np.max([getattr(each, name) for each in self.loaded], axis=0)
            for name in ("wedge", "stack")
        )
        count = len(stack)
        # of what has to be cut and glued
        made = 1.0 if self.offered.shape == "ring" else 4.0
        pieces = np.full(count, made if self.offered.bought is None else 0.0)
        got = np.full(count, float(supply_step(self.offered.material.supply.found)))
        # to a hundredth: no finer difference is a reason
        left = np.round(self.left, 2)
        return np.stack([pieces, wedge > 0.0, np.round(stack, 5), got, -left], axis=-1)


class Comparison:
    """Motors that share a damper, and what is heard of them."""

    def __init__(
        self, task: MotorTask, indices: tuple[int, ...], drawn: Drawn, grid: Array
    ) -> None:
        self.task, self.drawn = task, drawn
        self.brackets = {index: Bracket(task, index, drawn, grid) for index in indices}
        speeds = np.array([*task.motion.speeds, *SWEEP])
        self.weights = {index: bracket_weights(task, index, grid, speeds) for index in indices}
        self.feet = FeetWay(task, indices, drawn)

    def judged(self, kept: Sequence[Kept]) -> tuple[tuple[Shared, ...], Shared]:
        """Return the first dampers of all that hold, the best first, and the keenest.

        That is the one with the most benefit above the speed from which it has some. Where any
        leaves as much of the belts' resonance as is asked, none that leaves less is looked at.
        """
        least = least_left(self.task, kept)
        low, ease = (
            np.concatenate(each)
            for each in zip(*((some.low, some.ease()) for some in kept), strict=True)
        )
        batch = np.concatenate([np.full(len(some.left), at) for at, some in enumerate(kept)])
        row = np.concatenate([np.arange(len(some.left)) for some in kept])
        left = np.concatenate([some.left for some in kept])
        firm = np.flatnonzero(left >= least - 1e-9)
        # soft and stiff ones of every rubber and outline, as what the feet make of them differs
        steps = np.floor(left[firm] / LEFT_STEP)
        count = len(self.task.motion.speeds)
        points, taken = score(low[:, :count], 0.0), benefit(low)
        first = [
            own[in_order(by[own], ease[own], np.zeros(len(own), dtype=int))[0]]
            for by, group in ((points, batch[firm]), (points, steps), (taken, steps))
            for own in (firm[group == each] for each in np.unique(group))
        ]
        chosen = _worth_a_look(np.array(list(dict.fromkeys(first))), low[:, :count], taken)
        told = [self._mounted(kept[batch[at]], int(row[at])) for at in chosen]
        ease, low = ease[chosen], low[chosen]
        felt = [self.feet.changes(each, FIRST) for each in told]
        quick = Gains(
            bracket=low[:, :count],
            feet=np.array([-each.max(axis=(0, 1)) for each in felt]),
            nominal=np.array([-each[:, 0].max(axis=0) for each in felt]),
        )
        keenest = int(quick.keenest(benefit(low), ease)[0])
        some_of = list(dict.fromkeys([*quick.order(ease)[:SHORTLIST].tolist(), keenest]))
        close = [self._close(told[place]) for place in some_of]
        found = Gains(
            bracket=_gains(close, "changes", "high"),
            feet=_gains(close, "feet", "high"),
            nominal=_gains(close, "feet", "nominal"),
        )
        ranked = tuple(close[at] for at in found.order(ease[some_of]))
        return ranked, close[some_of.index(keenest)]

    def _mounted(self, kept: Kept, row: int) -> Shared:
        """Return one damper under each of the motors, not listened to yet."""
        one = np.array([row])
        offered = kept.offered.take(one)
        found = {}
        for index, each in zip(self.brackets, kept.loaded, strict=True):
            motor, under = self.task.belts[index][1], rows_of(each, one)
            left = ring_left(self.task, motor, offered, kept.plates, under.stack)
            found[index] = Damper(
                offered=offered,
                loaded=under,
                plates=kept.plates,
                rubber=kept.rubber,
                ring_left=float(left[0]),
            )
        return found

    def _close(self, shared: Shared) -> Shared:
        """Return a damper listened to through the brackets over all samples, through the feet in
        some."""
        count, found = len(self.task.motion.speeds), {}
        felt = self.feet.changes(shared, CLOSE)
        for (index, one), feet in zip(shared.items(), felt, strict=True):
            weights = self.weights[index]
            changes = self.brackets[index].changes(one.offered, one.rubber, weights)
            found[index] = replace(
                one,
                changes=tuple(sample_band(each, SHARP) for each in changes.T[:count]),
                feet=tuple(sample_band(each, SHARP) for each in feet.T),
                helps_from=works_from(SWEEP, ends(changes[:, count:], SHARP)[1], 0.0),
            )
        return found


def least_left(task: MotorTask, kept: Sequence[Kept]) -> float:
    """Return what has to be left of the belts' resonance: as asked, or the most that any leaves."""
    return min(task.stock.belt_ring, max(float(some.left.max()) for some in kept))


def _worth_a_look(chosen: NDArray[np.intp], low: Array, taken: Array) -> NDArray[np.intp]:
    """Return of the dampers `chosen` (c,) those that are no louder through the bracket and worth
    it, and the few with most benefit; all where hardly any is. `low` (n, k), `taken` (n,)."""
    fit = Gains.fits(low[chosen])
    if fit.sum() < SHORTLIST:
        return chosen
    fit[np.argsort(-taken[chosen])[:KEEN]] = True
    return chosen[fit]


def rows_of(found: LoadedDamper, rows: NDArray[np.intp]) -> LoadedDamper:
    """Return the dampers at `rows`."""
    return LoadedDamper(**{name: getattr(found, name)[rows] for name in LoadedDamper.__slots__})


def _gains(shared: Sequence[Shared], way: str, end: str) -> Array:
    """Return the gains (n, k) on one way at one end of the band, the lowest of motors [dB(A)]."""
    changes = [[getattr(one, way) for one in each.values()] for each in shared]
    ends = [[[getattr(at, end) for at in each] for each in motors] for motors in changes]
    return np.asarray(-np.array(ends).max(axis=1))
