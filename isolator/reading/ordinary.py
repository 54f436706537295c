"""Which quantities a file may hold, by unit and sign."""

from __future__ import annotations

import math
from typing import Literal

from isolator.reading.units import KINDS

Sign = Literal["positive", "not negative", "any"]

ORDINARY = {
    "m": (0.0, 1e2, "no more than 100 m"),
    "m/s": (1e-6, 1e2, "0.001 mm/s to 100 m/s"),
    "N/m": (0.0, 1e9, "no more than 1000000 N/mm"),
    "N*m": (1e-6, 1e6, "0.000001 N*m to 1000000 N*m"),
    "kg/m": (1e-5, 1e2, "0.01 g/m to 100 kg/m"),
    "m^2": (1e-6, 1e2, "0.01 cm^2 to 100 m^2"),
    "rad": (0.0, math.tau * (1 + 1e-12), "no more than 360 deg"),
    "A": (1e-3, 1e3, "0.001 A to 1000 A"),
    "V": (1e-1, 1e3, "0.1 V to 1000 V"),
    "ohm": (1e-4, 1e4, "0.0001 ohm to 10000 ohm"),
    "H": (1e-7, 1e1, "0.0001 mH to 10 H"),
    "kg": (1e-6, 1e5, "0.001 g to 100000 kg"),
    "kg*m": (0.0, 1e2, "no more than 100 kg*m"),
    "kg*m^2": (1e-12, 1e6, "0.00001 g*cm^2 to 1000000 kg*m^2"),
    "kg/m^3": (1e-1, 1e5, "0.1 kg/m^3 to 100000 kg/m^3"),
    "m/s^2": (1e-3, 1e5, "1 mm/s^2 to 100000 m/s^2"),
    "N": (0.0, 1e6, "no more than 1000000 N"),
    "N*m/rad": (0.0, 1e9, "no more than 1000000000 N*m/rad"),
    "Pa": (1.0, 1e13, "1 Pa to 10000 GPa"),
    "Hz": (1e-6, 1e6, "0.000001 Hz to 1000000 Hz"),
}
"""How large a value above or below zero may be, by unit: wide enough for any printer, and near
enough together that a stiff belt does not drown a weak motor in rounding (singular matrices)."""


def wrong(value: float, unit: str, sign: Sign) -> tuple[str, str] | None:
    """Return what is wanted instead of `value` and what to do, None where it may be."""
    kind = KINDS[unit]
    least, most, told = ORDINARY.get(unit, (0.0, math.inf, ""))
    if value != 0.0 and not least <= abs(value) <= most:
        return f"{kind} of {told}", "check the value and its unit"
    if sign == "any" or value > 0.0 or (value == 0.0 and sign == "not negative"):
        return None
    wanted = f"{kind} above zero" if sign == "positive" else f"{kind} of zero or more"
    return wanted, "check the value and its sign"
