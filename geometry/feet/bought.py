"""Screws, nuts and washers of a foot, simple and to size, for pictures and the assembly [mm].

The cap's upper face is z = 0. Threads are plain cylinders. Where things lie follows from the
drawing sheet, as the parts' own recesses do.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from typing import Any, NamedTuple

import cadquery as cq

from geometry.solids import booleans, features
from geometry.solids.part import Body, mm
from isolator.design import COVER, Foot, PrintSettings, quantise, quantise_up
from isolator.design.attachment import HEAD_GAP, PLUG_NUT, SHORTEST_PLUG
from isolator.design.attachment_room import bearing, fixing_depth, head, slot_reach
from isolator.design.ends import seat
from isolator.design.naming import slug
from isolator.design.screw_lengths import screw_length
from isolator.design.screws import INSERTS, Screw, screw, thin_nut, washer_row

OVER = 8.0  # of a screw over the frame's underside where no length is known [mm]
FRAME = 4.0  # frame shown between foot and nut where its thickness is not known [mm]
LIP = 2.0  # of a profile that nothing is known of, between foot and slot nut; no source [mm]
SLOT_NUT = (2.2, 1.9, 0.9)  # length, width, height of a slot nut, in thread diameters; no source


Places = list[tuple[float, float]]


class Bought(NamedTuple):
    """Bought things of one kind: their name, where they come from, their solids in place.

    `side` is −1 for what comes from below, 1 for what comes from above; lists go from above down.
    """

    name: str
    side: int
    solids: list[Any]


def bought_bodies(foot: Foot, settings: PrintSettings) -> list[Body]:
    """Return what is bought for every copy of a foot, in the assembly; nothing for glue.

    What screws a ready-made mount to its plates is among it. A screw whose length follows from a
    frame that is not known ends a little over it.
    """
    kinds = dict.fromkeys(("screw", "screws", "upper screw", "lower screw"), "screw")
    each = [
        (slug(foot.name, one.name), kinds.get(one.name, "nut"), solid)
        for one in (*screws(foot, settings), *held(foot, settings), *on_mount(foot, settings))
        for solid in one.solids
    ]
    found, count = [], Counter[str]()
    for x, y in foot.positions:
        place = cq.Location(cq.Vector(mm(x), mm(y), -mm(foot.lift)))
        for name, role, solid in each:
            count[name] += 1
            there = solid.moved(place)
            found.append(
                Body(name=f"{name}-{count[name]}", owner=foot.name, role=role, solid=there)
            )
    return found


def held(foot: Foot, settings: PrintSettings) -> list[Bought]:
    """Return what a foot's cap holds, in its recess: a nut or an insert."""
    thread = foot.thread
    if thread == 0:
        return []
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


def on_mount(foot: Foot, settings: PrintSettings) -> list[Bought]:
    """Return what screws a ready-made mount to its plates: heads and nuts lie in their recesses."""
    ends, found = foot.ends, []
    if ends is None:
        return []
    row, top = screw(ends.thread), -mm(foot.cap)
    low = top - mm(foot.pad.thickness)
    for end, above in ((ends.upper, True), (ends.lower, False)):
        seated = seat(ends, end, settings.layer)
        if seated is None:
            continue
        bears = top + mm(seated.floor) if above else low - mm(seated.floor)
        where, side = ("upper", 1) if above else ("lower", -1)
        if seated.screw > 0:
            sizes = (mm(ends.thread), mm(row.button), mm(row.button_height))
            one = _screw(*sizes, bears, mm(seated.screw), up=not above)
            found.append(Bought(f"{where} screw", side, [one]))
        else:
            high = mm(row.nut_height)
            found.append(
                Bought(f"{where} nut", side, [_nut(row, high, bears - high * (not above))])
            )
    return found


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
        one = _screw(mm(thread), across, tall, seat, _long(foot, seat + OVER), up=False)
        return [Bought("screw", 1, [one]), Bought("washer", 1, [washer])]
    seat = -mm(foot.cap) if foot.fastening.flanged else -_through(foot, settings)
    under: list[Bought] = []
    at = _places(foot, mm(bearing(foot.attachment, thread, soft=foot.soft_flange)[0]))
    if foot.soft_flange:
        spread = washer_row(thread)
        seat -= mm(spread.washer_height)
        under = [Bought("washers under the heads", -1, _at(_washer(spread, seat), at))]
    if foot.fastening.flanged or foot.fastening.driven:
        one = _screw(mm(thread), across, tall, seat, _long(foot, OVER - seat), up=True)
    else:
        one = _hexagon_screw(row, seat, _long(foot, mm(foot.lift) + OVER - seat))
    standing = Bought("screws" if len(at) > 1 else "screw", -1, _at(one, at))
    above = _ABOVE.get(foot.fastening.way)
    over = [] if above is None else above(Over(foot, settings, row, at, washer, grip))
    return [*over, *under, standing]


