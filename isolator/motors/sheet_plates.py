"""Whether plates of sheet metal are stiff and strong enough between their screws and the rubber."""

from __future__ import annotations

import math

from isolator.brief import Motor
from isolator.design.damper import PLATE_CORNER
from isolator.design.faceplates import FACEPLATES
from isolator.design.plate_kinds import PLATE_KINDS, PRINTED
from isolator.design.plate_room import boss_hole, least_frame_plate, outline_side
from isolator.motors.mount import Damper

SAFETY = 2.0
"""Yield over stress, as the belts' pull swings with every move; convention, no source."""

Row = tuple[str, float, float, str, bool]


def plate_stress(moment: float, frame_size: int, thick: float) -> float:
    """Return the greatest bending stress [Pa] in a plate that the belts' `moment` [N·m] tilts.

    A plate is held on a diagonal by two screws, and what it lies on backs it only where it is
    pressed on. Half the moment is pulled off the far half, as by a strip as wide as the diagonal
    less the boss's and the screws' holes: more than the plate has to bear. [derived]

    >>> round(plate_stress(0.8, 17, 1.5e-3) / 1e6, 1)
    39.1
    """
    face, side = FACEPLATES[frame_size], outline_side(frame_size)
    diagonal = side * math.sqrt(2.0) - 2.0 * PLATE_CORNER * (math.sqrt(2.0) - 1.0)
    wide = diagonal - boss_hole(frame_size, 0.0) - 2.0 * face.screw_clearance
    return moment / 2.0 * 6.0 / (wide * thick**2)


def stiffness_ratio(made: str, thick: float, frame_size: int) -> float:
    """Return how stiff a plate of sheet bends, over the thickest printed one in its place.

    >>> round(stiffness_ratio("steel", 1.5e-3, 17), 2)
    6.46
    """
    sheet, print_ = PLATE_KINDS[made], PLATE_KINDS[PRINTED]
    return (sheet.young * thick**3) / (print_.young * least_frame_plate(frame_size) ** 3)


def sheet_rows(motor: Motor, damper: Damper) -> tuple[Row, ...]:
    """Return (what, value, bound, unit, at least) of plates of sheet; none of printed ones.

    How stiff a bought one's plates are is in its data sheet's figures.
    """
    plates = damper.plates
    if not plates.kind.sheet:
        return ()
    moment = float(damper.loaded.tilt[0]) * float(damper.offered.tilt[0])
    stress = plate_stress(moment, motor.frame_size, plates.motor)
    most = plates.kind.strength / SAFETY
    ratio = stiffness_ratio(plates.made, plates.motor, motor.frame_size)
    bending = ("bending of the sheet plates", stress / 1e6, most / 1e6, "MPa", False)
    if damper.offered.bought is not None:
        return (bending,)
    return (
        bending,
        ("stiffness of the sheet plates over printed ones", ratio, 1.0, "", True),
    )
