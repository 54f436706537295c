"""A flat drawing at true scale with named layers, as SVG and as DXF, the same bytes each time [mm].

x to the right, y up. Layers: CUT what a knife follows, EDGE what is there already, PAD where
something is glued, NOTE all else.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, NamedTuple
from xml.sax.saxutils import escape

import ezdxf
from ezdxf import units
from ezdxf.enums import TextEntityAlignment

from geometry.finish.paper import LAYERS, PEN, TEXT
from geometry.sheets.dxf import dxf_bytes
from geometry.solids.outline import Outline

MARGIN = 6.0  # round all that is drawn [mm]
LETTER = 0.62  # width of a letter over its height, for the room that a line of text takes
RULER = 100.0  # line to hold against a rule after printing [mm]
ANCHORS = {
    "start": (0.0, TextEntityAlignment.LEFT),
    "middle": (0.5, TextEntityAlignment.CENTER),
    "end": (1.0, TextEntityAlignment.RIGHT),
}
"""Part of a text that lies to the left of its place, and its name in DXF."""


class Shape(NamedTuple):
    """An outline about (x, y): a circle or a rectangle with sharp corners."""

    outline: Outline
    x: float
    y: float
    layer: str

    @property
    def round(self) -> bool:
        """Return whether it is a circle."""
        return self.outline.core_x == 0 and self.outline.core_y == 0


class Straight(NamedTuple):
    """A straight line."""

    start: tuple[float, float]
    end: tuple[float, float]
    layer: str = "NOTE"


class Word(NamedTuple):
    """A line of text: its baseline starts at (x, y), has its middle or ends there."""

    x: float
    y: float
    text: str
    anchor: str = "start"  # "middle", "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class Flat:
    """A flat drawing [mm]."""

    shapes: tuple[Shape, ...]
    strokes: tuple[Straight, ...]
    words: tuple[Word, ...]

    def bounds(self) -> tuple[float, float, float, float]:
        """Return least x, least y, greatest x and greatest y of all that is drawn."""
        points = [each for stroke in self.strokes for each in (stroke.start, stroke.end)]
        for shape in self.shapes:
            half_x, half_y = (side / 2 for side in shape.outline.size)
            points += [(shape.x - half_x, shape.y - half_y), (shape.x + half_x, shape.y + half_y)]
        for word in self.words:
            long = LETTER * TEXT * len(word.text)
            start = word.x - long * ANCHORS[word.anchor][0]
            points += [(start, word.y - 0.3 * TEXT), (start + long, word.y + TEXT)]
        x, y = zip(*points, strict=True)
        return min(x), min(y), max(x), max(y)


def legend(left: float, low: float, lines: tuple[str, ...]) -> Flat:
    """Return a ruler that starts at (left, low) and lines of text under it."""
    ruler = [Straight((left, low), (left + RULER, low))]
    for number in range(11):
        at, tall = left + number * RULER / 10, 3.0 if number % 5 == 0 else 1.5
        ruler.append(Straight((at, low), (at, low + tall)))
    told = (*lines, f"the line is {RULER:g} mm long")
    words = (Word(left, low - (i + 1) * 1.8 * TEXT, line) for i, line in enumerate(told))
    return Flat(shapes=(), strokes=tuple(ruler), words=tuple(words))


def joined(*drawings: Flat) -> Flat:
    """Return all drawings in one."""
    return Flat(
        shapes=tuple(each for one in drawings for each in one.shapes),
        strokes=tuple(each for one in drawings for each in one.strokes),
        words=tuple(each for one in drawings for each in one.words),
    )


def flat_svg(drawing: Flat) -> str:
    """Return the SVG, its size in mm and one user unit to the millimetre."""
    low_x, low_y, high_x, high_y = drawing.bounds()
    wide, high = high_x - low_x + 2 * MARGIN, high_y - low_y + 2 * MARGIN
    groups = []
    for layer, (colour, _) in LAYERS.items():
        inside = "".join(_svg_shape(each) for each in drawing.shapes if each.layer == layer)
        inside += "".join(
            f'<path d="M{a:.6g} {-b:.6g}L{c:.6g} {-d:.6g}"/>'
            for (a, b), (c, d), of in drawing.strokes
            if of == layer
        )
        if inside:
            groups.append(f'<g class="{layer}" stroke="{colour}">{inside}</g>')
    words = "".join(
        f'<text x="{x:.6g}" y="{-y:.6g}" text-anchor="{anchor}">{escape(text)}</text>'
        for x, y, text, anchor in drawing.words
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{wide:.6g}mm" height="{high:.6g}mm" '
        f'viewBox="{low_x - MARGIN:.6g} {-high_y - MARGIN:.6g} {wide:.6g} {high:.6g}">'
        f'<g fill="none" stroke-width="{PEN:g}">{"".join(groups)}</g>'
        f'<g font-family="sans-serif" font-size="{TEXT:g}" fill="#333">{words}</g></svg>\n'
    )


def flat_dxf(drawing: Flat) -> bytes:
    """Return the DXF (R2010, millimetres), a layer of its own for each kind of line."""
    return dxf_bytes(lambda: _document(drawing))


def _document(drawing: Flat) -> Any:
    document = ezdxf.new("R2010", setup=False)
    document.units = units.MM
    for layer, (_, colour) in LAYERS.items():
        document.layers.add(layer, color=colour)
    space = document.modelspace()
    for shape in drawing.shapes:
        on = {"layer": shape.layer}
        if shape.round:
            space.add_circle((shape.x, shape.y), shape.outline.offset, dxfattribs=on)
        else:
            space.add_lwpolyline(_corners(shape), close=True, dxfattribs=on)
    for start, end, layer in drawing.strokes:
        space.add_line(start, end, dxfattribs={"layer": layer})
    for x, y, words, anchor in drawing.words:
        text = space.add_text(words, height=TEXT, dxfattribs={"layer": "NOTE"})
        text.set_placement((x, y), align=ANCHORS[anchor][1])
    return document


def _corners(shape: Shape) -> list[tuple[float, float]]:
    a, b = (side / 2 for side in shape.outline.size)
    x, y = shape.x, shape.y
    return [(x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b)]


def _svg_shape(shape: Shape) -> str:
    if shape.round:
        return f'<circle cx="{shape.x:.6g}" cy="{-shape.y:.6g}" r="{shape.outline.offset:.6g}"/>'
    (left, _), (_, top) = _corners(shape)[0], _corners(shape)[2]
    wide, high = shape.outline.size
    return f'<rect x="{left:.6g}" y="{-top:.6g}" width="{wide:.6g}" height="{high:.6g}"/>'
