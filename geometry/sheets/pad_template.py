"""Templates at true scale for cutting rubber and foam from sheet: DXF and SVG [mm]."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any
from xml.sax.saxutils import escape

import ezdxf
from ezdxf import units

from geometry.finish.paper import Ink, Line, Written
from geometry.sheets.dxf import dxf_bytes
from geometry.sheets.ink import around
from geometry.solids.outline import Outline, pad_outlines
from geometry.solids.part import mm
from isolator.design import Foot, Pad

RULER = 50.0  # line to hold against a rule after printing [mm]
MARGIN = 5.0
TEXT = 3.0  # height of the writing [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Template:
    """What a template shows [mm]: outlines to cut, each about a middle; an outline for orientation
    or None; lines of text."""

    cut: tuple[tuple[Outline, float, float], ...]
    round: Outline | None
    text: tuple[str, ...]

    @property
    def size(self) -> tuple[float, float]:
        """Return the widths in x and y of all outlines, which lie about the origin."""
        every = [*self.cut, *([] if self.round is None else [(self.round, 0.0, 0.0)])]
        wide = max(2 * abs(x) + outline.size[0] for outline, x, _ in every)
        high = max(2 * abs(y) + outline.size[1] for outline, _, y in every)
        return wide, high


def template_area(pad: Pad) -> float:
    """Return the area of the pad's face in closed form [mm²]."""
    outer, inner = pad_outlines(pad)
    return outer.area - (0.0 if inner is None else inner.area)


def template_text(foot: Foot) -> tuple[str, ...]:
    """Return the lines written on a template: what it is, of what, how many."""
    pad, count = foot.pad, len(foot.positions)
    layer = mm(pad.thickness) / pad.layers
    return (
        f"{foot.name}: pad, {pad.shape}",
        f"{pad.material}, {layer:g} mm, {pad.layers} per foot, cut {pad.layers * count}",
        f"line: {RULER:g} mm",
    )


def template_of(foot: Foot) -> Template:
    """Return the template of a foot's pad."""
    cut = tuple((each, 0.0, 0.0) for each in pad_outlines(foot.pad) if each is not None)
    return Template(cut=cut, round=None, text=template_text(foot))


def template_ink(template: Template) -> Ink:
    """Return a template as it is printed on paper."""
    (wide, high), (left, low) = template.size, _below(template)
    lines = [
        Line(tuple((a + x, b + y) for a, b in around(outline)), "CUT")
        for outline, x, y in template.cut
    ]
    if template.round is not None:
        lines.append(Line(around(template.round), "NOTE"))
    words = tuple(
        Written(left, low + MARGIN - (number + 1) * 2 * TEXT, line, "start", TEXT)
        for number, line in enumerate(template.text[:-1])  # every sheet of paper has its own ruler
    )
    long = max(0.6 * TEXT * len(word.text) for word in words)
    bounds = (left, words[-1].y - TEXT, max(wide / 2, left + long), high / 2)
    return Ink(lines=tuple(lines), words=words, bounds=bounds)


def template_dxf(template: Template) -> bytes:
    """Return the DXF (R2010, millimetres): layer CUT the outlines, NOTE all that is not cut."""
    return dxf_bytes(lambda: _drawing(template))


def _drawing(template: Template) -> Any:
    drawing = ezdxf.new("R2010", setup=False)
    drawing.units = units.MM
    drawing.layers.add("CUT", color=7)
    drawing.layers.add("NOTE", color=8)
    space = drawing.modelspace()
    for outline, x, y in template.cut:
        if outline.core_x == 0 and outline.core_y == 0:
            space.add_circle((x, y), outline.offset, dxfattribs={"layer": "CUT"})
        else:
            space.add_lwpolyline(_corners(outline, x, y), close=True, dxfattribs={"layer": "CUT"})
    if template.round is not None:
        space.add_lwpolyline(
            _rounded(template.round), format="xyb", close=True, dxfattribs={"layer": "NOTE"}
        )
    left, low = _below(template)
    space.add_line((left, low), (left + RULER, low), dxfattribs={"layer": "NOTE"})
    for end in (left, left + RULER):
        space.add_line((end, low - 1.5), (end, low + 1.5), dxfattribs={"layer": "NOTE"})
    for number, line in enumerate(template.text):
        text = space.add_text(line, height=TEXT, dxfattribs={"layer": "NOTE"})
        text.set_placement((left, low - (number + 1) * 2 * TEXT))
    return drawing


