"""Fits of round rails in linear bushings and holes, in micrometres as fits are told."""

from __future__ import annotations

from typing import NamedTuple


class Deviation(NamedTuple):
    """Lower and upper deviation from the nominal diameter [µm]."""

    low: float
    high: float


BUSHING = Deviation(-9, 0)
"""Bore of an 8 mm linear ball bushing of the usual grade, as public data sheets give it."""

LOOSE = 29.0
"""Largest clearance of H7/g6, the loosest fit that is called sliding [µm]; above it a rail
rattles in its bushing. Common practice, no source."""


def rail_clearance(hole: Deviation, shaft: Deviation) -> Deviation:
    """Return the least and the greatest clearance [µm]; a negative one is interference.

    >>> rail_clearance(Deviation(0, 15), Deviation(-14, -5))
    Deviation(low=5, high=29)
    """
    return Deviation(hole.low - shaft.high, hole.high - shaft.low)


def measured(diameter: float, nominal: float) -> Deviation:
    """Return the deviation of one measured diameter; both [m].

    >>> [round(each, 1) for each in measured(7.9375e-3, 8e-3)]
    [-62.5, -62.5]
    """
    off = (diameter - nominal) * 1e6
    return Deviation(off, off)
