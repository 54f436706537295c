"""What reversals do to one stand over all its cases: sway, tipping, sliding."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from isolator.brief import Brief
from isolator.physics.bodies import reversal
from isolator.vibration.cases import NOMINAL, Case
from isolator.vibration.printer import Machine
from isolator.vibration.results import Stability, Sway
from isolator.vibration.reversal import (
    MOVES,
    force_factor,
    slip_margin,
    step_sway,
    sway,
    tip_margin,
)
from isolator.vibration.system import gravity_factor

Cases = dict[tuple[str, str], Case]
Swayed = dict[tuple[str, str], reversal.WorstSway]


def swayed(brief: Brief, cases: Cases, speeds: Sequence[float]) -> Swayed:
    """Return the worst zigzag of every case: how far it moves the tool and each foot."""
    return {
        key: sway(brief, case.system, case.modes, speeds, with_feet=True)
        for key, case in cases.items()
    }


def worst_sway(brief: Brief, cases: Cases, found: Swayed) -> Sway:
    """Return the worst sway over all cases, with the move that makes it."""
    worst = max(found.values(), key=lambda each: float(each.peak[0, :, 0].max()))
    axis = int(np.argmax(worst.peak[0, :, 0]))
    return Sway(
        worst=float(worst.peak[0, axis, 0]),
        at_feet=float(worst.peak[0, axis, 1:].max()),
        axis=MOVES[axis],
        stroke=float(worst.stroke[0, axis]),
        speed=float(worst.speed[0, axis]),
        limit=brief.limits.sway,
        step=max(step_sway(brief, case.system, case.modes) for case in cases.values()),
    )


def stability(
    brief: Brief, machine: Machine, cases: Cases, height: float, found: Swayed
) -> Stability:
    """Return the margins; `height` [m] is that of the printer's underside over the desk.

    Tip and slip margins are static; `force_factor` says how much more the feet feel when a zigzag
    meets a sway mode, and the checks divide by it.
    """
    places = cases[NOMINAL].system.feet.centres[0, :, :2]
    factors = [
        force_factor(brief, case.system, case.modes, found[key]) for key, case in cases.items()
    ]
    return Stability(
        tip_margin=min(tip_margin(brief, case, places, height) for case in machine.cases),
        slip_margin=min(slip_margin(brief, case) for case in machine.cases),
        force_factor=max(factors),
        gravity_factor=min(float(gravity_factor(case.system)[0]) for case in cases.values()),
    )
