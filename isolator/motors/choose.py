"""The damper that quietens one motor best over all print speeds, or none.

What is judged are tones at a speed, each a mean of energies over all directions of a move. Whatever
the damper, a motor that runs up from standstill as the direction turns passes the damper's own
modes in some of them: there a tone is louder, and the worst direction is told beside the mean.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from isolator.cards import Material
from isolator.motors.belt_load import (
    RULES,
    LoadedDamper,
    Plates,
    ends_of,
    loaded,
    plates_of,
    stopped_by,
)
from isolator.motors.candidates import DamperBatch, damper_batches
from isolator.motors.drive_train import Tones, tones_of
from isolator.motors.sampled import Drawn, dynamic_rise
from isolator.motors.task import MotorTask
from isolator.motors.torque import TorqueLines, mean_losses
from isolator.physics.arrays import Array
from isolator.vibration.spreads import SHARP, PadFactors, ends
from isolator.vibration.targets import axis_line
from isolator.vibration.verdict import AMPLIFIED_DB, RAISED_LOW_DB

SHORTLIST = 8
"""Dampers that are looked at over samples, of all that hold."""
SWEEP = np.geomspace(5.0, 3000.0, 400)
"""Lines [Hz] looked at for the speed from which a damper helps."""
FASTEST = 1.0
"""Fastest print speed that is worth telling of [m/s]."""
WORTH = 3.0
"""Loss at the median drone tone below which a damper is not worth its stack [dB]; convention."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Damper:
    """One damper with what it does to the torque that its motor passes on."""

    offered: DamperBatch  # one row
    loaded: LoadedDamper  # one row
    plates: Plates
    rubber: PadFactors  # (n,) in samples
    tones: Tones
    nominal: Array  # (k,) loss of each tone's torque, mean over directions [dB]
    low: Array  # (k,) and its band over samples
    high: Array  # (k,)
    helps_from: float | None = None  # speed from which no drone tone passes more torque [m/s]

    @property
    def clear(self) -> bool:
        """Whether no drone tone is raised in the mean over directions, by the verdicts' rule."""
        return bool(clearance(self.nominal, self.low) >= 0.0)

    @property
    def worth(self) -> bool:
        """Whether it takes enough away to be worth its stack."""
        return bool(middle(self.low) >= WORTH)


@dataclass(frozen=True, slots=True, kw_only=True)
class DamperChoice:
    """What the search for one motor's damper gave."""

    best: Damper | None  # the best of those that hold; None where none holds standing still
    softest: Damper | None  # the one of them with the lowest twist mode
    tried: int
    stopped: dict[str, int]  # rule → how many it stopped


@dataclass(frozen=True, slots=True, kw_only=True)
class _Kept:
    """Dampers of one batch that hold standing still, and what they do to torque."""

    offered: DamperBatch
    loaded: LoadedDamper
    rubber: PadFactors
    losses: Array  # (3, n, k) nominal and about both ends of the band [dB]

    def merits(self) -> list[tuple[float, ...]]:
        """Return of each what the best has least of."""
        found = _keys(self.losses[0], self.losses.min(axis=0), self.loaded)
        return list(zip(*found.tolist(), strict=True))

    def softness(self) -> Array:
        """Return the twist stiffness (n,) as it acts at 100 Hz [N·m/rad]."""
        rise = np.abs(dynamic_rise(self.offered.material, np.array([100.0])))
        return np.asarray(rise * self.offered.twist)


def clearance(nominal: Array, low: Array) -> Array:
    """Return by how much the tones (..., k) stay clear of what counts as raised, least (...) [dB].

    `low` is the low end of their loss' band.
    """
    least = np.minimum(nominal - AMPLIFIED_DB, low - RAISED_LOW_DB)
    return np.asarray(least.min(axis=-1))


def middle(low: Array) -> Array:
    """Return the low end (...) [dB] of the median tone's loss, of those of all tones (..., k)."""
    return np.asarray(np.median(low, axis=-1))


def _keys(nominal: Array, low: Array, held: LoadedDamper) -> Array:
    """Return what the best has least of (4, n): faults, clearance taken negative, a wedge, height.

    `nominal`, `low` (n, k) [dB].
    """
    clear = clearance(nominal, low)
    good = (clear >= 0.0) & (middle(low) >= WORTH)
    # to a tenth of a decibel: finer differences are no reason to cut a wedge
    return np.array([~good, -np.round(clear, 1), held.wedge > 0.0, held.stack])


