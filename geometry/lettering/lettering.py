"""Text engraved into printed parts: laid out on a face, its area known in closed form [mm].

Letters are strokes of one width, of our own drawing (geometry/letter_forms.py), so that no font
file is needed and every stroke is a whole number of lines of the nozzle.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations
from typing import Any

import cadquery as cq
import numpy as np
from numpy.typing import NDArray

from geometry.lettering.letter_forms import HIGH, SPACE, centre_lines, engravable, width
from geometry.lettering.stroked import Loop, area_between, clipped, stroked
from geometry.solids import booleans, features
from geometry.solids.outline import Outline
from isolator.design import PrintSettings

DEPTH = 0.4  # two usual layers [mm]
LARGEST, LEAST = 10.0, 4.0  # height of letters [mm]; what is smaller is not read on a print
FINER = 0.25  # step in which heights are tried [mm]
EDGE = 1.2  # left between letters and edges or holes [mm], three lines of the usual nozzle
SLENDER = 8.0  # height of a letter over its stroke, where the nozzle allows
STOUT = 5.0  # the same at the least: E has three strokes and two gaps as wide
NARROW = 0.85  # steps across over steps up
PITCH = 1.5  # from line to line in heights of letters
MOST_LINES = 3
RASTER = 0.125  # places tried for a line [mm]
THROUGH = 0.5  # a cutter stands out of the face by this [mm]

Letter = tuple[Loop, ...]  # outer loop, then holes


@dataclass(frozen=True, slots=True, kw_only=True)
class Lettering:
    """A text laid out about the middle of a face, read from outside with y up [mm].

    `letters` are the loops of every letter, the outer one first.
    """

    lines: tuple[str, ...]
    height: float
    stroke: float
    letters: tuple[Letter, ...]

    @property
    def area(self) -> float:
        """Return the area of all strokes [mm²], exact."""
        return sum(area_between(letter) for letter in self.letters)


def lettering(
    text: str,
    room: Outline,
    settings: PrintSettings,
    holes: Sequence[tuple[float, float, float]] = (),
    cuts: Sequence[Outline] = (),
    edge: float = EDGE,
) -> Lettering | None:
    """Return a text in the largest letters, 4 to 10 mm high, that find room; None where none do.

    The text goes in one to three lines, broken at spaces, into the face `room`. It keeps `edge`
    from the face's edge, from round `holes` (x, y, radius) and from `cuts` about the face's middle.
    Signs without a letter are left out; so is a text of none but such.
    """
    words = engravable(text).split()
    if not words:
        return None
    edge = max(edge, 2e3 * settings.nozzle)
    inner = room.grown(-edge)
    if min(inner.size) <= 0 or min(inner.core_x, inner.core_y) < 0:
        return None
    keep_off = [
        *((Outline(core_x=0.0, core_y=0.0, offset=radius + edge), x, y) for x, y, radius in holes),
        *((cut.grown(edge), 0.0, 0.0) for cut in cuts),
    ]
    for height in np.arange(LARGEST, LEAST - 1e-9, -FINER).tolist():
        stroke = max(2e3 * settings.nozzle, height / SLENDER)
        if height < STOUT * stroke - 1e-9:
            return None
        for lines in _broken(words):
            places = _places(lines, height, stroke, inner, keep_off)
            if places is not None:
                return _laid(lines, places, height, stroke)
    return None


def engraved(
    solid: Any, letters: Lettering, z: float, *, mirrored: bool, into: int
) -> tuple[Any, float]:
    """Return the solid with the text cut in, and the removed volume [mm³], exact.

    `z` is the level of the face, `into` the way of the cutter: +1 up, from a face on the print bed,
    -1 down, from an upper face. A text in a face that looks down is `mirrored`, so that it reads
    right when one looks at that face.
    """
    flip, low = -1.0 if mirrored else 1.0, z - into * THROUGH
    way = cq.Vector(0, 0, into * (DEPTH + THROUGH))
    cutters = []
    for letter in letters.letters:
        outer, *inner = (
            cq.Wire.makePolygon([cq.Vector(flip * x, y, low) for x, y in loop], close=True)
            for loop in letter
        )
        cutters.append(cq.Solid.extrudeLinear(outer, inner, way))
    cut = booleans.cut(solid, cq.Compound.makeCompound(cutters))
    return features.one_solid(cut), letters.area * DEPTH


def _broken(words: list[str]) -> Iterator[tuple[str, ...]]:
    """Yield the words in one line, in two, in three; the shortest longest line first."""
    for count in range(1, min(MOST_LINES, len(words)) + 1):
        ways = [
            tuple(
                " ".join(words[a:b])
                for a, b in zip((0, *breaks), (*breaks, len(words)), strict=True)
            )
            for breaks in combinations(range(1, len(words)), count - 1)
        ]
        yield from sorted(ways, key=lambda lines: max(_steps(line) for line in lines))


def _steps(line: str) -> float:
    """Return about how wide a line is, in steps."""
    return sum(SPACE if sign == " " else width(sign) + 2.0 for sign in line)


def _places(
    lines: tuple[str, ...],
    height: float,
    stroke: float,
    room: Outline,
    keep_off: list[tuple[Outline, float, float]],
) -> list[float] | None:
    """Return the heights of the lines' middles, as near together as may be; None without room."""
    reach = math.floor(room.size[1] / 2 / RASTER) * RASTER
    y = np.arange(reach, -reach - RASTER / 2, -RASTER)
    rows = math.ceil(PITCH * height / RASTER)  # from line to line
    cost = np.zeros(len(y))
    last: list[NDArray[np.int64]] = []
    for number, line in enumerate(lines):
        wide = _set(line, height, stroke)[1]
        ideal = ((len(lines) - 1) / 2 - number) * rows * RASTER
        free = _free(y, wide / 2, height / 2, room, keep_off)
        cost = np.where(free, cost + (y - ideal) ** 2, np.inf)
        best = np.minimum.accumulate(cost)
        came = np.maximum.accumulate(np.where(cost <= best, np.arange(len(y)), 0))
        last.append(came)
        cost = np.concatenate([np.full(rows, np.inf), best])[: len(y)]
    return _chosen(y, last, rows) if math.isfinite(best[-1]) else None


