"""The plug that goes up into a tube end: ribs that give, and a nut for the foot's captive screw."""

from __future__ import annotations

import math
from typing import Any

import cadquery as cq

from geometry.solids import booleans, features
from geometry.solids.fasteners import thread
from geometry.solids.outline import chamfered_volume, disc
from geometry.solids.part import CannotDraw, Part, Placement, mm
from isolator import design as shared
from isolator.design import Foot, PrintSettings, quantise
from isolator.design.attachment import PLUG_NUT, SHORTEST_PLUG
from isolator.design.naming import slug

FIT = 0.5  # plug body under the tube's inner diameter [mm]
RIB = 0.15  # height of a rib over the tube's inner radius, crushed when pressed in [mm]
RIBS = 6
RIB_WIDTH = 1.2  # [mm]
LEAD_IN = 1.6  # end without ribs that finds the tube [mm]
WALL = 1.2  # least wall round the nut's corners [mm]
HEX_FIT = mm(shared.HEX_FIT)


def tube_plug(foot: Foot, settings: PrintSettings) -> Part:
    """Return the plug, as long as the tube is wide (guided as far as it is thick)."""
    name = slug(foot.name, "plug")
    tube, hole_more = mm(foot.tube), mm(settings.hole_compensation)
    row = thread(name, mm(foot.thread))
    flats = row.across_flats + HEX_FIT + hole_more
    body = disc(tube - FIT)
    least = 2 * flats / math.sqrt(3) + 2 * WALL + FIT
    if tube < least:
        raise CannotDraw(
            name,
            "tube",
            f"{tube:g} mm cannot take a plug with an {row.name} nut; {least:.2f} mm can",
        )
    height = max(mm(quantise(foot.tube, settings.layer)), mm(SHORTEST_PLUG))
    chamfer = mm(settings.first_layer_chamfer)
    floor = height - row.nut - mm(PLUG_NUT)
    reach = tube / 2 + RIB
    ribs = [_rib(reach, height - LEAD_IN, 360.0 / RIBS * i) for i in range(RIBS)]
    solid = booleans.fused(features.prism(body, 0.0, height, chamfer), *ribs).clean()
    hole = row.clearance + hole_more
    solid = features.cut_all(
        solid,
        features.hole(hole, -1.0, floor + 1.0),
        features.relief(disc(hole)),
        features.hexagon(flats, floor, height + 1.0),
    )
    volume = chamfered_volume(lambda inset: body.grown(-inset).area, chamfer, height)
    volume += RIBS * chamfered_volume(
        lambda inset: _rib_area(reach, body.offset - inset), chamfer, height - LEAD_IN
    )
    volume -= features.hole_area(hole) * floor + features.hexagon_area(flats) * (height - floor)
    volume -= features.relief_volume(disc(hole))
    across = max(2 * body.offset, 2 * reach * math.sin(math.radians(60)) + RIB_WIDTH / 2)
    return Part(
        name=name,
        owner=foot.name,
        role="plug",
        quantity=len(foot.positions),
        solid=solid,
        material=settings.material,
        orientation="as drawn: the end with the round hole lies on the bed",
        notes=(
            f"an ISO 4032 {row.name} nut in the hexagon, held until the thread bites",
            "deburr the tube, press the plug in with glue: ribs only centre it",
        ),
        box=(2 * reach, across, height),
        volume=volume,
        loaded=(),
        places=tuple(Placement(x=mm(x), y=mm(y), z=0.0, turned=False) for x, y in foot.positions),
    )


def _rib(reach: float, height: float, angle: float) -> Any:
    bar = cq.Solid.makeBox(reach, RIB_WIDTH, height, cq.Vector(0, -RIB_WIDTH / 2, 0))
    return bar.rotate(cq.Vector(0, 0, 0), cq.Vector(0, 0, 1), angle)


def _rib_area(reach: float, radius: float) -> float:
    """Return how much of one rib's section stands out of a round body [mm²]."""
    return RIB_WIDTH * reach - disc(2 * radius).strip_area(RIB_WIDTH) / 2
