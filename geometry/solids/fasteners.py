"""Screws and nuts that parts make room for [mm]."""

from __future__ import annotations

from dataclasses import dataclass

from geometry.solids.part import CannotDraw, mm
from isolator.design.screws import SCREWS, Screw


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


def _thread(row: Screw) -> Thread:
    return Thread(
        size=mm(row.thread),
        clearance=mm(row.clearance),
        across_flats=mm(row.flats),
        head=mm(row.hexagon_height),
        nut=mm(row.nut_height),
        button=mm(row.button),
        button_height=mm(row.button_height),
    )


THREADS = {float(size): _thread(row) for size, row in SCREWS.items()}
"""Threads that an attachment may use, by nominal diameter [mm]."""


def thread(part: str, size: float) -> Thread:
    """Return the row for a nominal thread diameter [mm]; `part` is named where there is none."""
    if size not in THREADS:
        offered = ", ".join(row.name for row in THREADS.values())
        raise CannotDraw(part, "bolt", f"M{size:g} is not among the threads drawn ({offered})")
    return THREADS[size]
