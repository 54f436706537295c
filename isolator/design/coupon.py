"""The fit coupon: what is measured on it, letter by letter [m].

It is drawn at nominal sizes, nothing added, so that what the callipers read minus what is listed
here is what the user's printer does. Letters that look like figures (I, O) are left out.
"""

from __future__ import annotations

from typing import NamedTuple

from isolator.design.screws import SCREWS

HOLE, HEXAGON, PEG, WIDTH, BED_WIDTH = "hole", "hexagon", "peg", "width", "width at the bed"

LONG, DEEP = 0.070, 0.035
"""Outside of the coupon."""
ABSURD = 1e-3
"""A reading further off than this is a slip of the hand or of the letter, not a fit."""


class Feature(NamedTuple):
    """One thing to measure: its letter, its kind (`HOLE` and so on) and its nominal size [m]."""

    letter: str
    kind: str
    nominal: float
    what: str
    how: str  # it is measured


_INSIDE = "inside jaws, mean of two directions"
_FLATS = "inside jaws, mean of two pairs of flats"
_OUTSIDE = "outside jaws, mean of two directions"

FEATURES = (
    *(
        Feature(letter, HOLE, SCREWS[size].clearance, f"round hole, M{size} screw", _INSIDE)
        for letter, size in zip("ABCDE", (3, 4, 5, 6, 8), strict=True)
    ),
    Feature("F", HEXAGON, SCREWS[4].flats, "hexagon, M4 nut", _FLATS),
    Feature("G", HEXAGON, SCREWS[5].flats, "hexagon, M5 nut", _FLATS),
    Feature("H", PEG, 6.0e-3, "thin peg", _OUTSIDE),
    Feature("J", PEG, 10.0e-3, "thick peg", _OUTSIDE),
    Feature("K", WIDTH, DEEP, "bar, its length", "outside jaws on its upper half alone"),
    Feature("L", BED_WIDTH, DEEP, "the same at the bed", "outside jaws over its lowest edge"),
)
"""Everything that is measured, in the order of its letters."""

BY_LETTER = {feature.letter: feature for feature in FEATURES}
