"""What is usual of a stepper motor of one frame size, and its winding as the brief tells it."""

from __future__ import annotations

import math
from typing import NamedTuple

from isolator.reading.table import Section
from isolator.reading.units import format_quantity

USUAL_HEAT, MOST_HEAT = 30.0, 200.0
"""Copper loss of a motor that holds its current [W]; beyond the second a key was mistyped."""


class MotorSize(NamedTuple):
    """What is usual of one frame size, SI (common practice; numbers from memory)."""

    mass: float
    length: float
    rotor_inertia: float
    holding_torque: float
    shaft_length: float
    shaft_diameter: float
    screw_depth: float  # 0: a flange with through holes
    rated_current: float
    resistance: float
    inductance: float


MOTOR_SIZES = {
    14: MotorSize(0.18, 0.028, 23e-7, 0.20, 0.020, 0.005, 0.0045, 1.0, 2.7, 4.0e-3),
    17: MotorSize(0.28, 0.040, 54e-7, 0.40, 0.024, 0.005, 0.0045, 1.5, 2.0, 3.0e-3),
    23: MotorSize(0.45, 0.045, 110e-7, 0.55, 0.021, 0.00635, 0.0, 2.0, 1.4, 3.0e-3),
}


class Winding(NamedTuple):
    """One winding and its current, SI."""

    rated: float
    current: float
    resistance: float
    inductance: float


def read_winding(section: Section, size: MotorSize, usual: str) -> Winding:
    """Return a motor's winding; `usual` is the reason told for defaults by its size."""
    rated = section.quantity("rated_current", "A", size.rated_current, usual, usual=(0.3, 4.0))
    winding = Winding(
        rated=rated,
        current=section.quantity(
            "current", "A", 0.85 * rated, "85 % of rated_current; estimated", usual=(0.1, 4.0)
        ),
        resistance=section.quantity(
            "winding_resistance", "ohm", size.resistance, usual, usual=(0.3, 40.0)
        ),
        inductance=section.quantity(
            "winding_inductance", "H", size.inductance, usual, usual=(2e-4, 0.1)
        ),
    )
    _judge_heat(section, winding)
    if winding.current > math.sqrt(2.0) * rated:  # a sine of that peak heats like rated current
        section.notes.warn(
            section.path("current"),
            f"{format_quantity(winding.current, 'A')} is more than 1.41 times rated_current, "
            f"{format_quantity(rated, 'A')}; check it",
        )
    return winding


def _judge_heat(section: Section, winding: Winding) -> None:
    """Doubt or refuse a copper loss that no motor stands: R·I² of both windings together."""
    key, heat = section.path("current"), winding.resistance * winding.current**2
    if heat > MOST_HEAT:
        section.notes.fault(
            key,
            f"{heat:.6g} W of heat in its windings",
            f"no more than {MOST_HEAT:g} W",
            "check current and winding_resistance",
        )
    elif heat > USUAL_HEAT:
        section.notes.warn(
            key,
            f"{heat:.3g} W of heat in its windings is more than the usual {USUAL_HEAT:g} W; "
            "check current and winding_resistance",
        )
