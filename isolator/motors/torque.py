"""The torque that a motor passes into a frame, bolted on and on a damper."""

from __future__ import annotations

import numpy as np

from isolator.motors.candidates import DamperBatch
from isolator.motors.drive_train import shaft_inertia
from isolator.motors.sampled import Drawn, dynamic_rise, wide
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.physics.drive.chain import Turning, turning, turnings
from isolator.vibration.spectrum import THIN, every
from isolator.vibration.spreads import PadFactors


class Torque:
    """One motor's torque in samples, under 1 N·m of ripple at the frequencies `grid` (f,) [Hz].

    The first sample at all of them, the others at every third. The frame stands still, or gives
    way under the motor by `give` [rad/(N·m)].
    """

    def __init__(
        self, task: MotorTask, index: int, drawn: Drawn, grid: Array, give: complex = 0.0
    ) -> None:
        inertia, masses = shaft_inertia(task.belts[index][1]), task.excitation.carriage.masses
        self.grid, self.thin, self.give = grid, grid[every(THIN, grid)], give

        first, *others = drawn.drives
        self.first = turning(first, masses, index, inertia, 2.0 * np.pi * grid)
        self.others = turnings(others, masses, index, inertia, 2.0 * np.pi * self.thin)

    def bolted(self) -> Array:
        """Return the squared torque (n, f) [N²·m²] passed on bolted to the frame."""
        first, others = (
            np.abs(each.held / (1.0 + each.resists * self.give)) ** 2
            for each in (self.first, self.others)
        )
        return wide(first, others, self.grid)

    def energies(self, offered: DamperBatch, rubber: PadFactors) -> tuple[Array, Array]:
        """Return the squared torque (n, f) [N²·m²] passed on bolted, and on a damper (one row)."""
        first, rest = (PadFactors(*(each[rows, None] for each in rubber)) for rows in _SPLIT)
        one = _passed(self.first, offered, first, self.grid, self.give)
        others = _passed(self.others, offered, rest, self.thin, self.give)
        bolted, soft = (wide(a[0], b, self.grid) for a, b in zip(one, others, strict=True))
        return bolted, soft


_SPLIT = (slice(0, 1), slice(1, None))


def _passed(
    turned: Turning, offered: DamperBatch, rubber: PadFactors, frequency: Array, give: complex
) -> tuple[Array, Array]:
    """Return the squared torque (n, f) passed on bolted, and on the damper."""
    rise = dynamic_rise(offered.material, frequency, rubber.dynamic, rubber.loss)
    spring = rubber.static * float(offered.twist[0]) * rise
    held = np.broadcast_to(turned.held, spring.shape)
    # the frame and the rubber give way one after the other
    bolted, soft = (held / (1.0 + turned.resists * each) for each in (give, give + 1.0 / spring))
    return np.asarray(np.abs(bolted) ** 2), np.asarray(np.abs(soft) ** 2)