def template_svg(template: Template) -> str:
    """Return the SVG, its size in mm and one user unit to the millimetre."""
    lines, (wide, high) = template.text, template.size
    longest = max(len(line) for line in lines) * 0.6 * TEXT
    width = max(wide, RULER, longest) + 2 * MARGIN
    height = high + 3 * MARGIN + 2 * TEXT * (len(lines) + 1)
    left, low = _below(template)
    middle_x, middle_y = MARGIN - left, MARGIN + high / 2
    shapes = "".join(_svg_outline(*each) for each in template.cut)
    ruler = (
        f'<path d="M{left:g} {-low:g}h{RULER:g}m0 -1.5v3M{left:g} {-low - 1.5:g}v3" '
        'fill="none" stroke="#555" stroke-width="0.25"/>'
    )
    if template.round is not None:
        size = template.round.size
        ruler += (
            f'<rect x="{-size[0] / 2:.6g}" y="{-size[1] / 2:.6g}" width="{size[0]:.6g}" '
            f'height="{size[1]:.6g}" rx="{template.round.offset:.6g}" fill="none" '
            'stroke="#999" stroke-width="0.2" stroke-dasharray="2 1"/>'
        )
    words = "".join(
        f'<text x="{left:g}" y="{-low + (i + 1) * 2 * TEXT:g}">{escape(line)}</text>'
        for i, line in enumerate(lines)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
        f'viewBox="{-middle_x:g} {-middle_y:g} {width:g} {height:g}">'
        f'<g fill="none" stroke="#000" stroke-width="0.2">{shapes}</g>{ruler}'
        f'<g font-family="sans-serif" font-size="{TEXT:g}" fill="#333">{words}</g></svg>\n'
    )


def _below(template: Template) -> tuple[float, float]:
    """Return where the ruler starts: under the outlines' left edge (y up)."""
    wide, high = template.size
    return -wide / 2, -high / 2 - MARGIN


def _corners(outline: Outline, x: float, y: float) -> list[tuple[float, float]]:
    a, b = outline.core_x / 2, outline.core_y / 2
    return [(x - a, y - b), (x + a, y - b), (x + a, y + b), (x - a, y + b)]


def _rounded(outline: Outline) -> list[tuple[float, float, float]]:
    """Return corner points and bulges of an outline with round corners, anticlockwise."""
    a, b, o = outline.core_x / 2, outline.core_y / 2, outline.offset
    bulge = math.tan(math.pi / 8)  # of a quarter circle
    return [
        (a + o, -b, 0.0),
        (a + o, b, bulge),
        (a, b + o, 0.0),
        (-a, b + o, bulge),
        (-a - o, b, 0.0),
        (-a - o, -b, bulge),
        (-a, -b - o, 0.0),
        (a, -b - o, bulge),
    ]


def _svg_outline(outline: Outline, x: float, y: float) -> str:
    if outline.core_x == 0 and outline.core_y == 0:
        where = f'cx="{x:.6g}" cy="{-y:.6g}" ' if (x, y) != (0.0, 0.0) else ""
        return f'<circle {where}r="{outline.offset:.6g}"/>'
    (left, _), (_, top) = _corners(outline, x, y)[0], _corners(outline, x, y)[2]
    width, height = outline.size
    return f'<rect x="{left:.6g}" y="{-top:.6g}" width="{width:.6g}" height="{height:.6g}"/>'
