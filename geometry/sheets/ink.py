"""Flat drawings as lines and words to print [mm]."""

from __future__ import annotations

import math

from geometry.finish.paper import TEXT, Ink, Line, Point, Written
from geometry.sheets.flat_drawing import Flat
from geometry.solids.outline import Outline

STEPS = 24  # chords of a quarter circle


def ink_of(drawing: Flat) -> Ink:
    """Return a flat drawing as lines and words."""
    lines = [
        Line(tuple((x + shape.x, y + shape.y) for x, y in around(shape.outline)), shape.layer)
        for shape in drawing.shapes
    ]
    lines += [Line((start, end), layer) for start, end, layer in drawing.strokes]
    words = tuple(Written(x, y, text, anchor, TEXT) for x, y, text, anchor in drawing.words)
    return Ink(lines=tuple(lines), words=words, bounds=drawing.bounds())


def around(outline: Outline) -> tuple[Point, ...]:
    """Return a closed outline as points, quarter circles as chords."""
    a, b, o = outline.core_x / 2, outline.core_y / 2, outline.offset
    found: list[Point] = []
    for number, (x, y) in enumerate(((a, b), (-a, b), (-a, -b), (a, -b))):
        turns = [number * math.pi / 2 + i * math.pi / 2 / STEPS for i in range(STEPS + 1)]
        found += [(x + o * math.cos(t), y + o * math.sin(t)) for t in (turns if o > 0 else [0.0])]
    return (*found, found[0])
