"""What a stand passes on over frequency, under a torque ripple of 1 N·m at each belt motor."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from isolator.physics.arrays import Array
from isolator.vibration import directions
from isolator.vibration.cases import NOMINAL, Cases, framed
from isolator.vibration.desk import StoodOn, under
from isolator.vibration.drives import BELT_LOSS
from isolator.vibration.excitation import Excitation, motor_lines
from isolator.vibration.isolation import on_desk, passed
from isolator.vibration.source import motor_source

COARSE = 0.05
"""Step of the frequencies beyond the full-step line, where nothing resonates."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Spectrum:
    """Energies over frequency, over all cases; the nominal case is row 0."""

    grid: Array  # (f,) [Hz]
    feet: Array  # (c, f, m) squared norm of all foot forces [N²] for each 1 N·m at motor m
    rigid: Array  # (c, f, m) on rigid feet
    static: Array  # (c, f, m) blocked force alone, grown slowly
    desk: Array  # (c, f, m) what the desk feels on these feet
    desk_rigid: Array  # (c, f, m) and on rigid ones
    above: tuple[tuple[str, float], ...]  # (c,) mass case, and factor on the frame's frequencies
    loss: float  # smallest loss factor of what resonates
    lowest: float  # lowest mode, nominal [Hz]


def grid_for(excitation: Excitation, speeds: Sequence[float], loss: float) -> Array:
    """Return the frequencies [Hz] that all lines at `speeds` [m/s] run through."""
    motion = excitation.motion
    lines = motor_lines(motion, max(speeds) * directions.top_factor(motion.layout))
    fine = directions.frequency_grid(max(lines["full step"], lines["belt tooth"]), loss)
    top = 1.001 * max(lines.values())
    if top <= fine[-1]:
        return fine
    count = 2 + math.ceil(math.log(top / fine[-1]) / COARSE)
    return np.concatenate([fine, np.geomspace(fine[-1], top, count)[1:]])


def least_loss(cases: Cases) -> float:
    """Return the smallest loss factor of feet, frame and belts."""
    feet = min(float(case.system.feet.loss.min()) for case in cases.values())
    bending = cases[NOMINAL].system.case.bending
    return min(feet, BELT_LOSS, math.inf if bending is None else float(bending.loss.min()))


def spectrum(excitation: Excitation, cases: Cases, desk: StoodOn, grid: Array) -> Spectrum:
    """Return what all cases of a stand pass on at the frequencies `grid` (f,) [Hz]."""
    rows = framed(cases)
    above = tuple((mass, frame) for (_, mass), frame in rows)
    bodies = {mass: cases[end, mass].system.case for (end, mass), _ in rows}
    sources = {
        (mass, frame): motor_source(excitation, bodies[mass], grid, frame)
        for mass, frame in dict.fromkeys(above)
    }
    found, felt, first = [], [], cases[NOMINAL]
    below = under(desk, first.places, first.widths, first.height, grid)
    for (key, _), state in zip(rows, above, strict=True):
        system = cases[key].system
        found.append(passed(system, sources[state]))
        felt.append(on_desk(system, sources[state], below))
    nominal = cases[NOMINAL]
    return Spectrum(
        grid=grid,
        feet=np.concatenate([each.feet for each in found]),
        rigid=np.concatenate([each.rigid for each in found]),
        static=np.concatenate([each.static for each in found]),
        desk=np.concatenate([each.feet for each in felt]),
        desk_rigid=np.concatenate([each.rigid for each in felt]),
        above=above,
        loss=least_loss(cases),
        lowest=max(float(nominal.modes.frequency[0, 0]), directions.LOWEST),
    )
