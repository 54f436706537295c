"""How much quieter than before candidates are heard, at few frequencies, for many at once."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array
from isolator.vibration import directions
from isolator.vibration.desk import stood_on
from isolator.vibration.excitation import Excitation, motor_lines
from isolator.vibration.heard import desk_ear, louder
from isolator.vibration.installation import Installation
from isolator.vibration.isolation import floor_energy, rigid_energy
from isolator.vibration.lines import summed, tone_weights
from isolator.vibration.printer import MassCase
from isolator.vibration.quick_energy import quick_floor_energy
from isolator.vibration.source import Source, motor_source
from isolator.vibration.stand import Stand
from isolator.vibration.system import System, build

FEW, MANY = 18, 40
"""Frequencies at which all are compared, and those that are ranked."""
LOWEST = 4.0
"""Lower tones are not heard [Hz]."""
RAISED = 1e3
"""By so much in power no feet raise a tone over rigid ones: 30 dB, a resonance of the least loss
factor that a card may have."""
UNHEARD = 1e-2
"""Frequencies whose tones, raised so far, are this share of the least sound that is told are left
out: each would change it by 0.04 dB at most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Listening:
    """A printer in one state at the f frequencies that count, with what was heard of it before at k
    speeds.

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
    weights = tone_weights(excitation, grid, excitation.motion.speeds).sum(axis=-1)
    weights *= desk_ear(stood_on(installation.surroundings.desk), grid)[:, None, None]
    own = _same_case(baseline, case)
    feet, _ = baseline.settled(own, "nominal")
    stood, source = build(feet, own), motor_source(excitation, own, grid)
    before = summed(floor_energy(stood, source), weights)[0]
    ceiling = installation.limits.promise_ceiling_db
    rigid = np.einsum("fm,fmk->fk", rigid_energy(stood, source)[0], weights)
    least = before * 10.0 ** (-ceiling / 10.0)  # less is not told of any feet
    counts = (RAISED * rigid >= UNHEARD * least).any(axis=1)
    return Listening(
        source=motor_source(excitation, case, grid[counts]),
        weights=weights[counts],
        before=before,
        ceiling=ceiling,
    )


def _same_case(baseline: Stand, case: MassCase) -> MassCase:
    """Return the state `case` of what stood on the baseline's feet."""
    if baseline.printer is None:
        return case
    return next(each for each in baseline.printer.cases if each.name == case.name)
