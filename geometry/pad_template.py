"""Templates at true scale for cutting pads from sheet: DXF and SVG [mm]."""

from __future__ import annotations

import io
from xml.sax.saxutils import escape

import ezdxf
from ezdxf import units

from geometry.outline import Outline, pad_outlines
from geometry.part import mm
from isolator.design import Foot, Pad

RULER = 50.0  # line to hold against a rule after printing [mm]
MARGIN = 5.0
TEXT = 3.0  # height of the writing [mm]


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


def template_dxf(foot: Foot) -> bytes:
    """Return the DXF (R2010, millimetres): layer CUT the outlines, layer NOTE ruler and text."""
    drawing = ezdxf.new("R2010", setup=False)
    drawing.units = units.MM
    drawing.layers.add("CUT", color=7)
    drawing.layers.add("NOTE", color=8)
    space = drawing.modelspace()
    for outline in pad_outlines(foot.pad):
        if outline is None:
            continue
        if outline.core_x == 0 and outline.core_y == 0:
            space.add_circle((0, 0), outline.offset, dxfattribs={"layer": "CUT"})
        else:
            space.add_lwpolyline(_corners(outline), close=True, dxfattribs={"layer": "CUT"})
    left, low = _below(foot.pad)
    space.add_line((left, low), (left + RULER, low), dxfattribs={"layer": "NOTE"})
    for end in (left, left + RULER):
        space.add_line((end, low - 1.5), (end, low + 1.5), dxfattribs={"layer": "NOTE"})
    for number, line in enumerate(template_text(foot)):
        text = space.add_text(line, height=TEXT, dxfattribs={"layer": "NOTE"})
        text.set_placement((left, low - (number + 1) * 2 * TEXT))
    out = io.StringIO()
    drawing.write(out)
    return out.getvalue().encode("utf-8")


def template_svg(foot: Foot) -> str:
    """Return the SVG, its size in mm and one user unit to the millimetre."""
    outer = pad_outlines(foot.pad)[0]
    lines = template_text(foot)
    longest = max(len(line) for line in lines) * 0.6 * TEXT
    width = max(outer.size[0], RULER, longest) + 2 * MARGIN
    height = outer.size[1] + 3 * MARGIN + 2 * TEXT * (len(lines) + 1)
    left, low = _below(foot.pad)
    middle_x, middle_y = MARGIN - left, MARGIN + outer.size[1] / 2
    shapes = [_svg_outline(o) for o in pad_outlines(foot.pad) if o is not None]
    ruler = (
        f'<path d="M{left:g} {-low:g}h{RULER:g}m0 -1.5v3M{left:g} {-low - 1.5:g}v3" '
        'fill="none" stroke="#555" stroke-width="0.25"/>'
    )
    words = "".join(
        f'<text x="{left:g}" y="{-low + (i + 1) * 2 * TEXT:g}">{escape(line)}</text>'
        for i, line in enumerate(lines)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width:g}mm" height="{height:g}mm" '
        f'viewBox="{-middle_x:g} {-middle_y:g} {width:g} {height:g}">'
        f'<g fill="none" stroke="#000" stroke-width="0.2">{"".join(shapes)}</g>{ruler}'
        f'<g font-family="sans-serif" font-size="{TEXT:g}" fill="#333">{words}</g></svg>\n'
    )


def _below(pad: Pad) -> tuple[float, float]:
    """Return where the ruler starts: under the outline's left edge (y up)."""
    size_x, size_y = pad_outlines(pad)[0].size
    return -size_x / 2, -size_y / 2 - MARGIN


def _corners(outline: Outline) -> list[tuple[float, float]]:
    a, b = outline.core_x / 2, outline.core_y / 2
    return [(-a, -b), (a, -b), (a, b), (-a, b)]


def _svg_outline(outline: Outline) -> str:
    if outline.core_x == 0 and outline.core_y == 0:
        return f'<circle r="{outline.offset:.6g}"/>'
    (x, y), (width, height) = _corners(outline)[0], outline.size
    return f'<rect x="{x:.6g}" y="{y:.6g}" width="{width:.6g}" height="{height:.6g}"/>'
