"""What screws, nuts and threaded inserts need [m]."""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """What one thread needs [m]: button head ISO 7380-1, hexagon head ISO 4017, nut ISO 4032,
    washer ISO 7089, each at its greatest size (head of ISO 4017 nominal, from memory)."""

    thread: float
    pitch: float  # coarse, ISO 261
    fine: float  # hole, ISO 273 fine series
    clearance: float  # medium series
    coarse: float  # coarse series
    button: float
    button_height: float
    flats: float
    hexagon_height: float
    nut_height: float
    washer: float
    washer_height: float
    key_hole: float  # lets the hexagon key of a button head through, with play


SCREWS = {
    3: Screw(
        thread=3e-3,
        pitch=0.5e-3,
        fine=3.2e-3,
        clearance=3.4e-3,
        coarse=3.6e-3,
        button=5.7e-3,
        button_height=1.65e-3,
        flats=5.5e-3,
        hexagon_height=2.0e-3,
        nut_height=2.4e-3,
        washer=7e-3,
        washer_height=0.55e-3,
        key_hole=3.4e-3,
    ),
    4: Screw(
        thread=4e-3,
        pitch=0.7e-3,
        fine=4.3e-3,
        clearance=4.5e-3,
        coarse=4.8e-3,
        button=7.6e-3,
        button_height=2.2e-3,
        flats=7.0e-3,
        hexagon_height=2.8e-3,
        nut_height=3.2e-3,
        washer=9e-3,
        washer_height=0.9e-3,
        key_hole=4.5e-3,
    ),
    5: Screw(
        thread=5e-3,
        pitch=0.8e-3,
        fine=5.3e-3,
        clearance=5.5e-3,
        coarse=5.8e-3,
        button=9.5e-3,
        button_height=2.75e-3,
        flats=8.0e-3,
        hexagon_height=3.5e-3,
        nut_height=4.7e-3,
        washer=10e-3,
        washer_height=1.1e-3,
        key_hole=5.5e-3,
    ),
    6: Screw(
        thread=6e-3,
        pitch=1.0e-3,
        fine=6.4e-3,
        clearance=6.6e-3,
        coarse=7.0e-3,
        button=10.5e-3,
        button_height=3.3e-3,
        flats=10.0e-3,
        hexagon_height=4.0e-3,
        nut_height=5.2e-3,
        washer=12e-3,
        washer_height=1.8e-3,
        key_hole=6.6e-3,
    ),
    8: Screw(
        thread=8e-3,
        pitch=1.25e-3,
        fine=8.4e-3,
        clearance=9.0e-3,
        coarse=10.0e-3,
        button=14e-3,
        button_height=4.4e-3,
        flats=13.0e-3,
        hexagon_height=5.3e-3,
        nut_height=6.8e-3,
        washer=16e-3,
        washer_height=1.8e-3,
        key_hole=9.0e-3,
    ),
    10: Screw(
        thread=10e-3,
        pitch=1.5e-3,
        fine=10.5e-3,
        clearance=11.0e-3,
        coarse=12.0e-3,
        button=17.5e-3,
        button_height=5.5e-3,
        flats=16.0e-3,
        hexagon_height=6.4e-3,
        nut_height=8.4e-3,
        washer=20e-3,
        washer_height=2.2e-3,
        key_hole=11.0e-3,
    ),
}
"""Rows by thread diameter in whole millimetres."""


class SelfTapping(NamedTuple):
    """A self-tapping screw with pan head, ISO 7049, greatest sizes [m] (from memory)."""

    thread: float
    head: float
    head_height: float
    clearance: float  # hole in what it holds; common practice, no source


SELF_TAPPING = {
    0.0029: SelfTapping(2.9e-3, 5.6e-3, 2.4e-3, 3.3e-3),
    0.0035: SelfTapping(3.5e-3, 7.0e-3, 2.6e-3, 3.9e-3),
    0.0042: SelfTapping(4.2e-3, 8.0e-3, 3.1e-3, 4.7e-3),
    0.0048: SelfTapping(4.8e-3, 9.5e-3, 3.7e-3, 5.3e-3),
}
"""Rows by nominal diameter [m]."""


class Insert(NamedTuple):
    """A threaded insert set with heat [m]; usual sizes, common practice, no source."""

    hole: float  # drawn for it
    length: float
    wall: float  # least plastic round the hole


INSERTS = {
    0.003: Insert(4.0e-3, 5.7e-3, 1.6e-3),
    0.004: Insert(5.6e-3, 8.1e-3, 2.0e-3),
    0.005: Insert(6.4e-3, 9.5e-3, 2.4e-3),
    0.006: Insert(8.0e-3, 12.7e-3, 2.8e-3),
    0.008: Insert(9.6e-3, 12.7e-3, 3.2e-3),
}
"""Rows by thread diameter [m]."""

THIN_NUT = {6: 3.2e-3, 8: 4.0e-3, 10: 5.0e-3}
"""Height of thin nuts, ISO 4035, by thread in mm (from memory) [m]."""
LARGE_WASHER = {3: 0.8e-3, 4: 1.0e-3, 5: 1.2e-3, 6: 1.6e-3, 8: 2.0e-3, 10: 2.5e-3}
"""Nominal height of large washers, ISO 7093, by thread in mm (from memory) [m]."""

DIRECT_HOLE = 0.85
"""Hole over thread diameter where a screw cuts its own thread in plastic; common practice."""
DIRECT_DEPTH = 2.5
"""Depth of that thread in diameters; common practice, no source."""
DIRECT_WALL = 0.7
"""Least plastic round that hole in diameters; common practice, no source."""

LENGTHS = tuple(
    each * 1e-3 for each in (4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 30, 35, 40, 45, 50)
)
"""Lengths that screws are sold in [m]: ISO 888 preferred lengths, with the 14, 18 and 22 that
shops have for M3 and M4 (from memory)."""
TAPPING_LENGTHS = tuple(each * 1e-3 for each in (9.5, 13, 16, 19, 22, 25, 32, 38))
"""Lengths of self-tapping screws, ISO 7049 (from memory) [m]."""


def screw(thread: float) -> Screw:
    """Return the row of a thread diameter [m]; that of the largest where there is none."""
    return next(
        (row for row in SCREWS.values() if abs(row.thread - thread) < 1e-6), SCREWS[max(SCREWS)]
    )
