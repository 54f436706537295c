"""Faces of stepper motors and what their screws need, metres."""

from __future__ import annotations

from typing import NamedTuple

from isolator.design.screws import SCREWS, Screw


class Faceplate(NamedTuple):
    """Face of a stepper motor [m].

    Bolt circles of sizes 14, 17, 23 and pilots: NEMA ICS 16-2001, Table 4, as published data
    sheets give them; body sides by common practice, no source.
    """

    body: float  # side of the square body
    bolt_square: float
    bolt_circle: float
    pilot: float
    pilot_height: float
    screw: float  # thread diameter of the screws this tool uses
    flange: float = 0.0  # thickness of a flange with through holes; 0: blind threaded holes

    @property
    def screw_clearance(self) -> float:
        """Return the hole that those screws go through [m], ISO 273 medium."""
        return SCREWS[round(self.screw * 1e3)].clearance


FACEPLATES = {
    14: Faceplate(35.2e-3, 26.0e-3, 1.448 * 25.4e-3, 22.0e-3, 2.0e-3, screw=3e-3),
    17: Faceplate(42.3e-3, 31.0e-3, 1.725 * 25.4e-3, 22.0e-3, 2.0e-3, screw=3e-3),
    # its flange holes are 5 mm: M4 goes through with room; flange thickness from memory
    23: Faceplate(56.4e-3, 47.14e-3, 2.625 * 25.4e-3, 38.1e-3, 1.6e-3, screw=4e-3, flange=4.8e-3),
}
"""Stepper faces by frame size."""


def screw_of(frame_size: int) -> Screw:
    """Return the row of the screws that a frame size takes."""
    return SCREWS[round(FACEPLATES[frame_size].screw * 1e3)]


FRAME_SIZES = tuple(FACEPLATES)
