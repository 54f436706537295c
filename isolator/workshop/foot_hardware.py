"""What has to be bought for feet besides sheet and filament."""

from __future__ import annotations

import math
from collections.abc import Iterator

from isolator.design import Foot, Slab, attachment_thread
from isolator.design.attachment import FLANGED, SLOTS
from isolator.design.screws import INSERTS
from isolator.feet.screw_lengths import from_above, reach, screw_length

Row = tuple[str, str, str, str]

BUTTON, HEXAGON = "button head, ISO 7380-1", "hexagon head, ISO 4017"
PENNY = ("panel",)
"""Attachments whose frame is thin: a wide washer spreads the load."""


def foot_rows(feet: tuple[Foot, ...], slab: Slab | None) -> list[Row]:
    """Return (item, quantity, unit, remark) for all feet; equal items are counted together."""
    found: dict[tuple[str, str, str], float] = {}
    for foot in feet:
        for item, each, unit, remark in _hardware(foot):
            key = (item, unit, remark)
            found[key] = found.get(key, 0.0) + each
    rows = [(item, f"{total:g}", unit, remark) for (item, unit, remark), total in found.items()]
    if slab is not None:
        size = " x ".join(f"{side * 1e3:g}" for side in slab.size)
        rows.append((f"slab {size} mm", "1", "pieces", "weigh it: the feet are made for its mass"))
        if slab.lip <= 0:
            rows.append(
                (
                    "anti-slip sheet",
                    "1",
                    "pieces",
                    "under the whole printer: without a lip it walks off the slab",
                )
            )
    return rows


def _hardware(foot: Foot) -> Iterator[tuple[str, float, str, str]]:
    count = len(foot.positions)
    if foot.pad.outline.halved:
        wall = (foot.pad.first - foot.pad.second) / 2.0
        hollow = f"{wall * 1e3:g} mm wall" if foot.pad.second > 0 else "solid"
        yield (
            f"rubber ball {foot.pad.first * 1e3:g} mm, {hollow}",
            math.ceil(count / 2),
            "pieces",
            "cut in halves",
        )
    if foot.attachment == "adhesive":
        if foot.build.hung:
            yield (
                "double-sided acrylic tape",
                count * face_area(foot) * 1e4,
                "cm^2",
                "between cup and frame, or the glue its maker names; degrease first",
            )
        return
    yield from _screws(foot, count)


def _screws(foot: Foot, count: int) -> Iterator[tuple[str, float, str, str]]:
    thread = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    size, each = f"M{thread * 1e3:g}", len(foot.holes) or (2 if foot.attachment in SLOTS else 1)
    length = screw_length(foot)
    told = "" if length is None else f" x {length * 1e3:g}"
    if foot.attachment == "self-tapping":
        name = f"self-tapping screw ST{thread * 1e3:g}{told}, pan head, ISO 7049"
        remark = "into the printer's plastic; drill what its maker says"
        if length is None:
            remark = f"none sold holds in {foot.grip * 1e3:g} mm of plastic without coming through"
        yield name, each * count, "pieces", remark
        return
    standing = foot.attachment not in FLANGED and not from_above(foot)
    head = HEXAGON if standing and foot.attachment != "tapped-end" else BUTTON
    yield f"screw {size}{told}, {head}", each * count, "pieces", _screw_remark(foot, each, length)
    for item, remark in _beside(foot, size, thread):
        yield item, each * count, "pieces", remark


def _screw_remark(foot: Foot, each: int, length: float | None) -> str:
    if foot.attachment in SLOTS:
        return "two a foot; none may reach the ground of the slot"
    plain = {
        "tube-end": "in the tube's plug",
        "rod-end": "cuts its thread in the rod's socket",
        "tapped-end": "into the bore at the profile's end",
    }
    if foot.attachment in plain:
        return plain[foot.attachment]
    if foot.attachment == "stud" and length is None:
        return f"{reach(foot)[0] * 1e3:.0f} mm longer than the thread in the frame"
    where = "from above, " if from_above(foot) else ""
    if length is None and from_above(foot):
        low, high = reach(foot)
        return f"{where}{low * 1e3:.0f} to {high * 1e3:.0f} mm longer than the frame is thick"
    if length is None:
        return f"{reach(foot)[0] * 1e3:.0f} mm longer than the frame is thick, or a little more"
    many = f"{each} a foot, " if each > 1 else ""
    return f"{many}{where}for a frame {foot.grip * 1e3:g} mm thick"


def _beside(foot: Foot, size: str, thread: float) -> Iterator[tuple[str, str]]:
    """Return what goes with one screw."""
    if foot.attachment in SLOTS:
        profile = foot.attachment.removeprefix("slot-")
        yield f"slot nut {size} for {profile} mm extrusion", "of the profile's own kind"
        return
    if foot.attachment in ("tapped-end", "rod-end"):
        return
    if foot.attachment == "tube-end":
        yield f"nut {size}, ISO 4032", "in the plug"
        return
    if foot.attachment == "stud":
        yield f"nut {size}, ISO 4032", "clamps the screw's head in the cap"
        yield f"thin nut {size}, ISO 4035", "locks the foot at the frame once it is level"
        yield f"washer {size}, ISO 7089", "under either nut"
        yield f"washer {size}, ISO 7089", "under either nut"
        return
    washer = (
        f"large washer {size}, ISO 7093"
        if foot.attachment in PENNY
        else (f"washer {size}, ISO 7089")
    )
    if not from_above(foot):
        yield f"nut {size}, ISO 4032", "where there is no tapped hole"
        yield washer, "under the nut"
        return
    if foot.fixing == "nut":
        yield f"nut {size}, ISO 4032", "in the cap"
    if foot.fixing == "insert":
        row = INSERTS[round(thread, 6)]
        yield f"threaded insert {size} x {row.length * 1e3:g}, set with heat", "in the cap"
    yield washer, "under the head"


def face_area(foot: Foot) -> float:
    """Return the area of a foot's outside [m²], its box's where it has round corners."""
    wide, deep = foot.widths
    return math.pi / 4.0 * wide**2 if foot.pad.outline.round else wide * deep
