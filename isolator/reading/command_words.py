"""Quantities typed on the command line: read with their bounds, every fault at once."""

from __future__ import annotations

from collections.abc import Sequence

from isolator.reading.faults import Fault, InputError
from isolator.reading.quantities import QuantityError, parse_quantity
from isolator.reading.units import KINDS

BOUNDS: dict[str, tuple[float, float, str]] = {
    "m": (1e-5, 10.0, "from 0.01 mm to 10 m"),
    "m/s": (1e-6, 100.0, "from 0.001 mm/s to 100 m/s"),
    "Hz": (1e-3, 1e5, "from 0.001 Hz to 100 kHz"),
    "N": (0.0, 1e6, "from 0 N to 1000000 N"),
    "Pa": (1e3, 1e12, "from 1 kPa to 1000 GPa"),
}
"""What each kind of quantity may be, by the unit used inside; wide enough for any printer."""

_LIKE = {"m": "30 mm", "m/s": "60 mm/s", "Hz": "25 Hz", "N": "29 N", "Pa": "2 MPa"}


def fault(key: str, got: str, wanted: str, suggestion: str) -> Fault:
    """Return a fault of the command line."""
    return Fault(file="command line", key=key, got=got, wanted=wanted, suggestion=suggestion)


def quantities(keys: Sequence[str], texts: Sequence[str], unit: str) -> tuple[float, ...]:
    """Return what is typed, in `unit` (a key of `BOUNDS`); raises InputError with every fault.

    `keys` name the options or arguments, one a text.
    """
    low, high, between = BOUNDS[unit]
    faults: list[Fault] = []
    values: list[float] = []
    for key, text in zip(keys, texts, strict=True):
        try:
            value = parse_quantity(text, unit)
        except QuantityError as error:
            faults.append(fault(key, f'"{text}"', error.wanted, error.suggestion))
            continue
        if not low <= value <= high:
            like = f'write it like "{_LIKE[unit]}"'
            faults.append(fault(key, f'"{text}"', f"{KINDS[unit]} {between}", like))
        values.append(value)
    if faults:
        raise InputError(faults)
    return tuple(values)