def _long(foot: Foot, otherwise: float) -> float:
    """Return how long a foot's screws are, as sold; `otherwise` where the frame is not known."""
    length = screw_length(foot)
    return otherwise if length is None else mm(length)


class Over(NamedTuple):
    """What is known of a foot whose screws stand up, to draw what lies over them [mm]."""

    foot: Foot
    settings: PrintSettings
    row: Screw
    at: Places
    washer: Any
    grip: float


def _slot_nuts(over: Over) -> list[Bought]:
    thread, slot = mm(over.row.thread), over.foot.fastening.slot
    long, wide, high = (share * thread for share in SLOT_NUT)
    lip = LIP if slot is None else mm(slot.lip)
    block = cq.Solid.makeBox(long, wide, high, cq.Vector(-long / 2, -wide / 2, lip))
    nut = features.cut_all(block, features.hole(thread, lip - 1.0, lip + high + 1.0))
    if over.foot.along == "y":
        nut = nut.rotate(_up(0.0), _up(1.0), 90.0)
    return [Bought("slot nuts", 1, _at(nut, over.at))]


def _stud_nuts(over: Over) -> list[Bought]:
    foot, row = over.foot, over.row
    thin = mm(thin_nut(row.thread))
    lock = mm(foot.lift) - thin
    clamped = _nut(row, mm(row.nut_height), mm(row.washer_height))
    return [
        Bought("thin nut and washer", 1, [_nut(row, thin, lock), _washer(row, lock + thin)]),
        Bought("washer and nut", 1, [_washer(row, 0.0), clamped]),
    ]


def _plug_nut(over: Over) -> list[Bought]:
    tube, high = quantise(over.foot.tube, over.settings.layer), mm(over.row.nut_height)
    end = max(mm(tube), mm(SHORTEST_PLUG)) - mm(PLUG_NUT)
    return [Bought("nut", 1, [_nut(over.row, high, end - high)])]


def _nuts(over: Over) -> list[Bought]:
    row, at = over.row, over.at
    many = "s" if len(at) > 1 else ""
    nut = _nut(row, mm(row.nut_height), over.grip + mm(row.washer_height))
    return [Bought(f"nut{many} and washer{many}", 1, [*_at(nut, at), *_at(over.washer, at)])]


_ABOVE: dict[str, Callable[[Over], list[Bought]]] = {
    "slot": _slot_nuts,
    "stud": _stud_nuts,
    "plug": _plug_nut,
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
    return features.one_solid(
        booleans.fused(top, cq.Solid.makeCylinder(thick / 2, long, _up(low))).clean()
    )


def _hexagon_screw(row: Screw, seat: float, long: float) -> Any:
    top = features.hexagon(mm(row.flats), seat - mm(row.hexagon_height), seat)
    shank = cq.Solid.makeCylinder(mm(row.thread) / 2, long, _up(seat))
    return features.one_solid(booleans.fused(top, shank).clean())


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
