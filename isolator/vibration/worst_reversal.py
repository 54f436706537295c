"""What reversals do to one stand over all its cases: sway, tipping, sliding."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from isolator.brief import Motion
from isolator.physics.bodies import reversal
from isolator.vibration.cases import NOMINAL, Cases, Key
from isolator.vibration.excitation import Excitation
from isolator.vibration.printer import RigidPrinter
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

Swayed = dict[Key, reversal.WorstSway]


def swayed(excitation: Excitation, cases: Cases, speeds: Sequence[float]) -> Swayed:
    """Return the worst zigzag of every case: how far it moves the tool and each foot."""
    return {
        key: sway(excitation, case.system, case.modes, speeds, with_feet=True)
        for key, case in cases.items()
    }


def worst_sway(motion: Motion, cases: Cases, found: Swayed, limit: float) -> Sway:
    """Return the worst sway over all cases, with the move that makes it; `limit` [m] is told."""
    worst = max(found.values(), key=lambda each: float(each.peak[0, :, 0].max()))
    axis = int(np.argmax(worst.peak[0, :, 0]))
    return Sway(
        worst=float(worst.peak[0, axis, 0]),
        at_feet=float(worst.peak[0, axis, 1:].max()),
        axis=MOVES[axis],
        stroke=float(worst.stroke[0, axis]),
        speed=float(worst.speed[0, axis]),
        limit=limit,
        step=max(step_sway(motion, case.system, case.modes) for case in cases.values()),
    )


def stability(
    motion: Motion,
    printer: RigidPrinter,
    cases: Cases,
    found: Swayed,
    *,
    height: float,
    friction: float,
) -> Stability:
    """Return the margins; `height` [m] is that of the printer's underside over the desk, `friction`
    the coefficient between foot and desk.

    Tip and slip margins are static; `force_factor` says how much more the feet feel when a zigzag
    meets a sway mode, and the checks divide by it.
    """
    places = cases[NOMINAL].system.feet.centres[0, :, :2]
    factors = [
        force_factor(motion, case.system, case.modes, found[key]) for key, case in cases.items()
    ]
    return Stability(
        tip_margin=min(tip_margin(motion, case, places, height) for case in printer.cases),
        slip_margin=min(slip_margin(motion, case, friction) for case in printer.cases),
        force_factor=max(factors),
        gravity_factor=min(float(gravity_factor(case.system)[0]) for case in cases.values()),
    )
