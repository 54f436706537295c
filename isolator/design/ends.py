"""Ready-made mounts: what they end in, and the plates that they are screwed to [m]."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import NamedTuple

from isolator.design.attachment import EAR_MARGIN, FLOOR, HEAD_PLAY, HEX_FIT
from isolator.design.layers import quantise_up
from isolator.design.screws import kept_lengths, screw

STUD, THREAD, PLAIN = "stud", "thread", "plain"
ENDS = (STUD, THREAD, PLAIN)
"""What a mount ends in: a stud, a thread inside it, or its own rubber or metal, which stands."""

OFF_GROUND = 1.0e-3
"""What a screw stays off the ground of a mount's thread [m]; convention, no source."""
LEAST_TURNS = 0.8
"""Thread that a screw holds in a mount, in diameters, at least; common practice, no source."""
SUNK = 0.4e-3
"""What heads, nuts and studs stay below the plate's face [m]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Ends:
    """What a ready-made mount ends in, at the printer and at the desk [m]."""

    thread: float  # nominal diameter
    upper: str  # of ENDS, never plain
    lower: str  # of ENDS
    stud: float = 0.0  # length of a stud; 0 where it has none
    depth: float = 0.0  # of a thread inside it; 0 where it has none
    grade: str = ""  # what it is asked for as in a shop, such as "55 Shore A"

    @property
    def words(self) -> str:
        """Return its ends in words.

        >>> Ends(thread=0.006, upper="thread", lower="stud", stud=0.018, depth=0.006).words
        'thread and stud of 18 mm'
        """
        long = f"{self.stud * 1e3:g} mm"
        pairs = {
            (STUD, STUD): f"studs of {long}",
            (THREAD, THREAD): "threads at both ends",
            (STUD, PLAIN): f"one stud of {long}",
            (THREAD, PLAIN): "one thread",
        }
        return pairs.get((self.upper, self.lower), f"thread and stud of {long}")


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadyMade:
    """One size of a ready-made mount [m]."""

    diameter: float
    height: float  # from face to face, metal counted in
    rubber: float  # height of its rubber
    ends: Ends


class Seat(NamedTuple):
    """How a plate is screwed to one end of a mount [m].

    The plate's floor, `floor` thick, lies on the mount; over it a recess holds a button head, or
    the nut on a stud. `screw` is the screw's length under its head, 0 for a stud.
    """

    floor: float
    height: float  # least thickness of the whole plate
    screw: float


def seat(ends: Ends, end: str, layer: float) -> Seat | None:
    """Return how a plate is screwed to one end; None for a plain one, or where no screw fits.

    A screw holds `LEAST_TURNS` at least and ends `OFF_GROUND` before the thread does; a stud ends
    in its nut, below the plate's face. Whole layers of height `layer`.
    """
    row = screw(ends.thread)
    if end == STUD:
        least = row.nut_height + row.pitch
        floor = math.floor((ends.stud - least) / layer + 1e-9) * layer
        if floor < FLOOR - 1e-9:
            return None
        return Seat(round(floor, 9), quantise_up(ends.stud + SUNK, layer), 0.0)
    if end != THREAD:
        return None
    most = ends.depth - OFF_GROUND
    for long in kept_lengths(ends.thread):
        floor = quantise_up(max(FLOOR, long - most), layer)
        if long - floor >= LEAST_TURNS * ends.thread - 1e-9:
            return Seat(floor, quantise_up(floor + row.button_height + SUNK, layer), long)
    return None


def recess(ends: Ends, end: str, compensation: float) -> float:
    """Return the greatest width of a plate's recess at one end [m]; 0 for a plain end.

    Across corners of a nut's, round for a head.
    """
    row = screw(ends.thread)
    if end == STUD:
        return 2.0 * (row.flats + HEX_FIT + compensation) / math.sqrt(3.0)
    return row.button + HEAD_PLAY + compensation if end == THREAD else 0.0


def plate_width(ends: Ends, diameter: float, compensation: float) -> float:
    """Return the least width of both plates of a mount of this `diameter` [m]."""
    widest = max(recess(ends, each, compensation) for each in (ends.upper, ends.lower))
    return max(diameter, widest + 2.0 * EAR_MARGIN)


def fits(ends: Ends, layer: float) -> bool:
    """Return whether both ends can be screwed to plates, or stand."""
    lower = ends.lower == PLAIN or seat(ends, ends.lower, layer) is not None
    return lower and seat(ends, ends.upper, layer) is not None


def disc(ends: Ends, height: float, rubber: float) -> float:
    """Return the thickness of the metal over the rubber of a mount of this `height` [m].

    As much lies under it, unless it stands on its rubber.
    """
    return (height - rubber) / (1.0 if ends.lower == PLAIN else 2.0)


def heights(ends: Ends, layer: float) -> tuple[float, float]:
    """Return the least height of upper and lower plate [m]; 0 for none under a plain end."""
    above, below = seat(ends, ends.upper, layer), seat(ends, ends.lower, layer)
    return (0.0 if above is None else above.height), (0.0 if below is None else below.height)
