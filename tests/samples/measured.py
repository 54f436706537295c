"""What a drawn foot measures, read from its solids and not from the design.

A design is solved with a loaded area, a pad thickness, a height and places; here the same are
taken back from the drawing so that the two can be held against each other.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import cadquery as cq

from geometry.assembly import bodies
from geometry.pictures.picture import standing_alone
from geometry.solids.part import Body, Part, mm
from geometry.solids.verify import bounds
from isolator.design import Design, Foot

ABOVE = ("plug", "socket", "key")
"""Parts that stand up into the printer from the frame's underside."""
LEVEL = 1e-4  # two planes closer than this are one [mm]


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """A foot as drawn [m, m²].

    `upper_area`, `lower_area`: plane area that touches the pad above and below. `thickness`:
    between these planes. `height`: from the frame's underside to the desk, unloaded. `stop`: gap
    from rim to sole, 0 for a printed foot. `places`: middles of all copies, x and y, sorted.
    """

    upper_area: float
    lower_area: float
    thickness: float
    height: float
    stop: float
    places: tuple[tuple[float, float], ...]


def measured_foot(design: Design, foot: Foot, parts: list[Part]) -> Measured:
    """Return what one kind of foot measures in the drawing; `parts` as `draw` returns them."""
    alone = standing_alone(foot, parts)
    low = min(bounds(body.solid)[2] for body in alone)
    top = max(bounds(body.solid)[5] for body in alone if body.role not in ABOVE)
    top = 0.0 if foot.kind == "bare" else top  # a slab lies between frame and pad
    found = [body for body in bodies(design, parts) if body.owner == foot.name]
    if foot.kind == "printed":
        upper, lower, thickness, stop = _printed(foot, alone, parts)
        carrier = "foot"
    elif foot.kind == "bare":
        upper, lower, thickness, stop = _bare(alone)
        carrier = "pad"
    else:
        upper, lower, thickness, stop = _cup(alone)
        carrier = "cup"
    return Measured(
        upper_area=upper * 1e-6,
        lower_area=lower * 1e-6,
        thickness=thickness * 1e-3,
        height=(top - low) * 1e-3 + foot.lift,
        stop=stop * 1e-3,
        places=_middles(found, carrier),
    )


def _cup(alone: list[Body]) -> tuple[float, float, float, float]:
    """Return upper and lower contact area [mm²], thickness and stop [mm] of a cup or ball foot.

    A ball touches the desk in a point.
    """
    by_role = {body.role: body.solid for body in alone}
    pad, cup = by_role["pad"], by_role["cup"]
    ceiling = by_role.get("cover", cup)
    if "sole" not in by_role:
        low, high = bounds(pad)[2], bounds(pad)[5]
        return _contact(ceiling, pad, high, facing=-1), 0.0, high - low, bounds(cup)[2] - low
    floor = sole = by_role["sole"]
    pad_low, pad_top = bounds(pad)[2], bounds(pad)[5]
    upper = _contact(ceiling, pad, pad_top, facing=-1)
    lower = _contact(floor, pad, pad_low, facing=1)
    return upper, lower, pad_top - pad_low, bounds(cup)[2] - bounds(sole)[5]


def _bare(alone: list[Body]) -> tuple[float, float, float, float]:
    """Return the areas of a pad's faces [mm²] and its thickness [mm]; nothing stops it."""
    pad = next(body.solid for body in alone if body.role == "pad")
    low, top = bounds(pad)[2], bounds(pad)[5]
    areas = [
        sum(float(face.Area()) for face in _faces_at(pad, level, facing))
        for level, facing in ((top, 1), (low, -1))
    ]
    return areas[0], areas[1], top - low, 0.0


def _contact(solid: Any, pad: Any, level: float, facing: int) -> float:
    """Return the area in which plane faces of `solid` at `level` touch the pad [mm²]."""
    touching = _faces_at(solid, level, facing)
    return sum(
        float(mine.intersect(pads).Area())
        for mine in touching
        for pads in _faces_at(pad, level, -facing)
    )


def _faces_at(solid: Any, level: float, facing: int) -> list[Any]:
    return [
        face
        for face in solid.Faces()
        if face.geomType() == "PLANE"
        and face.normalAt().z * facing > 1 - 1e-9
        and abs(face.Center().z - level) < LEVEL
    ]


def _printed(foot: Foot, alone: list[Body], parts: list[Part]) -> tuple[float, float, float, float]:
    """Return the sections just inside both skins [mm²] and the height between the skins [mm]."""
    part = next(p for p in parts if p.owner == foot.name and p.role == "foot")
    body = next(b.solid for b in alone if b.role == "foot")
    (near_bed, _), (far, _) = part.loaded
    there = part.places[0]
    face = there.z + mm(foot.lift)  # as it stands alone
    upper_z, lower_z = face - near_bed, face - far
    inside = 1e-2  # [mm] into the pad from either skin
    upper, lower = _section(body, upper_z - inside), _section(body, lower_z + inside)
    return upper, lower, upper_z - lower_z, 0.0


def _section(solid: Any, z: float) -> float:
    plane = cq.Face.makePlane(2000.0, 2000.0, cq.Vector(0, 0, z), cq.Vector(0, 0, 1))
    return float(plane.intersect(solid).Area())


def _middles(found: list[Body], role: str) -> tuple[tuple[float, float], ...]:
    middles = []
    for body in found:
        if body.role != role:
            continue
        low_x, low_y, _, high_x, high_y, _ = bounds(body.solid)
        middles.append(
            (round((low_x + high_x) / 2 * 1e-3, 9), round((low_y + high_y) / 2 * 1e-3, 9))
        )
    return tuple(sorted(middles))
