"""Section through one unloaded foot with its main dimensions, as SVG taken from the solids [mm]."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Any

import cadquery as cq
from OCP.BRepTools import BRepTools_WireExplorer

from geometry.assembly import COLOURS
from geometry.pictures.picture import standing_alone
from geometry.solids import booleans
from geometry.solids.outline import pad_outlines
from geometry.solids.part import Part, mm
from isolator.design import Foot

WIDTH = 480  # of the picture [pixels]
INK = "#333"

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Page:
    """Size of the writing and of what goes with it [mm]."""

    text: float

    def line(self, a: Point, b: Point, arrows: bool) -> str:
        ends = ' marker-start="url(#tick)" marker-end="url(#tick)"' if arrows else ""
        return f'<path d="M{a[0]:.3f} {-a[1]:.3f}L{b[0]:.3f} {-b[1]:.3f}"{ends}/>'

    def words(self, at: Point, text: str, anchor: str) -> str:
        return (
            f'<text x="{at[0]:.3f}" y="{-at[1] + 0.35 * self.text:.3f}" '
            f'text-anchor="{anchor}">{text}</text>'
        )


def section_svg(foot: Foot, parts: list[Part]) -> str:
    """Return the section at y = 0 of a foot as assembled, dimensioned in millimetres.

    Heights of cap, pad and sole stand on the left, the gap that closes at the hard stop and the
    whole height on the right, widths below. Every outline is cut from the solids as drawn.
    """
    shapes = [
        (body.role, polygon)
        for body in standing_alone(foot, parts)
        for polygon in _polygons(body.solid)
    ]
    every = [point for _, polygon in shapes for point in polygon]
    left, right = min(x for x, _ in every), max(x for x, _ in every)
    top = max(z for _, z in every)
    text = 0.085 * (right - left) + 0.4  # in a hand, 370 pixels wide, near 12 pixels
    page = _Page(text=text)
    low = -(mm(foot.cap) + mm(foot.pad.thickness) + mm(foot.sole))
    drawn = "".join(_shape(role, polygon) for role, polygon in shapes)
    groups = (_heights(page, foot, left), _right(page, foot, right), _widths(page, foot, low))
    lines, words = ("".join(group[i] for group in groups) for i in (0, 1))
    x0, x1 = left - 9.5 * text, right + 11 * text
    y0, y1 = top + 1.5 * text, low - 6 * text
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{WIDTH}" '
        f'height="{WIDTH * (y0 - y1) / (x1 - x0):.0f}" role="img" '
        f'viewBox="{x0:.3f} {-y0:.3f} {x1 - x0:.3f} {y0 - y1:.3f}">'
        f'<defs><marker id="tick" markerWidth="8" markerHeight="8" refX="4" refY="4" '
        f'orient="auto"><path d="M1.5 6.5L6.5 1.5" stroke="{INK}"/></marker></defs>'
        f'<g stroke="{INK}" stroke-width="{0.06 * text:.3f}" stroke-linejoin="round">{drawn}</g>'
        f'<g stroke="{INK}" stroke-width="{0.045 * text:.3f}" fill="none">{lines}</g>'
        f'<g font-family="sans-serif" font-size="{text:.3f}" fill="{INK}">{words}</g>'
        "</svg>\n"
    )


def _heights(page: _Page, foot: Foot, left: float) -> tuple[str, str]:
    """Draw the chain of cap, pad and sole left of the foot."""
    x, t = left - 1.6 * page.text, page.text
    cap, pad, sole = mm(foot.cap), mm(foot.pad.thickness), mm(foot.sole)
    levels = (0.0, -cap, -cap - pad, -cap - pad - sole)
    lines = "".join(page.line((x - 0.5 * t, z), (left - 0.3 * t, z), False) for z in levels)
    lines += "".join(page.line((x, a), (x, b), True) for a, b in pairwise(levels))
    names = (f"cap {cap:g}", f"pad {pad:g}", f"sole {sole:g}")
    middle = (levels[1] + levels[2]) / 2
    above = max((levels[0] + levels[1]) / 2, middle + 1.2 * t)
    below = min((levels[2] + levels[3]) / 2, middle - 1.2 * t)
    words = "".join(
        page.words((x - 0.9 * t, z), name, "end")
        for z, name in zip((above, middle, below), names, strict=True)
    )
    return lines, words


def _right(page: _Page, foot: Foot, right: float) -> tuple[str, str]:
    """Draw the gap of the hard stop and the whole height right of the foot."""
    t = page.text
    cap, pad, sole = mm(foot.cap), mm(foot.pad.thickness), mm(foot.sole)
    low = -cap - pad - sole
    far = right + (7.4 if foot.build.rimmed else 1.6) * t
    lines = "".join(page.line((right + 0.3 * t, z), (far + 0.5 * t, z), False) for z in (0.0, low))
    lines += page.line((far, 0.0), (far, low), True)
    words = page.words((far + 0.7 * t, low / 2), f"{-low:g}", "start")
    if foot.build.rimmed:
        rim, face = -cap - (pad - mm(foot.stop)), -cap - pad
        x = right + 1.6 * t
        lines += "".join(
            page.line((right + 0.3 * t, z), (x + 0.5 * t, z), False) for z in (rim, face)
        )
        lines += page.line((x, rim), (x, face), True)
        words += page.words((x + 0.7 * t, (rim + face) / 2), f"stop {mm(foot.stop):g}", "start")
    return lines, words


def _widths(page: _Page, foot: Foot, low: float) -> tuple[str, str]:
    """Draw the pad's width and the foot's below it."""
    t = page.text
    pad = pad_outlines(foot.pad)[0]
    rows = [(pad.size[0], f"pad {pad.size[0]:g}")]
    if foot.build.rimmed:
        whole = pad.size[0] + 2 * (mm(foot.side_room) + mm(foot.wall))
        rows.append((whole, f"{whole:g}, side room {mm(foot.side_room):g}, wall {mm(foot.wall):g}"))
    lines = words = ""
    for number, (width, name) in enumerate(rows):
        z = low - (1.0 + 2.4 * number) * t
        lines += page.line((-width / 2, z), (width / 2, z), True)
        lines += "".join(
            page.line((x, low - 0.3 * t), (x, z - 0.5 * t), False) for x in (-width / 2, width / 2)
        )
        words += page.words((0.0, z - 0.8 * t), name, "middle")
    return lines, words


def _polygons(solid: Any) -> list[list[Point]]:
    """Return the closed outlines (x, z) in which the plane y = 0 cuts a solid."""
    plane = cq.Face.makePlane(2000.0, 2000.0, cq.Vector(0, 0, 0), cq.Vector(0, -1, 0))
    return [_corners(face.outerWire()) for face in booleans.common(plane, solid).Faces()]


def _corners(wire: Any) -> list[Point]:
    explorer = BRepTools_WireExplorer(wire.wrapped)
    points = []
    while explorer.More():
        x, _, z = cq.Vertex(explorer.CurrentVertex()).toTuple()
        points.append((x, z))
        explorer.Next()
    return points


def _shape(role: str, polygon: list[Point]) -> str:
    red, green, blue = (round(255 * part) for part in COLOURS[role])
    path = "L".join(f"{x:.3f} {-z:.3f}" for x, z in polygon)
    return f'<path d="M{path}Z" fill="rgb({red},{green},{blue})"/>'
