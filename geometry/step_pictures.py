"""Pictures of assembly steps: what is there pale, what is added in its colour, pulled apart."""

from __future__ import annotations

from typing import Any

import cadquery as cq
import numpy as np

from geometry import features
from geometry.assembly import COLOURS
from geometry.fasteners import thread
from geometry.flange import flange
from geometry.hidden import hidden, hides
from geometry.mesh import Mesh, tessellate
from geometry.outline import pad_outlines
from geometry.part import Body, Part, mm
from geometry.picture import COARSE_ANGLE, standing_alone
from geometry.raster import Colour, View, render
from geometry.verify import bounds
from isolator.design import Foot, PrintSettings, attachment_thread
from isolator.design.attachment import FLANGED, head

SIZE = (420, 330)  # [pixels]
CHORD = 0.15  # error in these pictures [mm]
PALE = 0.72  # share of white in what was there before
APART = 0.18  # between two bodies, in widths of the widest
SHANK = 14.0  # of a screw above the frame's underside [mm]


def step_picture(
    foot: Foot, parts: list[Part], settings: PrintSettings, there: tuple[str, ...],
    adds: tuple[str, ...], hardware: str, size: tuple[int, int] = SIZE,
) -> bytes:  # fmt: skip
    """Return one foot in a step: the roles `there` pale, those it `adds` in colour, in the order
    in which they hang from the frame.

    `hardware` adds its "screws", where they come from, or what is "held" in its cap; or nothing.
    """
    shown = [
        body for body in standing_alone(foot, parts) if body.role in (*there, *adds)
    ]  # fmt: skip
    shown.sort(key=lambda body: (-round(bounds(body.solid)[5], 6), round(bounds(body.solid)[2], 6)))
    apart = APART * max(max(_sides(body)) for body in shown)
    items: list[tuple[Mesh, Colour]] = []
    lowest, down = 0.0, 0.0
    for number, body in enumerate(shown):
        low, top = bounds(body.solid)[2::3]
        fresh = body.role in adds
        # what is added hangs clear of what is above it; what stood together before stays so
        if number and (fresh or shown[number - 1].role in adds):
            down = max(down, top - lowest + apart)
        items.append((
            _lowered(body.solid, down), COLOURS[body.role] if fresh else _pale(COLOURS[body.role])
        ))  # fmt: skip
        lowest = min(lowest, low - down) if number else low
    upwards = bool(hardware) and not (hardware == "screws" and _from_above(foot))
    for each in _hardware(foot, settings, hardware):
        top = bounds(each)[5]
        by = down + SHANK if not hides(foot) else apart + top - lowest
        items.append((_lowered(each, by if upwards else -apart), COLOURS["screw"]))
    return render(items, View(azimuth=-60, elevation=-22 if upwards else 20), size)


def _from_above(foot: Foot) -> bool:
    return foot.fixing in ("nut", "insert", "direct")


def _lowered(solid: Any, by: float) -> Mesh:
    mesh = tessellate(solid, CHORD, COARSE_ANGLE)
    return Mesh(vertices=mesh.vertices - np.array([0.0, 0.0, by]), triangles=mesh.triangles)


def _pale(colour: Colour) -> Colour:
    red, green, blue = (PALE + (1.0 - PALE) * part for part in colour)
    return red, green, blue


def _hardware(foot: Foot, settings: PrintSettings, which: str) -> list[Any]:
    """Return a foot's screws, or what its cap holds, where they go."""
    if not which or not (hides(foot) or foot.attachment in FLANGED):
        return []
    nominal = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    across, tall = (mm(each) for each in head(foot.attachment, nominal))
    if foot.attachment in FLANGED:
        outer = pad_outlines(foot.pad)[0]
        body = outer if foot.kind == "printed" else outer.grown(mm(foot.side_room) + mm(foot.wall))
        held = flange("", foot, body, settings.hole_compensation, float("inf"))
        one = _screw(mm(nominal), across, tall, -mm(foot.cap), False)
        return [one.moved(cq.Location(cq.Vector(x, -y, 0))) for x, y in held.places]
    plate = pad_outlines(foot.pad)[0].grown(1000.0)  # it was measured when the foot was drawn
    inside = hidden("", foot, plate, settings.hole_compensation, settings.layer)
    row = thread("", mm(nominal))
    if which == "held":
        low = -inside.ceiling
        body = (
            features.hexagon(row.across_flats, low, low + row.nut)
            if inside.flats > 0
            else cq.Solid.makeCylinder(inside.across / 2, inside.depth, cq.Vector(0, 0, low))
        )
        return [features.cut_all(body, features.hole(mm(nominal), low - 1.0, 1.0))]
    if _from_above(foot):
        one = _screw(mm(nominal), across, tall, 0.0, False)
        return [one.rotate(cq.Vector(0, 0, 0), cq.Vector(1, 0, 0), 180.0).moved(
            cq.Location(cq.Vector(0, 0, SHANK)))]  # fmt: skip
    if foot.attachment == "tapped-end":
        return [_screw(mm(nominal), across, tall, -inside.through, False)]
    return [_screw(mm(nominal), row.across_flats, row.head, -inside.through, True)]


def _screw(thick: float, across: float, tall: float, under: float, hexagon: bool) -> Any:
    """Return a screw that points up, its head hanging from z = `under`."""
    top = (
        features.hexagon(across, under - tall, under)
        if hexagon
        else cq.Solid.makeCylinder(across / 2, tall, cq.Vector(0, 0, under - tall))
    )
    shank = cq.Solid.makeCylinder(thick / 2, SHANK - under, cq.Vector(0, 0, under))
    return features.one_solid(top.fuse(shank).clean())


def _sides(body: Body) -> tuple[float, float]:
    low_x, low_y, _, high_x, high_y, _ = bounds(body.solid)
    return high_x - low_x, high_y - low_y
