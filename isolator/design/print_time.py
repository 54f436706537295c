"""How long a plate takes to print, from the volume of its parts: an estimate with a band."""

from __future__ import annotations

from isolator.design.filaments import filament

RIGID_SPEEDS = (25e-3, 80e-3)
"""Mean speed of the nozzle over a whole print, corners, moves between and outer walls counted in
[m/s]; common practice, no source."""
FLEXIBLE_SPEEDS = (12e-3, 35e-3)
"""The same of flexible filament, which is pushed slowly [m/s]; common practice, no source."""
LAYER_TIMES = (4.0, 10.0)
"""Least time of a layer, so that it cools before the next [s]; common practice, no source."""
START = (180.0, 600.0)
"""Heating, levelling and priming [s]; common practice, no source."""


def print_time(
    volume: float, height: float, material: str, nozzle: float, layer: float
) -> tuple[float, float]:
    """Return the shortest and longest time [s] that a print is likely to take.

    `volume` [m³] of filament laid down, `height` [m] of the tallest part, `nozzle` and `layer` [m]
    whose product is the section of a line. No layer takes less than its cooling time.

    >>> [round(each / 3600, 1) for each in print_time(1e-4, 0.03, "petg", 4e-4, 2e-4)]
    [4.4, 14.1]
    >>> print_time(1e-9, 0.02, "petg", 4e-4, 2e-4)
    (580, 1600)
    """
    row = filament(material)
    slow, fast = FLEXIBLE_SPEEDS if row is not None and row.flexible else RIGID_SPEEDS
    length, layers = volume / (nozzle * layer), round(height / layer)
    low = START[0] + max(length / fast, layers * LAYER_TIMES[0])
    high = START[1] + max(length / slow, layers * LAYER_TIMES[1])
    return round(low), round(high)
