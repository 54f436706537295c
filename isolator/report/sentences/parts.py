"""What is said of parts that were drawn and of their pictures."""

from __future__ import annotations

import math
from collections.abc import Iterable

SECTION = "Unloaded, as drawn. Dimensions are taken from the solids."
CORNER = "The front right foot; the rest of the printer is left out."
IN_PLACE = "The printer is the outline above them."
CUT_OPEN = "Front half taken away; {}."  # what its kind shows
PULLED_APART = "From the frame down: {}."  # what is numbered


def prints(overhang: float, bridge: float, walls: float, nozzle: float) -> str:
    """Return what a part's mesh says of printing it as it lies.

    `overhang` [m²] that would need support, longest `bridge` [m], thinnest wall in nozzles and the
    width of a `nozzle` [m].

    >>> prints(0.0, 0.0, 2.161, 0.0004), prints(0.0, 0.0034, 5.0, 0.0004)
    ('thinnest wall 0.86 mm', 'thinnest wall 2 mm, bridges to 3.4 mm')
    """
    # a wall is told no thicker than it is
    thin = math.floor(walls * nozzle * 1e5 + 1e-6) / 100
    told = f"thinnest wall {thin:g} mm"
    if bridge > 5e-5:
        told += f", bridges to {bridge * 1e3:.1f} mm"
    if overhang > 5e-7:
        told += f", {overhang * 1e6:.1f} mm² hang over"
    return told


TIME_RESTS_ON = (
    "Printing times are estimates from the volume of the parts: lines as wide as the nozzle and "
    "as high as a layer, laid at a mean 25 to 80 mm/s, flexible filament at 12 to 35 mm/s, "
    "corners and moves counted in; 4 to 10 s a layer at least; 3 to 10 minutes to heat and prime."
)


def lasting(low: float, high: float) -> str:
    """Return a span of time [s] in words.

    >>> lasting(580, 1600), lasting(3100, 14400), lasting(15800, 50900)
    ('10 to 27 min', '52 min to 4 h', '4.4 to 14.1 h')
    """
    units = [(each / 3600, "h") if each >= 3600 else (each / 60, "min") for each in (low, high)]
    ends = [
        f"{value:.1f}".removesuffix(".0") if unit == "h" else f"{value:.0f}"
        for value, unit in units
    ]
    if units[0][1] == units[1][1]:
        return f"{ends[0]} to {ends[1]} {units[1][1]}"
    return f"{ends[0]} {units[0][1]} to {ends[1]} {units[1][1]}"


def numbered(names: Iterable[str]) -> str:
    """Return names with the numbers that they have in a picture.

    >>> numbered(("cup", "pad"))
    '1 cup; 2 pad'
    """
    return "; ".join(f"{number} {name}" for number, name in enumerate(names, 1))
