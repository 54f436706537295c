"""Fits of round rails in linear bushings and holes, in micrometres as fits are told."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Deviation(NamedTuple):
    """Lower and upper deviation from the nominal diameter [µm]."""

    low: float
    high: float


BUSHING = Deviation(-9, 0)
"""Bore of an 8 mm linear ball bushing of the usual grade, as public data sheets give it."""

SHAFTS: Mapping[float, Mapping[str, Deviation]] = {
    6e-3: {"h6": Deviation(-8, 0), "h7": Deviation(-12, 0), "g6": Deviation(-12, -4)},
    10e-3: {"h6": Deviation(-9, 0), "h7": Deviation(-15, 0), "g6": Deviation(-14, -5)},
    18e-3: {"h6": Deviation(-11, 0), "h7": Deviation(-18, 0), "g6": Deviation(-17, -6)},
    30e-3: {"h6": Deviation(-13, 0), "h7": Deviation(-21, 0), "g6": Deviation(-20, -7)},
}
"""Shafts of ISO 286-2 by the largest nominal diameter [m] that they hold for; 6 to 10 mm as public
tables give it, the rest from memory."""

BUSHED = (6e-3, 10e-3)
"""Rails [m] whose bushings have that bore."""
WHOLE = 0.1e-3
"""A rail or a bore no further from a whole millimetre [m] is meant to be one."""

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


class Play(NamedTuple):
    """What a round rail leaves in its bearing, and what rails of the usual fits would."""

    nominal: float  # diameter [m]
    rail: float  # as measured [m]
    found: Deviation  # clearance [µm]
    usual: Mapping[str, Deviation]  # clearance of each fit [µm]
    bore: float | None = None  # as measured [m]; None: a bushing of usual grade

    @property
    def loose(self) -> bool:
        """Return whether it is looser than the loosest sliding fit."""
        return self.found.high > LOOSE


def has_bushing(rail: float) -> bool:
    """Return whether the bore of a rail's usual bushing is known; [m].

    >>> has_bushing(7.94e-3), has_bushing(6.35e-3), has_bushing(12e-3)
    (True, False, False)
    """
    nominal = round(rail * 1e3) * 1e-3
    low, high = BUSHED
    return abs(rail - nominal) <= WHOLE and low - 1e-6 <= nominal <= high + 1e-6


def play(rail: float, bore: float | None = None) -> Play:
    """Return the play of a rail in its bearing, both measured [m]; else a bushing of usual grade.

    Usual fits are told of bores that are whole millimetres. Raises ValueError for a rail without
    `bore` whose bushing is not known.

    >>> play(7.94e-3).found, play(7.995e-3, 8.004e-3).loose
    (Deviation(low=51.0, high=60.0), False)
    """
    if bore is None and not has_bushing(rail):
        raise ValueError(f"no bushing is known for {rail} m")
    size = rail if bore is None else bore
    nominal = round(size * 1e3) * 1e-3
    whole = abs(size - nominal) <= WHOLE
    nominal = nominal if whole else size
    hole = BUSHING if bore is None else measured(bore, nominal)
    found = rail_clearance(hole, measured(rail, nominal))
    fits = next((row for top, row in SHAFTS.items() if whole and nominal <= top + 1e-6), {})
    usual = {name: rail_clearance(hole, shaft) for name, shaft in fits.items()}
    rounded = Deviation(round(found.low, 1), round(found.high, 1))
    return Play(nominal, rail, rounded, usual, bore)
