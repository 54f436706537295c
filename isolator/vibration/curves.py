"""What the pictures draw: transmissibility over frequency, losses over speed."""

from __future__ import annotations

import math

import numpy as np

from isolator.brief import Motion
from isolator.physics.arrays import Array
from isolator.vibration.excitation import MOTOR_SOURCES, Excitation, motor_lines
from isolator.vibration.isolation import passed
from isolator.vibration.lines import mean_loss, tone_weights
from isolator.vibration.pushed import axis_push
from isolator.vibration.results import Curve, SpeedMap
from isolator.vibration.sampled import Sampled, over_pushes
from isolator.vibration.spectrum import THIN, Spectrum, between, every
from isolator.vibration.spreads import SHARP, ends
from isolator.vibration.verdict import LISTENED

LOWEST, HIGHEST, A_DECADE = 1.0, 400.0, 123
"""Ends of the curves [Hz] and points a decade; above some 100 Hz neither frame nor pad is what the
model says, so they go on only as far as the speeds asked for have tones."""
SLOWEST, FASTEST, STEPS = 5e-3, 0.3, 296
"""Speeds of the map [m/s]; the grid goes on to the brief's own fastest speed."""


def curves(excitation: Excitation, stand: Sampled, before: Sampled | None) -> tuple[Curve, ...]:
    """Return transmissibility over frequency for a push along x and y where the tool moves, and
    straight down through the centre of mass."""
    grid = frequencies(excitation.motion)
    found = transmissibility(excitation, stand, grid)
    now = None
    if before is not None:
        now = transmissibility(excitation, before.take(np.array([0])), grid)[0]
    low, high = ends(found, SHARP)
    return tuple(
        Curve(
            axis=axis,
            frequency=grid,
            low=low[:, column],
            nominal=found[0, :, column],
            high=high[:, column],
            now=None if now is None else now[:, column],
        )
        for column, axis in enumerate("xyz")
    )


def transmissibility(excitation: Excitation, stand: Sampled, frequency: Array) -> Array:
    """Return the transmissibility (n, f, 3) along x, y and z at `frequency` (f,) [Hz].

    Samples beside the nominal one are worked out at every third frequency.
    """
    pushes = [axis_push(excitation, stand.system, axis) for axis in "xyz"]

    def energies(some: Sampled, grid: Array) -> Array:
        rows = over_pushes(some, grid, pushes, passed)
        return np.asarray(np.concatenate([each.feet / each.static for each in rows]))

    nominal = energies(stand.take(np.array([0])), frequency)
    if len(stand.above) == 1:
        return np.asarray(np.sqrt(nominal))
    few = every(THIN, frequency)
    thin = energies(stand.take(np.arange(1, len(stand.above))), frequency[few])
    every_one = np.concatenate([nominal, between(frequency, frequency[few], thin)])
    return np.asarray(np.sqrt(every_one))


def frequencies(motion: Motion) -> Array:
    """Return the frequencies of the curves [Hz]: up to the fastest speed's drone."""
    tones = motor_lines(motion, max(motion.speeds))
    highest = max(HIGHEST, 1.1 * max(tones[source] for source in LISTENED))
    count = round(A_DECADE * math.log10(highest / LOWEST))
    return np.asarray(np.geomspace(LOWEST, highest, count))


def speed_grid(motion: Motion) -> Array:
    """Return the speeds of the map [m/s]."""
    return np.linspace(SLOWEST, max(FASTEST, 1.2 * max(motion.speeds)), STEPS)


def speed_map(excitation: Excitation, spectrum: Spectrum) -> SpeedMap:
    """Return the nominal loss of every line over print speed, mean over directions."""
    motion = excitation.motion
    grid, lines = speed_grid(motion), motor_lines(motion, 1.0)

    sources = MOTOR_SOURCES if excitation.belts else ()
    weights = tone_weights(excitation, spectrum.grid, grid)
    (losses,) = mean_loss(spectrum.rigid[:1], spectrum.feet[:1], weights)  # (k, l)
    return SpeedMap(
        speed=grid,
        sources=sources,
        frequency=np.array([lines[source] * grid for source in sources]).reshape(-1, len(grid)),
        insertion_loss=losses.T[: len(sources)],
    )
