"""Faces of stepper motors and what their screws need, metres."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Faceplate:
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
    screw_clearance: float  # ISO 273 medium
    flange: float  # thickness of a flange with through holes; 0: blind threaded holes


FACEPLATES = {
    14: Faceplate(
        body=35.2e-3, bolt_square=26.0e-3, bolt_circle=1.448 * 25.4e-3, pilot=22.0e-3,
        pilot_height=2.0e-3, screw=3e-3, screw_clearance=3.4e-3, flange=0.0,
    ),
    17: Faceplate(
        body=42.3e-3, bolt_square=31.0e-3, bolt_circle=1.725 * 25.4e-3, pilot=22.0e-3,
        pilot_height=2.0e-3, screw=3e-3, screw_clearance=3.4e-3, flange=0.0,
    ),
    # its flange holes are 5 mm: M4 goes through with room; flange thickness from memory
    23: Faceplate(
        body=56.4e-3, bolt_square=47.14e-3, bolt_circle=2.625 * 25.4e-3, pilot=38.1e-3,
        pilot_height=1.6e-3, screw=4e-3, screw_clearance=4.5e-3, flange=4.8e-3,
    ),
}  # fmt: skip
"""Stepper faces by frame size."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """What one thread needs [m]: button head ISO 7380-1, hexagon head ISO 4017, nut ISO 4032,
    washer ISO 7089, each at its greatest size (head of ISO 4017 nominal, from memory)."""

    thread: float
    pitch: float  # coarse, ISO 261
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
        thread=3e-3, pitch=0.5e-3, button=5.7e-3, button_height=1.65e-3, flats=5.5e-3,
        hexagon_height=2.0e-3, nut_height=2.4e-3, washer=7e-3, washer_height=0.55e-3,
        key_hole=3.4e-3,
    ),
    4: Screw(
        thread=4e-3, pitch=0.7e-3, button=7.6e-3, button_height=2.2e-3, flats=7.0e-3,
        hexagon_height=2.8e-3, nut_height=3.2e-3, washer=9e-3, washer_height=0.9e-3,
        key_hole=4.5e-3,
    ),
}  # fmt: skip
"""Rows by thread diameter in whole millimetres."""

LENGTHS = tuple(
    each * 1e-3 for each in (4, 5, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 30, 35, 40, 45, 50)
)
"""Lengths that screws are sold in [m]: ISO 888 preferred lengths, with the 14, 18 and 22 that
shops have for M3 and M4 (from memory)."""


def screw_of(frame_size: int) -> Screw:
    """Return the row of the screws that a frame size takes."""
    return SCREWS[round(FACEPLATES[frame_size].screw * 1e3)]
