"""What is heard of motors on dampers through the feet, in a few samples and frequencies."""

from __future__ import annotations

import numpy as np

from isolator.feet.listening import listening_grid
from isolator.motors.floor import room_for, through_feet
from isolator.motors.mount import Shared
from isolator.motors.sampled import Drawn, Rows, side_by_side
from isolator.motors.task import MotorTask
from isolator.physics.arrays import Array
from isolator.vibration.heard import desk_ear, louder, sound, strengths
from isolator.vibration.lines import tone_weights

LINES = 80
"""Frequencies at which dampers are compared."""
CLOSE = 33
"""Samples in which they are, at most."""


class FeetWay:
    """What is heard of motors through the feet, all other motors bolted on."""

    def __init__(self, task: MotorTask, indices: tuple[int, ...], drawn: Drawn) -> None:
        self.task, self.drawn, self.indices = task, drawn, indices
        self.grid = listening_grid(task.excitation, LINES)
        self.ear = desk_ear(task.desk, self.grid)
        self.weights = tone_weights(task.excitation, self.grid, task.motion.speeds)
        self.strong = strengths(task.excitation, drawn.samples)[:CLOSE]
        self.rooms = [room_for(task, drawn, indices, row) for row in range(len(self.strong))]
        self.before = self._heard({}, CLOSE)

    def changes(self, shared: Shared, count: int) -> Array:
        """Return how much louder (m, n, k) [dB(A)] each motor is heard in `count` samples."""
        after = self._heard(shared, count)
        return louder(self.before[:, : after.shape[1]], after)

    def _heard(self, dampers: Shared, count: int) -> Array:
        """Return what is heard (m, n, k) of each of the motors."""
        rows = np.arange(min(count, len(self.strong)))

        def some(own: Rows) -> Array:
            rooms = [self.rooms[row] for row in own]
            return through_feet(self.task, self.drawn, rooms, dampers, own, self.grid)

        energies = side_by_side(some, rows)
        strong = self.strong[: len(rows)]
        return np.stack(
            [
                sound(energies[..., [index]], self.ear, self.weights[:, [index]], strong)
                for index in self.indices
            ]
        )