def choose(
    task: MotorTask,
    index: int,
    cards: dict[str, Material],
    tallest: float,
    warm: float,
    drawn: Drawn,
) -> DamperChoice:
    """Return the damper whose drone tones stay clearest of what counts as raised.

    One that takes enough away to be worth its stack, and raises none, comes before all others.

    A tone's loss is that of its energy's mean over directions. `index` into the task's `belts`;
    `tallest` [m] is the stack that the shaft allows, `warm` [°C] the rubber's temperature at its
    warmest. Ties go to the one that needs no wedge, then to the lower stack. The choice is made on
    the torque that the motor passes into a frame that stands still: of all dampers at both ends of
    their rubber's stiffness, and of the first few, and the softest, over samples of everything.
    Whether the best is good enough is the caller's to judge, by `clear` and `worth`.
    """
    _, motor = task.belts[index]
    plates = plates_of(task.stock, motor.frame_size, task.print.layer)
    tones = tones_of(task.motion)
    tried, stopped = 0, Counter[str]()
    kept: list[_Kept] = []
    room = task.print.hole_compensation
    for batch in damper_batches(task.stock, motor.frame_size, room, cards):
        found = loaded(task, motor, batch, plates, ends_of(task.room, batch, warm))
        codes = stopped_by(task, motor, batch, found, tallest)
        tried += len(batch)
        stopped.update(RULES[code] for code in codes[codes >= 0])
        rows = np.flatnonzero(codes < 0)
        if len(rows):
            some, rubber = batch.take(rows), drawn.rubber(batch.material, task.room, warm)
            low, high = ends(rubber.static * rubber.dynamic)
            kept.append(
                _Kept(
                    offered=some,
                    loaded=_rows(found, rows),
                    rubber=rubber,
                    losses=mean_losses(
                        task, index, some, (float(low), float(high)), tones.frequency
                    ),
                )
            )
    best, softest = _told(task, index, kept, plates, tones, drawn)
    return DamperChoice(best=best, softest=softest, tried=tried, stopped=dict(stopped))


def _rows(found: LoadedDamper, rows: NDArray[np.intp]) -> LoadedDamper:
    return LoadedDamper(**{name: getattr(found, name)[rows] for name in LoadedDamper.__slots__})


def _told(
    task: MotorTask,
    index: int,
    kept: list[_Kept],
    plates: Plates,
    tones: Tones,
    drawn: Drawn,
) -> tuple[Damper | None, Damper | None]:
    """Return the best and the softest of all that hold, with their bands; None of none."""
    if not kept:
        return None, None
    places = [(some, row) for some in kept for row in range(len(some.offered))]
    keys = [key for some in kept for key in some.merits()]
    first = sorted(range(len(places)), key=keys.__getitem__)[:SHORTLIST]
    soft = int(np.argmin(np.concatenate([some.softness() for some in kept])))
    loss = min(some.offered.material.loss_factor.value for some in kept)
    lines = TorqueLines(task, index, drawn, tones.frequency, loss)
    swept = TorqueLines(task, index, drawn, SWEEP, loss)

    def damper(place: int) -> Damper:
        some, row = places[place]
        one = np.array([row])
        offered = some.offered.take(one)
        losses = lines.losses(offered, some.rubber)
        low, high = ends(losses, SHARP)
        return Damper(
            offered=offered,
            loaded=_rows(some.loaded, one),
            plates=plates,
            rubber=some.rubber,
            tones=tones,
            nominal=losses[0],
            low=low,
            high=high,
        )

    told = {place: damper(place) for place in dict.fromkeys([*first, soft])}

    def key(each: Damper) -> tuple[float, ...]:
        return tuple(_keys(each.nominal[None], each.low[None], each.loaded)[:, 0].tolist())

    def helping(each: Damper) -> Damper:
        losses = swept.losses(each.offered, each.rubber)
        return replace(each, helps_from=_helps_from(task, losses))

    best = helping(min(told.values(), key=key))
    return best, best if best.clear else helping(told[soft])


def _helps_from(task: MotorTask, losses: Array) -> float | None:
    """Return the speed [m/s] from which no drone tone passes more torque than bolted on.

    Over the whole band, each tone as a mean over directions; None where that is beyond `FASTEST`.
    `losses` (n, k) [dB] of the lines `SWEEP`.
    """
    worse = np.flatnonzero(ends(losses, SHARP)[0] < 0.0)
    if not len(worse):
        return 0.0
    speed = float(SWEEP[worse[-1]]) / axis_line(task.motion, 1.0)
    return speed if speed <= FASTEST else None