def _chosen(y: NDArray[np.float64], last: list[NDArray[np.int64]], rows: int) -> list[float]:
    at, places = len(y) - 1, []
    for came in reversed(last):
        at = int(came[at])
        places.append(float(y[at]))
        at -= rows
    return places[::-1]


def _free(
    y: NDArray[np.float64],
    half: float,
    tall: float,
    room: Outline,
    keep_off: list[tuple[Outline, float, float]],
) -> NDArray[np.bool_]:
    """Return at which heights a box of these half sides, in the middle, is in the room."""
    over_x = max(half - room.core_x / 2, 0.0)
    over_y = np.maximum(np.abs(y) + tall - room.core_y / 2, 0.0)
    free = np.hypot(over_x, over_y) <= room.offset + 1e-9
    for outline, at_x, at_y in keep_off:
        apart_x = max(abs(at_x) - half - outline.core_x / 2, 0.0)
        apart_y = np.maximum(np.abs(y - at_y) - tall - outline.core_y / 2, 0.0)
        free &= np.hypot(apart_x, apart_y) >= outline.offset - 1e-9
    return np.asarray(free)


def _set(line: str, height: float, stroke: float) -> tuple[list[tuple[str, float]], float]:
    """Return where every letter of a line starts, from its left end, and the line's width."""
    step = NARROW * (height - stroke) / HIGH
    gap = max(stroke, 0.16 * height)
    starts, at = [], 0.0
    for sign in line:
        if sign == " ":
            at += SPACE * step
            continue
        starts.append((sign, at))
        at += width(sign) * step + stroke + gap
    return starts, at - gap


def _laid(lines: tuple[str, ...], places: list[float], height: float, stroke: float) -> Lettering:
    letters = []
    for line, y in zip(lines, places, strict=True):
        starts, wide = _set(line, height, stroke)
        letters += [
            _letter(sign, x - wide / 2, y - height / 2, height, stroke) for sign, x in starts
        ]
    return Lettering(lines=lines, height=height, stroke=stroke, letters=tuple(letters))


def _letter(sign: str, left: float, low: float, height: float, stroke: float) -> Letter:
    """Return the loops of a letter whose box starts at (left, low)."""
    up = (height - stroke) / HIGH
    across, half = NARROW * up, stroke / 2
    chains = [
        [(left + half + x * across, low + half + y * up) for x, y in line]
        for line in centre_lines(sign)
    ]
    outer, *holes = stroked(chains, stroke)
    wide = width(sign) * across + stroke
    return (clipped(outer, (left, low), (left + wide, low + height)), *holes)
