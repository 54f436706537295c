"""What the pictures draw: transmissibility over frequency, losses over speed, speeds to avoid."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Motion
from isolator.physics.arrays import Array
from isolator.physics.drive.belts import held_belt_resonance
from isolator.vibration.cases import Case
from isolator.vibration.excitation import MOTOR_SOURCES, Excitation, motor_lines
from isolator.vibration.frame_mode import first_frame_mode
from isolator.vibration.isolation import passed
from isolator.vibration.lines import line_weights, mean_loss
from isolator.vibration.pushed import axis_push
from isolator.vibration.results import AvoidRange, Curve, SpeedMap
from isolator.vibration.sampled import Sampled, push_sources
from isolator.vibration.spectrum import Spectrum
from isolator.vibration.spreads import ends
from isolator.vibration.verdict import judged, raised

FREQUENCIES = np.geomspace(1.0, 400.0, 320)
"""[Hz]; above some 100 Hz neither frame nor pad is what the model says."""
SLOWEST, FASTEST, STEPS = 5e-3, 0.3, 296
"""Speeds of the map [m/s]; the grid goes on to the brief's own fastest speed."""


def curves(excitation: Excitation, stand: Sampled, before: Sampled | None) -> tuple[Curve, ...]:
    """Return transmissibility over frequency for a push along x and y where the tool moves, and
    straight down through the centre of mass."""
    found = transmissibility(excitation, stand, FREQUENCIES)
    now = None
    if before is not None:
        now = transmissibility(excitation, before.take(np.array([0])), FREQUENCIES)[0]
    low, high = ends(found)
    return tuple(
        Curve(
            axis=axis,
            frequency=FREQUENCIES,
            low=low[:, column],
            nominal=found[0, :, column],
            high=high[:, column],
            now=None if now is None else now[:, column],
        )
        for column, axis in enumerate("xyz")
    )


def transmissibility(excitation: Excitation, stand: Sampled, frequency: Array) -> Array:
    """Return the transmissibility (n, f, 3) along x, y and z at `frequency` (f,) [Hz]."""
    pushes = [axis_push(excitation, stand.system, axis) for axis in "xyz"]
    rows = [passed(*each) for each in push_sources(stand, frequency, pushes)]
    return np.concatenate([np.sqrt(each.feet / each.static) for each in rows])


def speed_grid(motion: Motion) -> Array:
    """Return the speeds of the map [m/s]."""
    return np.linspace(SLOWEST, max(FASTEST, 1.2 * max(motion.speeds)), STEPS)


def speed_losses(excitation: Excitation, spectrum: Spectrum) -> dict[str, Array]:
    """Return each line's loss (c, n) [dB] over the speeds of the map, mean over directions."""
    motion = excitation.motion

    def losses(source: str) -> Array:
        weights = [
            line_weights(excitation, spectrum.grid, source, speed, motion.infill_angles)
            for speed in speed_grid(motion)
        ]
        return mean_loss(spectrum.rigid, spectrum.feet, np.stack(weights, axis=-1))

    return {source: losses(source) for source in MOTOR_SOURCES if excitation.belts}


def speed_map(motion: Motion, losses: dict[str, Array]) -> SpeedMap:
    """Return the nominal loss of every line over print speed, of `losses` as `speed_losses`."""
    grid, lines = speed_grid(motion), motor_lines(motion, 1.0)
    return SpeedMap(
        speed=grid,
        sources=tuple(losses),
        frequency=np.array([lines[source] * grid for source in losses]).reshape(-1, len(grid)),
        insertion_loss=np.array([each[0] for each in losses.values()]).reshape(-1, len(grid)),
    )


def avoid(
    excitation: Excitation, nominal: Case, losses: dict[str, Array]
) -> tuple[AvoidRange, ...]:
    """Return the speeds at which a judged line is amplified, of `losses` as `speed_losses`.

    By the same rule as the verdicts. Neighbouring speeds of one line make one range, named after
    the resonance nearest to the line in its middle.
    """
    grid, ranges = speed_grid(excitation.motion), []
    lines, resonances = motor_lines(excitation.motion, 1.0), _resonances(excitation, nominal)
    for source, level in losses.items():
        if judged(source):
            hit = raised(level[0], ends(level)[0])
            ranges += _ranges(grid, hit, source, lines[source] * grid, resonances)
    return tuple(sorted(ranges, key=lambda each: (each.low, each.high)))


def _resonances(excitation: Excitation, nominal: Case) -> list[tuple[str, float]]:
    """Return what a line may meet: modes on the feet, the frame's first, belts with their loads."""
    found = list(zip(nominal.names, np.abs(nominal.modes.frequency[0]).tolist(), strict=True))
    frame = first_frame_mode(nominal.system.case)
    if math.isfinite(frame):
        found.append(("the frame's own mode", frame))
    for along, mass in enumerate(excitation.carriage.masses):
        held = sum(
            np.real(drive.belt_stiffness) * drive.pulls[along] ** 2 for drive in excitation.drives
        )
        if held > 0.0:
            found.append(("the belts' resonance", float(held_belt_resonance(held, mass))))
    return found


def _ranges(
    grid: Array,
    hit: NDArray[np.bool_],
    source: str,
    frequency: Array,
    resonances: Sequence[tuple[str, float]],
) -> list[AvoidRange]:
    edges = np.flatnonzero(np.diff(np.concatenate([[False], hit, [False]]).astype(int)))
    found = []
    for start, stop in zip(edges[::2], edges[1::2], strict=True):
        middle = frequency[(start + stop - 1) // 2]
        name, _ = min(resonances, key=lambda each: abs(math.log(each[1] / middle)))
        found.append(
            AvoidRange(
                low=float(grid[start]),
                high=float(grid[stop - 1]),
                source=source,
                mode=name,
            )
        )
    return found
