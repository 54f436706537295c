"""The damper that quietens one motor best over all print speeds and directions, or none."""

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
from isolator.motors.drive_train import Tones, body_of, tones_of
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.physics.drive.chain import passed_torque
from isolator.physics.rubber.viscoelastic import dynamic_factor
from isolator.vibration.excitation import AXES

LEAST_LOSS = -1.0
"""No drone line may pass more torque than with the motor bolted on, but for 1 dB [dB]; convention,
no source."""
FASTEST = 1.0
"""Fastest print speed that is worth telling of [m/s]."""
WORTH = 3.0
"""Loss at the median drone line below which a damper is not worth its stack [dB]; convention."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Damper:
    """One damper with what it does to the torque that its motor passes on."""

    offered: DamperBatch  # one row
    loaded: LoadedDamper  # one row
    plates: Plates
    ends: tuple[float, float]  # factors on stiffness, soft and stiff
    tones: Tones
    nominal: Array  # (f,) loss of torque [dB]
    low: Array  # (f,) the worst over the band
    high: Array  # (f,)

    @property
    def clear(self) -> bool:
        """Whether no drone line is made worse."""
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
    losses: Array  # (3, n, f) nominal, soft, stiff [dB]
    ends: tuple[float, float]


def choose(
    task: MotorTask, index: int, cards: dict[str, Material], tallest: float, warm: float
) -> DamperChoice:
    """Return the damper whose least loss over all drone lines is largest.

    `index` into the task's `belts`; `tallest` [m] is the stack that the shaft allows, `warm` [°C]
    the rubber's temperature at its warmest. Ties go to the one that needs no wedge, then to the
    lower stack. The choice is made on the torque that the motor passes into a frame that stands
    still; whether the best is good enough is the caller's to judge, by `clear` and `worth`.
    """
    belt, motor = task.belts[index]
    plates = plates_of(task.stock, motor.frame_size, task.print.layer)
    tones = tones_of(task.motion, task.travel, belt, motor)
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
                    losses=torque_losses(task, index, some, (1.0, *ends), tones.frequency),
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
    return np.abs(dynamic_twist(offered, 1.0, np.array([100.0]))[:, 0])


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
    """Return the speed [m/s] from which no drone line passes more torque than bolted on.

    Over the whole band, along the axes and diagonals; None where that is beyond `FASTEST`. On an
    oblique move one of two belts may run at any lower speed, through the twist mode too.
    """
    sweep = np.geomspace(5.0, 3000.0, 1500)
    losses = torque_losses(task, index, damper.offered, (1.0, *damper.ends), sweep)
    worse = np.flatnonzero(losses.min(axis=(0, 1)) < 0.0)
    if not len(worse):
        return 0.0
    speed = float(sweep[worse[-1]]) / task.electrical
    return speed if speed <= FASTEST else None


def dynamic_rise(material: Material, frequency: Array) -> NDArray[np.complex128]:
    """Return complex dynamic over static stiffness (f,) at `frequency` (f,) [Hz]."""
    loss = material.loss_factor.value
    rise = dynamic_factor(
        frequency, material.reference_frequency, material.dynamic_ratio.value, loss
    )
    return np.asarray(rise * (1.0 + 1j * loss), dtype=complex)


def dynamic_twist(offered: DamperBatch, factor: float, frequency: Array) -> NDArray[np.complex128]:
    """Return the complex twist stiffness (n, f) [N·m/rad] at `frequency` (f,)."""
    rise = dynamic_rise(offered.material, frequency)
    return np.asarray(factor * offered.twist[:, None] * rise, dtype=complex)


def torque_losses(
    task: MotorTask, index: int, offered: DamperBatch, factors: tuple[float, ...], frequency: Array
) -> Array:
    """Return by how many dB each damper weakens the torque into the frame: (factors, n, f).

    `frequency` (f,) [Hz] of the ripple.
    """
    _, motor = task.belts[index]
    drives, masses = task.drives, task.carriage.masses
    shaft = AXES[motor.axis]
    inertia = float(shaft @ body_of(motor) @ shaft)
    omega = 2.0 * np.pi * frequency
    rigid = np.abs(
        passed_torque(drives, masses, index, np.full((1, len(omega)), np.inf), inertia, omega)
    )
    losses = []
    for factor in factors:
        springs = dynamic_twist(offered, factor, frequency)
        soft = np.abs(passed_torque(drives, masses, index, springs, inertia, omega))
        losses.append(20.0 * np.log10(rigid / np.maximum(soft, 1e-300)))
    return np.stack(losses)
