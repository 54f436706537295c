"""Quantities typed on the command line: read with their bounds, every fault at once."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence

from isolator.reading.faults import InputError
from isolator.reading.notes import Notes
from isolator.reading.quantities import QuantityError, parse_quantity
from isolator.reading.units import KINDS
from isolator.reading.word_keys import choice

COMMAND_LINE = "command line"
"""What faults call it."""

BOUNDS: dict[str, tuple[float, float, str]] = {
    "m": (1e-5, 10.0, "from 0.01 mm to 10 m"),
    "m/s": (1e-6, 100.0, "from 0.001 mm/s to 100 m/s"),
    "Hz": (1e-3, 1e5, "from 0.001 Hz to 100 kHz"),
    "N": (0.0, 1e6, "from 0 N to 1000000 N"),
    "Pa": (1e3, 1e12, "from 1 kPa to 1000 GPa"),
    "rad": (0.0, math.tau, "from 0 to 360 degrees"),
    "s": (0.05, 3600.0, "from 0.05 s to an hour"),
}
"""What each kind of quantity may be, by the unit used inside; wide enough for any printer."""

_LIKE = {
    "m": "30 mm",
    "m/s": "60 mm/s",
    "Hz": "25 Hz",
    "N": "29 N",
    "Pa": "2 MPa",
    "rad": "30 deg",
    "s": "6 s",
}


def quantities(keys: Sequence[str], texts: Sequence[str], unit: str) -> tuple[float, ...]:
    """Return what is typed, in `unit` (a key of `BOUNDS`); raises InputError with every fault.

    `keys` name the options or arguments, one a text.
    """
    low, high, between = BOUNDS[unit]
    notes = Notes(COMMAND_LINE)
    values: list[float] = []
    for key, text in zip(keys, texts, strict=True):
        try:
            value = parse_quantity(text, unit)
        except QuantityError as error:
            notes.fault(key, f'"{text}"', error.wanted, error.suggestion)
            continue
        if not low <= value <= high:
            like = f'write it like "{_LIKE[unit]}"'
            notes.fault(key, f'"{text}"', f"{KINDS[unit]} {between}", like)
        values.append(value)
    if notes.faults:
        raise InputError(notes.faults)
    return tuple(values)


def word(
    key: str, text: str, options: Sequence[str], meanings: Mapping[str, str] | None = None
) -> str:
    """Return what is typed for option `key`: one of `options`, else raises InputError."""
    notes = Notes(COMMAND_LINE)
    advice = "write one of these words"
    found = choice(tuple(options), meanings=meanings, otherwise=advice).read(notes, key, text)
    if notes.faults:
        raise InputError(notes.faults)
    return str(found)
