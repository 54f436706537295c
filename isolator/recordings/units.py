"""Units of acceleration and time as files and users write them."""

from __future__ import annotations

import re
from collections.abc import Sequence

from isolator.physics.bodies.statics import G
from isolator.recordings.recording import COUNTS

TIMES = {
    **dict.fromkeys(("s", "sec", "secs", "second", "seconds", "sekunden"), 1.0),
    **dict.fromkeys(("ms", "msec", "millis", "millisecond", "milliseconds"), 1e-3),
    **dict.fromkeys(("us", "µs", "usec", "micros", "microsecond", "microseconds"), 1e-6),
    **dict.fromkeys(("ns", "nsec", "nanos", "nanosecond", "nanoseconds"), 1e-9),
    **dict.fromkeys(("min", "minutes"), 60.0),
}
"""Units of time [s]."""
ACCELERATIONS = {
    **dict.fromkeys(("m/s^2", "m/s2", "m/s/s", "ms^-2", "ms-2", "mps2", "m*s^-2"), 1.0),
    **dict.fromkeys(("mm/s^2", "mm/s2", "mm/s/s"), 1e-3),
    **dict.fromkeys(("cm/s^2", "cm/s2"), 1e-2),
    **dict.fromkeys(("g", "gn", "g0", "gee", "gs"), G),
    **dict.fromkeys(("mg", "milli-g"), 1e-3 * G),
}
"""Units of acceleration [m/s²]."""
RAW = ("counts", "count", "lsb", "raw", "digits", "adc", "fs", "fullscale", "-", "1")
"""How files call a sensor's own numbers."""
OTHERS = re.compile(r"(rad|deg|°|dps|µt|ut|gauss|°c|degc|hz|v|mv|db|pa|hpa|%)(/.*)?")
"""Units of what is no acceleration."""
_SPELLING = str.maketrans(
    {"²": "^2", "μ": "µ", "·": "*", "−": "-", "[": "", "]": "", "(": "", ")": ""}
)
_WORTH = re.compile(
    r"(?P<number>[+]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)?\s*(?:/\s*(?P<below>\d+\.?\d*))?\s*"
    r"(?P<unit>[A-Za-zµ].*)"
)


def spelled(unit: str) -> str:
    """Return a unit in one spelling: lower case, without brackets or blanks."""
    return re.sub(r"\s+", "", unit.translate(_SPELLING).strip().casefold().replace("**", "^"))


def worth(text: str) -> float | None:
    """Return what a reading of 1 is worth [m/s²]; None where the text does not say.

    >>> worth("g"), round(worth("0.061 mg"), 8), round(worth("1/16384 g"), 8), worth("furlong")
    (9.80665, 0.00059821, 0.00059855, None)
    """
    found = _WORTH.fullmatch(text.strip())
    if found is None or spelled(found["unit"]) not in ACCELERATIONS:
        return None
    number = float(found["number"] or 1.0) / float(found["below"] or 1.0)
    return number * ACCELERATIONS[spelled(found["unit"])]


def is_raw(unit: str) -> bool:
    """Return whether a unit says that readings are the sensor's own numbers."""
    return spelled(unit) in RAW or spelled(unit) == COUNTS


def is_unit_line(cells: Sequence[str]) -> bool:
    """Return whether every cell is a unit, or nothing, and one at least a unit."""
    units = [spelled(cell) for cell in cells]
    known = [
        unit in TIMES or unit in ACCELERATIONS or unit in RAW or bool(OTHERS.fullmatch(unit))
        for unit in units
    ]
    return any(known) and all(fits or not unit for fits, unit in zip(known, units, strict=True))


def split_name(name: str) -> tuple[str, str]:
    """Return a column's name, and the unit that it carries; empty where it carries none.

    >>> split_name("Acceleration x (m/s^2)"), split_name("time_ms"), split_name("ax")
    (('Acceleration x', 'm/s^2'), ('time', 'ms'), ('ax', ''))
    """
    bracket = re.fullmatch(r"(.*?)[\s_,]*[(\[]([^()\[\]]*)[)\]]\s*", name)
    if bracket:
        return bracket[1].strip(), spelled(bracket[2])
    tail = re.fullmatch(r"(.+?)(?:[\s_,]+|[\s_,]*\b(?:in|/)\s+)(\S+)", name)
    if tail and (spelled(tail[2]) in TIMES or spelled(tail[2]) in ACCELERATIONS):
        return re.sub(r"[\s_,]+in$", "", tail[1]).strip(), spelled(tail[2])
    return name.strip(), spelled(name) if spelled(name) in TIMES and len(name) > 1 else ""
