"""What the pictures draw: transmissibility over frequency, losses over speed, speeds to avoid."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from isolator.brief import Motion
from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies import response
from isolator.vibration.cases import NOMINAL, Case, Cases
from isolator.vibration.excitation import (
    AXES,
    DIRECTIONS,
    Excitation,
    Tone,
    motor_tones,
    move_points,
    single_push,
)
from isolator.vibration.isolation import losses, pack
from isolator.vibration.results import AvoidRange, Curve, SpeedMap
from isolator.vibration.system import System
from isolator.vibration.verdict import judged, raised

FREQUENCIES = np.geomspace(1.0, 400.0, 320)
"""[Hz]; above some 100 Hz neither frame nor pad is what the model says."""
SLOWEST, FASTEST, STEPS = 5e-3, 0.3, 296
"""Speeds of the map [m/s]; the grid goes on to the brief's own fastest speed."""


def summed_force(system: System, tones: Sequence[Tone]) -> Complex:
    """Return the sum (t, 3) [N] of all foot forces of a batch of one, one push a tone."""
    frequency, loads = pack(tones, system.case.com)
    omega = 2.0 * math.pi * frequency
    feet = system.feet
    motion = response.frame_response(
        system.stiffness(frequency)[0], system.mass, omega, loads[:, 0]
    )
    springs = feet.linear[0] * (1.0 + 1j * feet.loss[0, :, None])
    factor = system.factor(frequency)[0][:, None, None]
    return np.asarray(response.foot_forces(motion, system.arms[0], factor * springs).sum(axis=1))


def curves(motion: Motion, cases: Cases, before: Cases | None) -> tuple[Curve, ...]:
    """Return transmissibility over frequency for a push along x and y where the tool moves, and
    straight down through the centre of mass."""
    told = []
    for axis in ("x", "y", "z"):
        found = {key: _curve(motion, case, axis) for key, case in cases.items()}
        stack = np.array(list(found.values()))
        told.append(
            Curve(
                axis=axis,
                frequency=FREQUENCIES,
                low=stack.min(axis=0),
                nominal=found[NOMINAL],
                high=stack.max(axis=0),
                now=None if before is None else _curve(motion, before[NOMINAL], axis),
            )
        )
    return tuple(told)


def _curve(motion: Motion, case: Case, axis: str) -> Array:
    places = dict(zip(("x", "y"), move_points(motion), strict=True))
    point = places.get(axis, case.system.case.com)
    push = single_push(AXES[axis], np.zeros(3), point)
    tone = Tone(source=axis, frequency=FREQUENCIES, direction_deg=None, pushes=(push,))
    found: Array = losses(case.system, [tone], 0.0).transmissibility[0]
    return found


def speed_grid(motion: Motion) -> Array:
    """Return the speeds of the map [m/s]."""
    return np.linspace(SLOWEST, max(FASTEST, 1.2 * max(motion.speeds)), STEPS)


def speed_map(excitation: Excitation, case: Case) -> SpeedMap:
    """Return the loss of every line over print speed, moves along x, nominal."""
    grid = speed_grid(excitation.motion)
    tones = motor_tones(excitation, grid, 0.0)
    loss = losses(case.system, tones, 0.0).insertion_loss[0].reshape(len(tones), -1)
    return SpeedMap(
        speed=grid,
        sources=tuple(tone.source for tone in tones),
        frequency=np.array([tone.frequency for tone in tones]).reshape(len(tones), -1),
        insertion_loss=loss,
    )


def avoid(excitation: Excitation, cases: Cases) -> tuple[AvoidRange, ...]:
    """Return the speeds at which a judged line is amplified, in any direction told.

    By the same rule as the verdicts. Neighbouring speeds of one line make one range, named after
    the mode nearest to the line in its middle.
    """
    hits: dict[str, NDArray[np.bool_]] = {}
    met: dict[str, Array] = {}
    grid = speed_grid(excitation.motion)
    for direction in DIRECTIONS:
        tones = [tone for tone in motor_tones(excitation, grid, direction) if judged(tone.source)]
        found = {
            key: losses(case.system, tones, 0.0).insertion_loss[0].reshape(len(tones), -1)
            for key, case in cases.items()
        }
        low = np.min(list(found.values()), axis=0)
        for row, tone in enumerate(tones):
            hit = raised(found[NOMINAL][row], low[row])
            before = hits.get(tone.source, np.zeros_like(hit))
            kept = met.get(tone.source, tone.frequency)
            met[tone.source] = np.where(hit & ~before, tone.frequency, kept)
            hits[tone.source] = before | hit
    ranges = []
    for source, hit in hits.items():
        ranges += _ranges(grid, hit, source, met[source], cases[NOMINAL])
    return tuple(sorted(ranges, key=lambda each: (each.low, each.high)))


def _ranges(
    grid: Array, hit: NDArray[np.bool_], source: str, frequency: Array, nominal: Case
) -> list[AvoidRange]:
    edges = np.flatnonzero(np.diff(np.concatenate([[False], hit, [False]]).astype(int)))
    found = []
    for start, stop in zip(edges[::2], edges[1::2], strict=True):
        middle = frequency[(start + stop - 1) // 2]
        nearest = int(np.argmin(np.abs(np.log(np.abs(nominal.modes.frequency[0]) / middle))))
        found.append(
            AvoidRange(
                low=float(grid[start]),
                high=float(grid[stop - 1]),
                source=source,
                mode=nominal.names[nearest],
            )
        )
    return found
