"""What is heard of a motor through its bracket: louder or quieter on a damper than bolted on.

The motor's torque bends the panel that its bracket sits on, which radiates. As the panel gives way,
a motor passes on less and less at higher frequencies even where it is bolted on. All its lines, the
microsteps' too, each a mean over the directions of a move, are A-weighted and summed by energy. Of
no frequency is more taken than is promised.
"""

from __future__ import annotations

import numpy as np

from isolator.motors.candidates import DamperBatch
from isolator.motors.drive_train import shaft_inertia
from isolator.motors.sampled import Drawn, dynamic_rise
from isolator.motors.task import MotorTask
from isolator.motors.torque import Torque
from isolator.physics.arrays import Array
from isolator.physics.drive.chain import turning
from isolator.vibration.heard import PANEL, louder, moment_ear, sound, strengths
from isolator.vibration.lines import tone_weights
from isolator.vibration.spreads import PadFactors

PANEL_GIVE = -1j / (16.0 * PANEL.bending)
"""How far the panel turns under a moment [rad/(N·m)]: an endless plate's mobility ω/(16·B), see
isolator.physics.sound.panel, over jω; what it springs beside that is left out."""


def bracket_weights(task: MotorTask, index: int, grid: Array, speeds: Array) -> Array:
    """Return weights (f, k, l) of one motor's l lines at `speeds` (k,) [m/s], mean strengths.

    They make the energy of each line of squared torques at `grid` (f,) [Hz], unweighted.
    """
    return tone_weights(task.excitation, grid, speeds)[:, index]


def quick_changes(
    task: MotorTask,
    index: int,
    offered: DamperBatch,
    ends: tuple[float, float],
    grid: Array,
    weights: Array,
) -> Array:
    """Return how much louder motor `index` is heard through its bracket (3, n, k) [dB(A)].

    On n dampers of one rubber, nominal and at both `ends` of its stiffness; belt, field and
    strengths nominal. `weights` (f, k, l) as `bracket_weights` gives them.
    """
    _, motor = task.belts[index]
    drives, masses = task.excitation.drives, task.excitation.carriage.masses
    found = turning(drives, masses, index, shaft_inertia(motor), 2.0 * np.pi * grid)
    # held/(1 + r/P) bolted on, held/(1 + r/P + r/K) on rubber: P is the panel's stiffness, K the
    # static twist times the material's rise
    panel = 1.0 + found.resists * PANEL_GIVE
    heard = weights.sum(axis=-1) * (moment_ear(grid) * np.abs(found.held / panel) ** 2)[:, None]
    give = found.resists / dynamic_rise(offered.material, grid) / panel
    straight, square, least = 2.0 * give.real, np.abs(give) ** 2, _least(task)
    soft = []
    for factor in (1.0, *ends):
        x = 1.0 / (factor * offered.twist[:, None])
        soft.append(np.maximum(1.0 / (1.0 + straight * x + square * x**2), least) @ heard)
    return louder(heard.sum(axis=0), np.stack(soft))


class Bracket:
    """What is heard of one motor through its bracket, in samples, at `grid` (f,) [Hz]."""

    def __init__(self, task: MotorTask, index: int, drawn: Drawn, grid: Array) -> None:
        self.least, self.ear = _least(task), moment_ear(grid)
        self.torque = Torque(task, index, drawn, grid, PANEL_GIVE)
        self.strong = strengths(task.excitation, drawn.samples)

    def changes(self, offered: DamperBatch, rubber: PadFactors, weights: Array) -> Array:
        """Return how much louder (n, k) [dB(A)] it is heard on a damper (one row)."""
        return louder(*self.sounds(offered, rubber, weights))

    def sounds(
        self, offered: DamperBatch, rubber: PadFactors, weights: Array
    ) -> tuple[Array, Array]:
        """Return what is heard of it (n, k) bolted on, and on a damper (one row)."""
        bolted, soft = self.torque.energies(offered, rubber)
        return self._sum(bolted, weights), self._sum(np.maximum(soft, self.least * bolted), weights)

    def bolted(self, weights: Array) -> Array:
        """Return what is heard of it (n, k) bolted on."""
        return self._sum(self.torque.bolted(), weights)

    def _sum(self, energies: Array, weights: Array) -> Array:
        return sound(energies[..., None], self.ear, weights[:, None], self.strong)


def _least(task: MotorTask) -> float:
    """Return the share of its energy that counts at any frequency, whatever the damper."""
    return float(10.0 ** (-task.most / 10.0))
