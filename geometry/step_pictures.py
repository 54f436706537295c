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
APART = 0.30  # between two bodies, in widths of the widest
SHANK = 14.0  # of a screw above the frame's underside [mm]


def step_picture(
    foot: Foot, parts: list[Part], settings: PrintSettings, there: tuple[str, ...],
    adds: tuple[str, ...], screws: bool, size: tuple[int, int] = SIZE,
) -> bytes:  # fmt: skip
    """Return one foot in a step: the roles `there` pale, those it `adds` in colour, in the order
    in which they hang from the frame, and its screws on demand."""
    shown = [
        body for body in standing_alone(foot, parts) if body.role in (*there, *adds)
    ]  # fmt: skip
    shown.sort(key=lambda body: (-round(bounds(body.solid)[5], 6), round(bounds(body.solid)[2], 6)))
    apart = APART * max(max(_sides(body)) for body in shown)
    items: list[tuple[Mesh, Colour]] = []
    fresh = [body.role in adds for body in shown]
    down = 0.0
    for number, body in enumerate(shown):
        # what stood together before stays together
        if number and (fresh[number] or fresh[number - 1]):
            down += apart
        colour = COLOURS[body.role] if fresh[number] else _pale(COLOURS[body.role])
        items.append((_lowered(body.solid, down), colour))
    if screws:
        items += [(_lowered(each, down + apart), COLOURS["screw"]) for each in _screws(
            foot, settings)]  # fmt: skip
    return render(items, View(azimuth=-60, elevation=-22 if screws else 20), size)


def _lowered(solid: Any, by: float) -> Mesh:
    mesh = tessellate(solid, CHORD, COARSE_ANGLE)
    return Mesh(vertices=mesh.vertices - np.array([0.0, 0.0, by]), triangles=mesh.triangles)


def _pale(colour: Colour) -> Colour:
    red, green, blue = (PALE + (1.0 - PALE) * part for part in colour)
    return red, green, blue


def _screws(foot: Foot, settings: PrintSettings) -> list[Any]:
    """Return a foot's screws as they stand up through it, heads below."""
    nominal = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    across, tall = (mm(each) for each in head(foot.attachment, nominal))
    if foot.attachment in FLANGED:
        room = pad_outlines(foot.pad)[0].grown(mm(foot.side_room) + mm(foot.wall))
        body = pad_outlines(foot.pad)[0] if foot.kind == "printed" else room
        held = flange("", foot, body, settings.hole_compensation, float("inf"))
        one = _screw(mm(nominal), across, tall, -mm(foot.cap), False)
        return [one.moved(cq.Location(cq.Vector(x, -y, 0))) for x, y in held.places]
    if not hides(foot):
        return []
    plate = pad_outlines(foot.pad)[0].grown(1000.0)  # it was measured when the foot was drawn
    held_in = hidden("", foot, plate, settings.hole_compensation, settings.layer)
    if foot.attachment == "tapped-end":
        return [_screw(mm(nominal), across, tall, -held_in.through, False)]
    row = thread("", mm(nominal))
    return [_screw(mm(nominal), row.across_flats, row.head, -held_in.through, True)]


def _screw(thick: float, across: float, tall: float, under: float, hexagon: bool) -> Any:
    """Return a screw that points up, its head hanging from z = `under`."""
    up = cq.Vector(0, 0, 0)
    top = (
        features.hexagon(across, under - tall, under)
        if hexagon
        else cq.Solid.makeCylinder(across / 2, tall, cq.Vector(0, 0, under - tall))
    )
    shank = cq.Solid.makeCylinder(thick / 2, SHANK - under, up + cq.Vector(0, 0, under))
    return features.one_solid(top.fuse(shank).clean())


def _sides(body: Body) -> tuple[float, float]:
    low_x, low_y, _, high_x, high_y, _ = bounds(body.solid)
    return high_x - low_x, high_y - low_y
