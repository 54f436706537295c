"""The socket that a rod's end goes down into: ribs that give, and a floor that the foot's captive
screw cuts its thread in [mm]."""

from __future__ import annotations

from typing import Any

import cadquery as cq

from geometry.solids import booleans, features
from geometry.solids.fasteners import thread
from geometry.solids.outline import chamfered_volume, disc
from geometry.solids.part import CannotDraw, Part, Placement, mm
from isolator.design import Foot, PrintSettings, quantise
from isolator.design.attachment import SHORTEST_PLUG, SOCKET_FIT, SOCKET_WALL
from isolator.design.naming import slug
from isolator.design.screws import DIRECT_DEPTH, DIRECT_HOLE, DIRECT_WALL

FIT = mm(SOCKET_FIT)  # bore over the rod's diameter [mm]
RIB = 0.15  # by which a rib reaches inside the rod's radius, crushed when pressed on [mm]
RIBS = 6
RIB_WIDTH = 1.2  # [mm]
LEAD_IN = 1.6  # mouth without ribs that finds the rod [mm]
WALL = mm(SOCKET_WALL)
SHORTEST = mm(SHORTEST_PLUG)  # least length that holds the rod [mm]
RING = 0.5  # on which a rod's end bears round the thread; no source [mm]


def rod_socket(foot: Foot, settings: PrintSettings) -> Part:
    """Return the socket; it holds the rod over a length of its diameter, 12 mm at least."""
    name, rod = slug(foot.name, "socket"), mm(foot.rod)
    nominal = foot.thread
    row = thread(name, mm(nominal))
    floor = mm(DIRECT_DEPTH * nominal)
    held = max(mm(quantise(foot.rod, settings.layer)), SHORTEST)
    height, chamfer = floor + held, mm(settings.first_layer_chamfer)
    hole = DIRECT_HOLE * mm(nominal) + mm(settings.hole_compensation)
    if rod < hole + 2 * RING - 1e-9:
        raise CannotDraw(
            name,
            "rod",
            f"{rod:g} mm does not bear on the floor round the {row.name} thread; "
            f"{hole + 2 * RING:.2f} mm does",
        )
    # wall enough round the rod and round the thread
    more = mm(settings.hole_compensation)
    body = disc(max(rod + FIT + more + 2 * WALL, hole + 2 * DIRECT_WALL * mm(nominal)))
    bore, inner = disc(rod + FIT + more), disc(rod - 2 * RIB + more)
    ribs = _ribs(bore.offset, inner.offset, floor, height - LEAD_IN)
    room = booleans.cut(features.hole(2 * bore.offset, floor, height + 1.0), *ribs)
    solid = features.prism(body, 0.0, height, chamfer)
    solid = features.cut_all(
        solid, room, features.hole(hole, -1.0, floor + 0.5), features.relief(disc(hole))
    )
    volume = chamfered_volume(lambda inset: body.grown(-inset).area, chamfer, height)
    volume -= bore.area * held + features.hole_area(hole) * floor
    volume -= features.relief_volume(disc(hole))
    volume += RIBS * _rib_area(bore.offset, inner.offset) * (held - LEAD_IN)
    return Part(
        name=name,
        owner=foot.name,
        role="socket",
        quantity=len(foot.positions),
        solid=solid,
        material=settings.material,
        orientation="as drawn: the closed end lies on the bed, mouth up",
        notes=(
            f"the foot's {row.name} screw cuts its thread in the closed end: hold the socket and "
            "turn the foot; deburr the rod, press it in with glue: ribs only centre it",
        ),
        box=(2 * body.offset, 2 * body.offset, height),
        volume=volume,
        loaded=(),
        places=tuple(Placement(x=mm(x), y=mm(y), z=0.0, turned=False) for x, y in foot.positions),
    )


def _ribs(outer: float, inner: float, low: float, high: float) -> list[Any]:
    """Return the ribs between two radii, from `low` to `high`."""
    core = features.hole(2 * inner, low - 1.0, high + 1.0)
    bar = cq.Solid.makeBox(outer + 1.0, RIB_WIDTH, high - low, cq.Vector(0, -RIB_WIDTH / 2, low))
    one = booleans.cut(bar, core)
    axis = cq.Vector(0, 0, 0), cq.Vector(0, 0, 1)
    return [one.rotate(*axis, 360.0 / RIBS * turn) for turn in range(RIBS)]


def _rib_area(outer: float, inner: float) -> float:
    """Return the section of one rib between two circles [mm²]."""
    return (disc(2 * outer).strip_area(RIB_WIDTH) - disc(2 * inner).strip_area(RIB_WIDTH)) / 2
