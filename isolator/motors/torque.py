"""What a damper does to the torque that its motor passes into a frame that stands still."""

from __future__ import annotations

import numpy as np

from isolator.motors.candidates import DamperBatch
from isolator.motors.drive_train import grid_of, mean_weights, shaft_inertia
from isolator.motors.sampled import Drawn, dynamic_rise, wide
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.physics.drive.chain import Turning, turning
from isolator.vibration.drives import BELT_LOSS
from isolator.vibration.isolation import decibel
from isolator.vibration.spectrum import THIN, every
from isolator.vibration.spreads import PadFactors


def mean_losses(
    task: MotorTask, index: int, offered: DamperBatch, ends: tuple[float, float], lines: Array
) -> Array:
    """Return the torque loss of `lines` (k,) [Hz], means over directions: (3, n, k) [dB].

    Of n dampers of one rubber, nominal and at both `ends` of its stiffness; belt and field nominal.
    """
    belt, motor = task.belts[index]
    grid = grid_of(task.motion, lines, min(offered.material.loss_factor.value, BELT_LOSS))
    weights = mean_weights(task.motion, belt, lines.tolist(), grid)
    drives, masses = task.excitation.drives, task.excitation.carriage.masses
    found = turning(drives, masses, index, shaft_inertia(motor), 2.0 * np.pi * grid)
    bolted = np.abs(found.held) ** 2
    # |K/(K + r)|² = 1/|1 + r/K|², K the static twist times the material's rise
    give = found.resists / dynamic_rise(offered.material, grid)
    straight, square = 2.0 * give.real, np.abs(give) ** 2
    soft = []
    for factor in (1.0, *ends):
        x = 1.0 / (factor * offered.twist[:, None])
        soft.append((bolted / (1.0 + straight * x + square * x**2)) @ weights)
    return decibel(bolted @ weights, np.stack(soft))


class Torque:
    """One motor's torque in samples, under 1 N·m of ripple at the frequencies `grid` (f,) [Hz].

    The first sample at all of them, the others at every third.
    """

    def __init__(self, task: MotorTask, index: int, drawn: Drawn, grid: Array) -> None:
        inertia, masses = shaft_inertia(task.belts[index][1]), task.excitation.carriage.masses
        self.grid, self.thin = grid, grid[every(THIN, grid)]

        def turned(row: int, frequency: Array) -> Turning:
            omega = 2.0 * np.pi * frequency
            return turning(drawn.drives[row], masses, index, inertia, omega)

        self.first = turned(0, grid)
        others = [turned(row, self.thin) for row in range(1, len(drawn.samples))]
        held, resists = (np.array(each) for each in zip(*others, strict=True))
        self.others = Turning(held, resists)

    def energies(self, offered: DamperBatch, rubber: PadFactors) -> tuple[Array, Array]:
        """Return the squared torque (n, f) [N²·m²] passed on bolted, and on a damper (one row)."""
        first, rest = (PadFactors(*(each[rows, None] for each in rubber)) for rows in _SPLIT)
        one = _passed(self.first, offered, first, self.grid)
        others = _passed(self.others, offered, rest, self.thin)
        bolted, soft = (wide(a[0], b, self.grid) for a, b in zip(one, others, strict=True))
        return bolted, soft


_SPLIT = (slice(0, 1), slice(1, None))


def _passed(
    turned: Turning, offered: DamperBatch, rubber: PadFactors, frequency: Array
) -> tuple[Array, Array]:
    """Return the squared torque (n, f) passed on bolted, and on the damper."""
    rise = dynamic_rise(offered.material, frequency, rubber.dynamic, rubber.loss)
    spring = rubber.static * float(offered.twist[0]) * rise
    held = np.broadcast_to(turned.held, spring.shape)
    soft = held * spring / (spring + turned.resists)
    return np.asarray(np.abs(held) ** 2), np.asarray(np.abs(soft) ** 2)


class TorqueLines:
    """Lines (k,) [Hz] of one motor in samples, each a mean of energies over directions."""

    def __init__(
        self, task: MotorTask, index: int, drawn: Drawn, lines: Array, loss: float
    ) -> None:
        """`loss` is the smallest loss factor of any rubber that is asked about."""
        grid = grid_of(task.motion, lines, min(loss, BELT_LOSS))
        belt, _ = task.belts[index]
        self.weights = mean_weights(task.motion, belt, lines.tolist(), grid)
        self.torque = Torque(task, index, drawn, grid)

    def losses(self, offered: DamperBatch, rubber: PadFactors) -> Array:
        """Return by how many dB (n, k) a damper (one row) weakens them."""
        bolted, soft = self.torque.energies(offered, rubber)
        return decibel(bolted @ self.weights, soft @ self.weights)
