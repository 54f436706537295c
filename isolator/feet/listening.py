"""How much quieter than before candidates are heard, at few frequencies, for many at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array
from isolator.vibration import directions
from isolator.vibration.desk import stood_on
from isolator.vibration.excitation import Excitation, motor_lines
from isolator.vibration.heard import desk_ear, louder, tone_weights
from isolator.vibration.installation import Installation
from isolator.vibration.isolation import floor_energy
from isolator.vibration.lines import summed
from isolator.vibration.printer import MassCase
from isolator.vibration.quick_energy import quick_floor_energy
from isolator.vibration.source import Source, motor_source
from isolator.vibration.stand import Stand
from isolator.vibration.system import System, build

FEW, MANY = 18, 40
"""Frequencies at which all are compared, and those that are ranked."""
LOWEST = 4.0
"""Lower tones are not heard [Hz]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listening:
    """A printer in one state at f frequencies, with what was heard of it before at k speeds.

    Squared foot forces stand for what a desk feels: one that gives way takes power in by them.
    """

    source: Source
    weights: Array  # (f, m, k) what a unit counts at each speed, all lines summed
    before: Array  # (k,)
    ceiling: float  # no more than this is promised of any feet [dB]

    def gains(self, system: System) -> Array:
        """Return by how much n sets of feet are quieter (n, k) [dB(A)], as far as is promised."""
        after = summed(quick_floor_energy(system, self.source), self.weights)
        return np.minimum(-louder(self.before, after), self.ceiling)


def listening_grid(excitation: Excitation, count: int) -> Array:
    """Return `count` frequencies (f,) [Hz] that all lines but the microsteps' run through."""
    motion = excitation.motion
    lines = motor_lines(motion, max(motion.speeds) * directions.top_factor(motion.layout))
    return np.geomspace(LOWEST, max(1.001 * lines["full step"], 8.0 * LOWEST), count)


def first_listening(installation: Installation, baseline: Stand) -> Listening:
    """Return how all candidates are listened to, in the middle of all bands."""
    grid = listening_grid(installation.excitation, FEW)
    return listening(installation, baseline, installation.printer.nominal, grid)


def listening(
    installation: Installation, baseline: Stand, case: MassCase, grid: Array
) -> Listening:
    """Return how the printer in one state is listened to at `grid` (f,) [Hz].

    `baseline` stood there before, at the middle of its band; `case` is one of the installation's
    printer.
    """
    excitation = installation.excitation
    lines = [tone_weights(excitation, grid, speed) for speed in excitation.motion.speeds]
    weights = np.stack([each.sum(axis=-1) for each in lines], axis=-1)
    weights *= desk_ear(stood_on(installation.surroundings.desk), grid)[:, None, None]
    own = _same_case(baseline, case)
    feet, _ = baseline.settled(own, "nominal")
    stood = floor_energy(build(feet, own), motor_source(excitation, own, grid))
    return Listening(
        source=motor_source(excitation, case, grid),
        weights=weights,
        before=summed(stood, weights)[0],
        ceiling=installation.limits.promise_ceiling_db,
    )


def _same_case(baseline: Stand, case: MassCase) -> MassCase:
    """Return the state `case` of what stood on the baseline's feet."""
    if baseline.printer is None:
        return case
    return next(each for each in baseline.printer.cases if each.name == case.name)
