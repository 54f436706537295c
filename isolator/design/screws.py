"""What screws, nuts and threaded inserts need [m]."""

from __future__ import annotations

from typing import NamedTuple


class Screw(NamedTuple):
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

    @property
    def key_hole(self) -> float:
        """Return the hole that lets the hexagon key of a button head through, with play [m]."""
        return self.clearance


_SIZES = (
    # thread, pitch; holes; button head; flats, hexagon's and nut's height; washer [mm]
    (3.0, 0.5, 3.2, 3.4, 3.6, 5.7, 1.65, 5.5, 2.0, 2.4, 7.0, 0.55),
    (4.0, 0.7, 4.3, 4.5, 4.8, 7.6, 2.2, 7.0, 2.8, 3.2, 9.0, 0.9),
    (5.0, 0.8, 5.3, 5.5, 5.8, 9.5, 2.75, 8.0, 3.5, 4.7, 10.0, 1.1),
    (6.0, 1.0, 6.4, 6.6, 7.0, 10.5, 3.3, 10.0, 4.0, 5.2, 12.0, 1.8),
    (8.0, 1.25, 8.4, 9.0, 10.0, 14.0, 4.4, 13.0, 5.3, 6.8, 16.0, 1.8),
    (10.0, 1.5, 10.5, 11.0, 12.0, 17.5, 5.5, 16.0, 6.4, 8.4, 20.0, 2.2),
)
SCREWS = {round(row[0]): Screw(*(round(each / 1e3, 6) for each in row)) for row in _SIZES}
"""Rows by thread diameter in whole millimetres."""


BUTTON_KEY = {
    0.003: 2.0e-3,
    0.004: 2.5e-3,
    0.005: 3.0e-3,
    0.006: 4.0e-3,
    0.008: 5.0e-3,
    0.010: 6.0e-3,
}
"""Width across flats of a button head's hexagon key, ISO 7380-1, by thread (from memory) [m]."""


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
SMALL_ONLY = (14e-3, 18e-3, 22e-3)
"""Of these what shops keep for threads up to `SMALL` alone [m]; common practice, no source."""
SMALL = 4e-3
"""Thread up to which they do [m]."""
TAPPING_LENGTHS = tuple(each * 1e-3 for each in (9.5, 13, 16, 19, 22, 25, 32, 38))
"""Lengths of self-tapping screws, ISO 7049 (from memory) [m]."""


def screw(thread: float) -> Screw:
    """Return the row of a thread diameter [m]; that of the largest where there is none."""
    return next(
        (row for row in SCREWS.values() if abs(row.thread - thread) < 1e-6), SCREWS[max(SCREWS)]
    )


def washer_row(thread: float) -> Screw:
    """Return the row whose washer goes under a head of this diameter [m], self-tapping or not.

    >>> [round(washer_row(each).thread * 1e3) for each in (0.005, 0.0029, 0.0035, 0.0048)]
    [5, 3, 4, 5]
    """
    return next((row for row in SCREWS.values() if row.fine > thread), SCREWS[max(SCREWS)])


def kept_lengths(thread: float) -> tuple[float, ...]:
    """Return the lengths [m] that shops keep of a thread diameter [m], the shortest first.

    >>> 0.014 in kept_lengths(0.003), 0.014 in kept_lengths(0.005)
    (True, False)
    """
    small = thread <= SMALL + 1e-9
    return tuple(each for each in LENGTHS if small or each not in SMALL_ONLY)


def self_tapping(thread: float) -> SelfTapping:
    """Return the row of a self-tapping screw's diameter [m], or the largest."""
    return SELF_TAPPING.get(round(thread, 6), SELF_TAPPING[max(SELF_TAPPING)])


def insert(thread: float) -> Insert:
    """Return the row of a thread diameter's insert [m], or the largest."""
    return INSERTS.get(round(thread, 6), INSERTS[max(INSERTS)])


def button_key(thread: float) -> float:
    """Return a button head's key across flats by the thread [m]; about where not known."""
    return BUTTON_KEY.get(round(thread, 6), 0.6 * thread)


def thin_nut(thread: float) -> float:
    """Return the height of the thin nut of a thread diameter [m]; about where not known."""
    return THIN_NUT.get(round(thread * 1e3), 0.6 * thread)
