"""What else would help beside feet and mounts: one thing of the drive changed at a time.

Each is told as how much louder it is heard than now on these feet, through the feet and through
the motors' brackets: the torque of each line bends the panel under a motor. How a ripple goes with
current and microsteps is estimated.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from isolator.brief import Motion
from isolator.physics.arrays import Array
from isolator.vibration.excitation import MOTOR_SOURCES, Excitation
from isolator.vibration.heard import louder, moment_ear, sound
from isolator.vibration.lines import tone_weights
from isolator.vibration.results import Heard, Help
from isolator.vibration.sampled import sample_band

FINE = 256
"""Microsteps of a driver that interpolates."""
LESS_CURRENT = 0.7
OF_CURRENT = ("electrical", "twice electrical", "microstep")
"""Lines whose ripple goes with the current; the others are the motor's and the belt's own."""
FINE_STEPS = 400
"""Steps a turn of a 0.9° motor."""
NEAR, FAR = 0.8, 1.25
"""A slower and a faster speed, as shares of the brief's own."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ways:
    """What leaves a printer for 1 N·m at each motor, in c samples, on both ways out."""

    grid: Array  # (f,) [Hz]
    feet: Array  # (c, f, m)
    ear: Array  # (f,) what a unit of it counts
    strong: Array  # (c, l)


def helps(excitation: Excitation, ways: Ways, speeds: Sequence[float]) -> tuple[Help, ...]:
    """Return what would help at `speeds` [m/s], mean over them, the best first."""
    found = [
        Help(name=name, heard=_change(excitation, ways, speeds, other, own, current))
        for name, other, own, current in _changed(excitation, speeds)
    ]
    return tuple(sorted(found, key=lambda each: each.heard.desk.nominal + each.heard.frame.nominal))


def _changed(
    excitation: Excitation, speeds: Sequence[float]
) -> Iterator[tuple[str, Excitation, Sequence[float], float]]:
    """Yield what may be changed: its name, the changed drive, its speeds, its share of current."""
    motion = excitation.motion
    if motion.microsteps < FINE:
        told = f"{FINE} microsteps, or a driver that interpolates, instead of {motion.microsteps}"
        yield told, _with(excitation, replace(motion, microsteps=FINE)), speeds, 1.0
    yield f"{100 * LESS_CURRENT:.0f} % of the current", excitation, speeds, LESS_CURRENT
    if motion.steps_per_turn < FINE_STEPS:
        told = "0.9° motors instead of 1.8° ones"
        yield told, _with(excitation, replace(motion, steps_per_turn=FINE_STEPS)), speeds, 1.0
    for share in (NEAR, FAR):
        told = f"{100 * share:.0f} % of the speed"
        yield told, excitation, [share * speed for speed in speeds], 1.0


def _with(excitation: Excitation, motion: Motion) -> Excitation:
    return replace(excitation, motion=motion)


def _change(
    excitation: Excitation,
    ways: Ways,
    speeds: Sequence[float],
    other: Excitation,
    own: Sequence[float],
    current: float,
) -> Heard:
    """Return how much louder the drive `other` at speeds `own` is than `excitation` at `speeds`."""
    share = np.array([current**2 if name in OF_CURRENT else 1.0 for name in MOTOR_SOURCES])
    before = tone_weights(excitation, ways.grid, speeds)
    after = tone_weights(other, ways.grid, own)
    # what a motor's own torque does to the panel under it does not depend on the feet
    torque = np.ones((1, len(ways.grid), len(excitation.belts)))
    levels = []
    for energies, ear in ((ways.feet, ways.ear), (torque, moment_ear(ways.grid))):
        each = louder(
            sound(energies, ear, before, ways.strong),
            sound(energies, ear, after, share * ways.strong),
        )
        levels.append(each.mean(axis=1))
    desk, frame = (sample_band(level) for level in levels)
    return Heard(desk=desk, frame=frame)
