"""Screws, nuts and washers of a foot, simple and to size, where a step's picture shows them [mm].

The cap's upper face is z = 0. Threads are plain cylinders. Where things lie follows from the
drawing sheet, as the parts' own recesses do.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple

import cadquery as cq

from geometry.solids import features
from geometry.solids.part import mm
from isolator.design import COVER, Foot, PrintSettings, quantise_up
from isolator.design.attachment import (
    HEAD_GAP,
    fixing_depth,
    head,
    slot_reach,
)
from isolator.design.screws import INSERTS, Screw, screw, thin_nut

OVER = 8.0  # of a screw over the frame's underside [mm]
FRAME = 4.0  # frame shown between foot and nut where its thickness is not known [mm]
LIP = 2.0  # of the profile between foot and slot nut; no source [mm]
SLOT_NUT = (2.2, 1.9, 0.9)  # length, width, height of a slot nut, in thread diameters; no source


Places = list[tuple[float, float]]


class Bought(NamedTuple):
    """Bought things of one kind: their name, where they come from, their solids in place.

    `side` is −1 for what comes from below, 1 for what comes from above; lists go from above down.
    """

    name: str
    side: int
    solids: list[Any]


def held(foot: Foot, settings: PrintSettings) -> list[Bought]:
    """Return what a foot's cap holds, in its recess: a nut or an insert."""
    thread = foot.thread
    row, floor = screw(thread), -_through(foot, settings)
    if foot.fixing == "nut":
        return [Bought("nut", -1, [_nut(row, mm(row.nut_height), floor - mm(row.nut_height))])]
    if foot.fixing == "insert":
        insert = INSERTS[round(thread, 6)]
        low = floor - mm(insert.length)
        body = cq.Solid.makeCylinder(mm(insert.hole) / 2, mm(insert.length), _up(low))
        bore = features.hole(mm(thread), low - 1.0, floor + 1.0)
        return [Bought("insert", -1, [features.cut_all(body, bore)])]
    return []


def screws(foot: Foot, settings: PrintSettings) -> list[Bought]:
    """Return a foot's screws and what goes with them, in place; none for glue."""
    thread = foot.thread
    if thread == 0:
        return []
    row, grip = screw(thread), mm(foot.grip) if foot.grip > 0 else FRAME
    washer = _washer(row, grip, 3.0 * mm(thread) if foot.fastening.sheet else 0.0)  # ISO 7093
    across, tall = (mm(each) for each in head(foot.attachment, thread))
    if foot.fixing != "screw":
        seat = grip + mm(row.washer_height)
        one = _screw(mm(thread), across, tall, seat, seat + OVER, up=False)
        return [Bought("screw", 1, [one]), Bought("washer", 1, [washer])]
    seat = -mm(foot.cap) if foot.fastening.flanged else -_through(foot, settings)
    if foot.fastening.flanged or foot.fastening.driven:
        one = _screw(mm(thread), across, tall, seat, OVER - seat, up=True)
    else:
        one = _hexagon_screw(row, seat, OVER - seat)
    at = _places(foot, across)
    standing = Bought("screws" if len(at) > 1 else "screw", -1, _at(one, at))
    return [*_above(foot, row, at, washer, grip), standing]


def _above(foot: Foot, row: Screw, at: Places, washer: Any, grip: float) -> list[Bought]:
    """Return what lies over the screws of a foot that stand up."""
    above = _ABOVE.get(foot.fastening.way)
    return [] if above is None else above(foot, row, at, washer, grip)


def _slot_nuts(foot: Foot, row: Screw, at: Places, *_: Any) -> list[Bought]:
    long, wide, high = (share * mm(row.thread) for share in SLOT_NUT)
    block = cq.Solid.makeBox(long, wide, high, cq.Vector(-long / 2, -wide / 2, LIP))
    nut = features.cut_all(block, features.hole(mm(row.thread), LIP - 1.0, LIP + high + 1.0))
    return [Bought("slot nuts", 1, _at(nut, at))]


def _stud_nuts(foot: Foot, row: Screw, *_: Any) -> list[Bought]:
    thin = mm(thin_nut(row.thread))
    lock = mm(foot.lift) - thin
    clamped = _nut(row, mm(row.nut_height), mm(row.washer_height))
    return [
        Bought("thin nut and washer", 1, [_nut(row, thin, lock), _washer(row, lock + thin)]),
        Bought("washer and nut", 1, [_washer(row, 0.0), clamped]),
    ]


def _nuts(foot: Foot, row: Screw, at: Places, washer: Any, grip: float) -> list[Bought]:
    many = "s" if len(at) > 1 else ""
    nut = _nut(row, mm(row.nut_height), grip + mm(row.washer_height))
    return [Bought(f"nut{many} and washer{many}", 1, [*_at(nut, at), *_at(washer, at)])]


_ABOVE: dict[str, Callable[[Foot, Screw, Places, Any, float], list[Bought]]] = {
    "slot": _slot_nuts,
    "stud": _stud_nuts,
    "through": _nuts,
    "captive": _nuts,
}
"""What lies over the screws, by the way to hold a foot; others go into the frame itself."""


def _places(foot: Foot, across: float) -> Places:
    """Return where the screws stand about the foot's middle."""
    if not foot.fastening.flanged:
        return [(0.0, 0.0)]
    if foot.holes:
        return [(mm(x), mm(y)) for x, y in foot.holes]
    reach = slot_reach(mm(foot.widths["xy".index(foot.along)]), across, mm(HEAD_GAP))
    return [(-reach, 0.0), (reach, 0.0)] if foot.along == "x" else [(0.0, -reach), (0.0, reach)]


def _through(foot: Foot, settings: PrintSettings) -> float:
    """Return how deep under the frame the recess in a foot's cap begins."""
    if not foot.fastening.hides:
        return 0.0
    thread = foot.thread
    recess = (COVER, fixing_depth(foot.attachment, thread, foot.fixing))
    return mm(foot.cap) - sum(mm(quantise_up(each, settings.layer)) for each in recess)


def _screw(thick: float, across: float, tall: float, seat: float, long: float, *, up: bool) -> Any:
    """Return a round-headed screw whose head bears at z = `seat`, pointing up or down."""
    head_low, low = (seat - tall, seat) if up else (seat, seat - long)
    top = cq.Solid.makeCylinder(across / 2, tall, _up(head_low))
    return features.one_solid(top.fuse(cq.Solid.makeCylinder(thick / 2, long, _up(low))).clean())


def _hexagon_screw(row: Screw, seat: float, long: float) -> Any:
    top = features.hexagon(mm(row.flats), seat - mm(row.hexagon_height), seat)
    shank = cq.Solid.makeCylinder(mm(row.thread) / 2, long, _up(seat))
    return features.one_solid(top.fuse(shank).clean())


def _nut(row: Screw, high: float, low: float) -> Any:
    body = features.hexagon(mm(row.flats), low, low + high)
    return features.cut_all(body, features.hole(mm(row.thread), low - 1.0, low + high + 1.0))


def _washer(row: Screw, low: float, wide: float = 0.0) -> Any:
    high = mm(row.washer_height)
    body = cq.Solid.makeCylinder((wide or mm(row.washer)) / 2, high, _up(low))
    return features.cut_all(body, features.hole(mm(row.clearance), low - 1.0, low + high + 1.0))


def _at(solid: Any, places: Places) -> list[Any]:
    return [solid.moved(cq.Location(cq.Vector(x, y, 0))) for x, y in places]


def _up(z: float) -> Any:
    return cq.Vector(0, 0, z)
