"""Screws and nuts that parts make room for [mm]."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.part import CannotDraw, mm
from isolator.design import HEX_HEAD_HEIGHT


@dataclass(frozen=True, slots=True, kw_only=True)
class Thread:
    """Room that one thread size needs [mm].

    `clearance`: hole, ISO 273 medium series. `across_flats`: hexagon of ISO 4017 head and ISO 4032
    nut. `head`: height of the ISO 4017 head (from memory). `nut`: greatest height of the ISO 4032
    nut. `button`, `button_height`: greatest head diameter and height of ISO 7380-1.
    """

    size: float
    clearance: float
    across_flats: float
    head: float
    nut: float
    button: float
    button_height: float

    @property
    def name(self) -> str:
        """Return the thread as it is written, such as M5."""
        return f"M{self.size:g}"


def _thread(*row: float) -> Thread:
    size, clearance, flats, nut, button, height = row
    head = mm(HEX_HEAD_HEIGHT[round(size / 1000.0, 6)])
    return Thread(
        size=size,
        clearance=clearance,
        across_flats=flats,
        head=head,
        nut=nut,
        button=button,
        button_height=height,
    )


THREADS = {
    row[0]: _thread(*row)
    for row in (
        # size, ISO 273 medium, s, ISO 4032 m max, ISO 7380-1 dk and k
        (4.0, 4.5, 7.0, 3.2, 7.6, 2.2),
        (5.0, 5.5, 8.0, 4.7, 9.5, 2.75),
        (6.0, 6.6, 10.0, 5.2, 10.5, 3.3),
        (8.0, 9.0, 13.0, 6.8, 14.0, 4.4),
    )
}
"""Threads that an attachment may use, by nominal diameter [mm]."""


def thread(part: str, size: float) -> Thread:
    """Return the row for a nominal thread diameter [mm]; `part` is named where there is none."""
    if size not in THREADS:
        offered = ", ".join(row.name for row in THREADS.values())
        raise CannotDraw(part, "bolt", f"M{size:g} is not among the threads drawn ({offered})")
    return THREADS[size]


@dataclass(frozen=True, slots=True, kw_only=True)
class Faceplate:
    """Face of a stepper motor [mm]: NEMA ICS 16-2001 Table 4, body sides by common practice."""

    body: float
    bolt_square: float
    bolt_circle: float
    pilot: float
    screw_clearance: float  # ISO 273 medium


FACEPLATES = {
    14: Faceplate(
        body=35.2, bolt_square=26.0, bolt_circle=1.448 * 25.4, pilot=22.0, screw_clearance=3.4
    ),
    17: Faceplate(
        body=42.3, bolt_square=31.0, bolt_circle=1.725 * 25.4, pilot=22.0, screw_clearance=3.4
    ),
    # the flange hole is 5 mm: M5 clearance lets M4 and M5 through alike
    23: Faceplate(
        body=56.4, bolt_square=47.14, bolt_circle=2.625 * 25.4, pilot=38.1, screw_clearance=5.5
    ),
}
"""Stepper faces by frame size."""
