"""What is heard of a printer: every tone of its motors on its way out, A-weighted, as a change.

Each tone is an energy mean over the directions of a move, times its strength, which is known as a
range only. It leaves through the feet into the desk, which radiates, and through the motors'
brackets into the frame, which radiates too. Tones are summed by energy. Told is how much louder
one set of feet or mounts is than another under the same printer, in dB(A); a level is not told, as
nobody knows it. A desk that does not give way radiates nothing: there the A-weighted squared force
stands for what lies under it.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array
from isolator.physics.bodies.plate import Plate
from isolator.physics.bodies.receiver import bending_stiffness, mass_per_area
from isolator.physics.sound.panel import moment_power
from isolator.physics.sound.radiation import critical_frequency, radiation_factor
from isolator.physics.sound.weighting import a_energy
from isolator.vibration.band import Band
from isolator.vibration.desk import StoodOn
from isolator.vibration.excitation import MOTOR_SOURCES, Excitation, ripple_of
from isolator.vibration.isolation import decibel
from isolator.vibration.lines import summed
from isolator.vibration.sampled import sample_band
from isolator.vibration.spreads import Samples

USUAL_TOP = (1.4, 0.7)
"""Of a table of which no size is told [m]; usual, from memory."""
UNCHANGED = Band(low=0.0, nominal=0.0, high=0.0)
"""What feet change on the way through the frame: nothing."""
FULL = 1e-6
"""Shortfall [dB] that is none: sums of energies differ by rounding."""


class Panel(NamedTuple):
    """A part of the frame that a motor sits on."""

    bending: float  # [N·m]
    mass_per_area: float  # [kg/m²]
    size: tuple[float, float]  # [m]


PANEL = Panel(
    bending=float(bending_stiffness(210e9, 1.5e-3, 0.3)),
    mass_per_area=float(mass_per_area(7850.0, 1.5e-3)),
    size=(0.4, 0.4),
)
"""A steel sheet of 1.5 mm; estimated. Only how it answers over frequency counts, not how much."""


def desk_ear(desk: StoodOn, grid: Array) -> Array:
    """Return what a unit of what the desk feels counts (f,) at `grid` (f,) [Hz].

    Of a plate that gives way: its power, A·σ/ω, as power over losses and mass makes motion and
    σ makes sound of that. Of the stand-in for a rigid desk, that has no material: a squared force.
    """
    weight = a_energy(grid)
    return weight if not desk.material else weight * _radiates(desk.plate, grid)


def panel_ear(grid: Array) -> Array:
    """Return what a unit of power into the frame's panel counts (f,) at `grid` (f,) [Hz]."""
    plate = Plate(
        bending=PANEL.bending,
        mass_per_area=PANEL.mass_per_area,
        poisson=0.3,
        loss=0.01,
        size=PANEL.size,
    )
    return a_energy(grid) * _radiates(plate, grid)


def moment_ear(grid: Array) -> Array:
    """Return what a squared moment of 1 N·m on the panel counts (f,) at `grid` (f,) [Hz]."""
    return moment_power(1.0, PANEL.bending, grid) * panel_ear(grid)


def _radiates(plate: Plate, grid: Array) -> Array:
    """Return σ/ω (f,): the sound of a plate for a unit of power into it, up to a factor."""
    critical = critical_frequency(plate.bending, plate.mass_per_area)
    return radiation_factor(grid, critical, plate.size or USUAL_TOP) / (2.0 * math.pi * grid)


def strengths(excitation: Excitation, samples: Samples) -> Array:
    """Return factors (n, l) on the energies of the lines: where in its range each one's ripple is.

    Both motors are taken as of one make, so that they have it at the same place.
    """
    factors = []
    for source in MOTOR_SOURCES:
        ripple = ripple_of(source, excitation.motion.microsteps)
        spread = math.sqrt(ripple.high / ripple.low)
        factors.append(samples.factor("strength", spread, source) ** 2)
    return np.stack(factors, axis=-1)


def sound(energies: Array, ear: Array, weights: Array, strong: Array) -> Array:
    """Return the A-weighted sum (n, ...) of all lines.

    `energies` (n or 1, f, m) for 1 N·m at each motor, `ear` (f,), `weights` (f, m, ..., l),
    `strong` (n, l).
    """
    lines = summed(energies * ear[:, None], weights)
    # what does not scatter is given once
    lines = np.broadcast_to(lines, (len(strong), *lines.shape[1:]))
    return np.asarray(np.einsum("n...l,nl->n...", lines, strong))


def louder(before: Array, after: Array) -> Array:
    """Return by how many dB `after` is louder than `before`, energies of one shape."""
    return decibel(after, before)


def promised_change(levels: Array, ceiling: float) -> Band:
    """Return the band of a change (n,) [dB], no quieter than `ceiling` [dB] allows."""
    return sample_band(np.maximum(levels, -ceiling))


def holds_least(change: Array | float, least: float) -> Array:
    """Return where a change [dB], at its louder end, is a gain of `least` [dB] or more."""
    return np.asarray(-np.asarray(change) >= least - FULL)


def works_from(speeds: Array, worst: Array, least: float) -> float | None:
    """Return the speed [m/s] from which on feet are quieter by `least` [dB] at every speed.

    `speeds` (k,) rising, `worst` (k,) [dB] the louder end of the change at each; None where they
    are not at the fastest.
    """
    failed = np.flatnonzero(np.logical_not(holds_least(worst, least)))
    if not len(failed):
        return float(speeds[0])
    return None if failed[-1] == len(speeds) - 1 else float(speeds[failed[-1] + 1])
