"""The damper that quietens one motor best over all print speeds, or none.

What is judged are tones at a speed, each a mean of energies over all directions of a move. Whatever
the damper, a motor that runs up from standstill as the direction turns passes the damper's own
modes in some of them: there a tone is louder, and the worst direction is told beside the mean.
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

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
from isolator.motors.drive_train import Tones, body_of, grid_of, mean_weights, tones_of
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.physics.drive.chain import turning
from isolator.physics.rubber.viscoelastic import dynamic_factor
from isolator.vibration.drives import AXES, BELT_LOSS
from isolator.vibration.isolation import decibel
from isolator.vibration.targets import axis_line
from isolator.vibration.verdict import AMPLIFIED_DB

LEAST_LOSS = AMPLIFIED_DB
"""No drone tone may be raised by more, as a mean over directions and over the whole band: as little
cannot be told from none [dB]; convention, no source."""
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
    ends: tuple[float, float]  # factors on stiffness, soft and stiff
    tones: Tones
    nominal: Array  # (k,) loss of each tone's torque, mean over directions [dB]
    low: Array  # (k,) the worst over the band
    high: Array  # (k,)

    @property
    def clear(self) -> bool:
        """Whether no drone tone is made worse in the mean over directions."""
        return bool(self.low.min() >= LEAST_LOSS)

    @property
    def worth(self) -> bool:
        """Whether it takes enough away to be worth its stack."""
        return bool(np.median(self.low) >= WORTH)


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
    losses: Array  # (3, n, k) nominal, soft, stiff [dB]
    ends: tuple[float, float]


def choose(
    task: MotorTask, index: int, cards: dict[str, Material], tallest: float, warm: float
) -> DamperChoice:
    """Return the damper whose least loss over all drone tones is largest.

    A tone's loss is that of its energy's mean over directions. `index` into the task's `belts`;
    `tallest` [m] is the stack that the shaft allows, `warm` [°C] the rubber's temperature at its
    warmest. Ties go to the one that needs no wedge, then to the lower stack. The choice is made on
    the torque that the motor passes into a frame that stands still; whether the best is good
    enough is the caller's to judge, by `clear` and `worth`.
    """
    _, motor = task.belts[index]
    plates = plates_of(task.stock, motor.frame_size, task.print.layer)
    tones = tones_of(task.motion)
    tried, stopped = 0, Counter[str]()
    kept: list[_Kept] = []
    room = task.print.hole_compensation
    for batch in damper_batches(task.stock, motor.frame_size, room, cards):
        ends = ends_of(task.room, batch, warm)
        found = loaded(task, motor, batch, plates, ends)
        codes = stopped_by(task, motor, batch, found, tallest)
        tried += len(batch)
        stopped.update(RULES[code] for code in codes[codes >= 0])
        rows = np.flatnonzero(codes < 0)
        if len(rows):
            some = batch.take(rows)
            kept.append(
                _Kept(
                    offered=some,
                    loaded=_rows(found, rows),
                    ends=ends,
                    losses=mean_losses(task, index, some, ends, tones.frequency),
                )
            )

    def picked(keys: list[tuple[Array, ...]]) -> Damper | None:
        return _first(kept, keys, plates, tones)

    return DamperChoice(
        best=picked([_merit(each) for each in kept]),
        softest=picked([(_turning(each.offered),) for each in kept]),
        tried=tried,
        stopped=dict(stopped),
    )


def _rows(found: LoadedDamper, rows: NDArray[np.intp]) -> LoadedDamper:
    return LoadedDamper(**{name: getattr(found, name)[rows] for name in LoadedDamper.__slots__})


def _merit(some: _Kept) -> tuple[Array, ...]:
    """Return what the best has least of: loss taken negative, a wedge, height."""
    least = some.losses.min(axis=(0, 2))
    # to a tenth of a decibel: finer differences are no reason to cut a wedge
    return (-np.round(least, 1), (some.loaded.wedge > 0).astype(float), some.loaded.stack)


def _turning(offered: DamperBatch) -> Array:
    """Return the twist stiffness as it acts at 100 Hz [N·m/rad]."""
    rise = np.abs(dynamic_rise(offered.material, np.array([100.0])))
    return np.asarray(rise * offered.twist)


def _first(
    kept: list[_Kept], keys: list[tuple[Array, ...]], plates: Plates, tones: Tones
) -> Damper | None:
    """Return the damper that comes first by its keys, None of none."""
    best: tuple[tuple[float, ...], _Kept, int] | None = None
    for some, columns in zip(kept, keys, strict=True):
        row = int(np.lexsort(columns[::-1])[0])
        key = tuple(float(column[row]) for column in columns)
        if best is None or key < best[0]:
            best = (key, some, row)
    if best is None:
        return None
    _, some, row = best
    one, loss = np.array([row]), some.losses[:, row]
    return Damper(
        offered=some.offered.take(one),
        loaded=_rows(some.loaded, one),
        plates=plates,
        ends=some.ends,
        tones=tones,
        nominal=loss[0],
        low=loss.min(axis=0),
        high=loss.max(axis=0),
    )


def helps_from(task: MotorTask, index: int, damper: Damper) -> float | None:
    """Return the speed [m/s] from which no drone tone passes more torque than bolted on.

    Over the whole band, each tone as a mean over directions; None where that is beyond `FASTEST`.
    """
    lines = np.geomspace(5.0, 3000.0, 400)
    losses = mean_losses(task, index, damper.offered, damper.ends, lines)
    worse = np.flatnonzero(losses.min(axis=(0, 1)) < 0.0)
    if not len(worse):
        return 0.0
    speed = float(lines[worse[-1]]) / axis_line(task.motion, 1.0)
    return speed if speed <= FASTEST else None


def dynamic_rise(material: Material, frequency: Array) -> NDArray[np.complex128]:
    """Return complex dynamic over static stiffness (f,) at `frequency` (f,) [Hz]."""
    loss = material.loss_factor.value
    rise = dynamic_factor(
        frequency, material.reference_frequency, material.dynamic_ratio.value, loss
    )
    return np.asarray(rise * (1.0 + 1j * loss), dtype=complex)


def mean_losses(
    task: MotorTask, index: int, offered: DamperBatch, ends: tuple[float, float], lines: Array
) -> Array:
    """Return the torque loss of `lines` (k,) [Hz], means over directions: (3, n, k) [dB].

    Nominal and at both `ends` of the rubber's band.
    """
    belt, _ = task.belts[index]
    grid = grid_of(task.motion, lines, min(offered.material.loss_factor.value, BELT_LOSS))
    weights = mean_weights(task.motion, belt, lines.tolist(), grid)
    return torque_losses(task, index, offered, (1.0, *ends), grid, weights)


def torque_losses(
    task: MotorTask,
    index: int,
    offered: DamperBatch,
    factors: tuple[float, ...],
    frequency: Array,
    weights: Array,
) -> Array:
    """Return by how many dB each damper weakens the torque into the frame: (factors, n, k).

    `frequency` (f,) [Hz] of the ripple; `weights` (f, k) make k means of energies over it.
    """
    _, motor = task.belts[index]
    drives, masses = task.excitation.drives, task.excitation.carriage.masses
    shaft = AXES[motor.axis]
    inertia = float(shaft @ body_of(motor) @ shaft)
    omega = 2.0 * np.pi * frequency

    found = turning(drives, masses, index, inertia, omega)
    bolted = np.abs(found.held) ** 2
    # |K/(K + r)|² = 1/|1 + r/K|², K the static twist times the material's rise
    give = found.resists / dynamic_rise(offered.material, frequency)
    straight, square = 2.0 * give.real, np.abs(give) ** 2
    soft = []
    for factor in factors:
        x = 1.0 / (factor * offered.twist[:, None])
        soft.append((bolted / (1.0 + straight * x + square * x**2)) @ weights)
    return decibel(bolted @ weights, np.stack(soft))
