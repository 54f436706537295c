"""Fit coupon: holes, hexagons, pegs and a plain edge at nominal sizes, to be measured [mm].

Nothing is added to a hole and no edge that is read is chamfered. What the first layer spreads is
kept away from everything but the edge that tells it: holes open in a cone towards the bed, hexagons
have a floor, pegs stand on the plate.
"""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import cadquery as cq

from geometry.lettering.lettering import Lettering, engraved, lettering
from geometry.solids import booleans, features
from geometry.solids.outline import Outline, disc
from geometry.solids.part import Part, mm
from isolator.design import PrintSettings, quantise
from isolator.design.coupon import BY_LETTER, DEEP, FEATURES, HEXAGON, HOLE, LONG, PEG

NAME = "fit-coupon"
PLATE, HIGH, FLOOR = 3.0e-3, 6.0e-3, 1.0e-3  # of plate, bar and pegs, floor of hexagons [m]
BAR = 8.0  # width of the bar at the right end [mm]
LEAD = 0.5  # chamfer on top of a peg [mm]

AT = {
    "A": (-30.0, 4.6),
    "B": (-20.5, 4.6),
    "C": (-9.5, 4.6),
    "D": (2.0, 4.6),
    "E": (18.0, 4.6),
    "F": (-30.0, -4.1),
    "G": (-17.0, -4.1),
    "H": (-4.5, -4.1),
    "J": (8.5, -4.1),
    "K": (31.0, 9.0),
    "L": (31.0, -9.0),
}
"""Middle of every feature; of K and L their letters."""
LETTERS_AT = 13.3  # from the middle line to that of the letters [mm]
LETTER_ROOM = Outline(core_x=8.0, core_y=8.4, offset=0.0)


def coupon_parts(settings: PrintSettings) -> list[Part]:
    """Return the coupon, the one part of its kit, at nominal sizes.

    Of `settings` only bed, nozzle, layer and filament are used, no compensation and no chamfer.
    Letters too fine for the nozzle (above 0.6 mm) are left out and a note says so.
    """
    plate, high = mm(quantise(PLATE, settings.layer)), mm(quantise(HIGH, settings.layer))
    solid, volume = _raised(plate, high)
    cutters, removed = _recesses(plate, mm(quantise(FLOOR, settings.layer)))
    solid, volume = features.cut_all(solid, *cutters), volume - removed
    named = True
    for letter in AT:
        text = _letter(letter, settings)
        if text is None:
            named = False
            continue
        level = high if letter in "KL" else plate
        solid, taken = engraved(solid, text, level, mirrored=False, into=-1)
        volume -= taken
    notes = ["drawn at nominal sizes: nothing is added to holes, no edge that is read is chamfered"]
    if not named:
        notes.append("letters finer than the nozzle are left out; the drawing names the features")
    return [
        Part(
            name=NAME,
            owner="printer",
            role="coupon",
            quantity=1,
            solid=solid,
            material=settings.material,
            orientation="as drawn: letters up",
            notes=tuple(notes),
            box=(mm(LONG), mm(DEEP), high),
            volume=volume,
            loaded=(),
            places=(),
        )
    ]


def letter_place(letter: str) -> tuple[float, float]:
    """Return where the middle of a letter is engraved [mm]."""
    x, y = AT[letter]
    return (x, y) if letter in "KL" else (x, math.copysign(LETTERS_AT, y))


def _letter(letter: str, settings: PrintSettings) -> Lettering | None:
    found = lettering(letter, LETTER_ROOM, settings)
    if found is None:
        return None
    x, y = letter_place(letter)
    moved = tuple(
        tuple(tuple((a + x, b + y) for a, b in loop) for loop in loops) for loops in found.letters
    )
    return replace(found, letters=moved)


def _raised(plate: float, high: float) -> tuple[Any, float]:
    """Return plate, bar and pegs as one solid, and its volume."""
    long, deep, half = mm(LONG), mm(DEEP), plate / 2  # all that stands reaches into the plate
    base = cq.Solid.makeBox(long, deep, plate, cq.Vector(-long / 2, -deep / 2, 0))
    bar = cq.Solid.makeBox(BAR, deep, high - half, cq.Vector(long / 2 - BAR, -deep / 2, half))
    volume = long * deep * plate + BAR * deep * (high - plate)
    standing = [bar]
    for feature in (each for each in FEATURES if each.kind == PEG):
        (x, y), across, neck = AT[feature.letter], mm(feature.nominal), high - LEAD
        standing.append(features.hole(across, half, neck, x, y))
        standing.append(
            features.cone(across, across - 2 * LEAD, neck, high).moved(
                cq.Location(cq.Vector(x, y, 0))
            )
        )
        thin = across / 2 - LEAD
        cap = math.pi * LEAD / 3 * ((across / 2) ** 2 + across / 2 * thin + thin**2)
        volume += features.hole_area(across) * (neck - plate) + cap
    return features.one_solid(booleans.fused(base, *standing).clean()), volume


def _recesses(plate: float, floor: float) -> tuple[list[Any], float]:
    """Return the cutters of holes and hexagons, and what they take."""
    over = 1.0  # cutters stand this far past the faces so that no skin is left
    cutters, removed = [], 0.0
    for letter, feature in BY_LETTER.items():
        size, (x, y) = mm(feature.nominal), AT[letter]
        if feature.kind == HOLE:
            cutters.append(features.hole(size, -over, plate + over, x, y))
            cutters.append(features.relief(disc(size), x=x, y=y))
            removed += features.hole_area(size) * plate + features.relief_volume(disc(size))
        elif feature.kind == HEXAGON:
            cutters.append(features.hexagon(size, floor, plate + over, x, y))
            removed += features.hexagon_area(size) * (plate - floor)
    return cutters, removed
