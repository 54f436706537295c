"""What is usual of a stepper motor of one frame size, and what its winding stands."""

from __future__ import annotations

import math
from typing import NamedTuple

from isolator.reading.table import Table
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


def judge_winding(table: Table, rated: float, current: float, resistance: float) -> None:
    """Doubt or refuse a current [A] that no motor stands, for itself or for its heat."""
    _judge_heat(table, resistance * current**2)
    if current > math.sqrt(2.0) * rated:  # a sine of that peak heats like rated current
        table.warn(
            "current",
            f"{format_quantity(current, 'A')} is more than 1.41 times rated_current, "
            f"{format_quantity(rated, 'A')}; check it",
        )


def _judge_heat(table: Table, heat: float) -> None:
    """Doubt or refuse a copper loss [W] that no motor stands: R·I² of both windings together."""
    if heat > MOST_HEAT:
        table.fault(
            "current",
            f"{heat:.6g} W of heat in its windings",
            f"no more than {MOST_HEAT:g} W",
            "check current and winding_resistance",
        )
    elif heat > USUAL_HEAT:
        table.warn(
            "current",
            f"{heat:.3g} W of heat in its windings is more than the usual {USUAL_HEAT:g} W; "
            "check current and winding_resistance",
        )
