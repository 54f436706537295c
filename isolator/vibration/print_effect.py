"""Whether prints get worse: how much of a frame's sway shows between tool and bed, and what lessens
it.

Tool and bed both ride on the frame: as it sways they move together, but for what the belts give. A
mass on a belt whose own resonance is f_b follows a frame that sways at f but for (f/f_b)² of the
sway, as long as f is well below f_b. [derived: one mass on a spring whose base moves]
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from isolator.physics.bodies import reversal
from isolator.vibration.cases import NOMINAL, Cases
from isolator.vibration.excitation import Excitation, belt_resonances
from isolator.vibration.results import PrintEffect, Sway
from isolator.vibration.reversal import quick_tool_sway
from isolator.vibration.system import build, quick_modes

LESS = 0.8
"""Acceleration and speed looked at, as shares of the brief's own."""
STIFFER = 1.25
"""Stiffness of feet looked at, over theirs."""


def print_effect(
    excitation: Excitation, cases: Cases, sway: Sway, speeds: tuple[float, ...]
) -> PrintEffect | None:
    """Return what of `sway` shows in a print, and what would lessen it; None without belts."""
    resonances = belt_resonances(excitation)
    if not resonances:
        return None
    belts = min(resonances)
    motion, nominal = excitation.motion, cases[NOMINAL]
    to_and_fro = 1.0 / float(reversal.period(sway.stroke, sway.speed, motion.acceleration))
    lowest = float(np.abs(nominal.modes.frequency).min())
    frequency = max(to_and_fro, lowest)
    there = _nominal(excitation, cases, speeds)

    def share(other: Excitation, own: tuple[float, ...], stiffness: float = 1.0) -> float:
        return sway.worst * _nominal(other, cases, own, stiffness) / there

    gentle = replace(motion, acceleration=LESS * motion.acceleration)
    return PrintEffect(
        frequency=frequency,
        belts=belts,
        shows=sway.worst * min((frequency / belts) ** 2, 1.0),
        less_acceleration=share(replace(excitation, motion=gentle), speeds),
        slower=share(excitation, tuple(LESS * speed for speed in speeds)),
        stiffer=share(excitation, speeds, STIFFER),
    )


def _nominal(
    excitation: Excitation, cases: Cases, speeds: tuple[float, ...], stiffness: float = 1.0
) -> float:
    """Return the worst sway [m] of the nominal case, its feet stiffer by a factor."""
    system = cases[NOMINAL].system
    feet = system.feet
    stiffer = replace(feet, linear=stiffness * feet.linear, angular=stiffness * feet.angular)
    changed = build(stiffer, system.case)
    return float(quick_tool_sway(excitation, changed, quick_modes(changed), speeds)[0])
