"""What has to be bought for feet besides sheet and filament."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator, Mapping

from isolator.cards import Material
from isolator.design import Foot, Slab
from isolator.design.screw_lengths import reach, screw_length
from isolator.design.screws import INSERTS, washer_row
from isolator.workshop.mount_hardware import BUTTON, GOT, mount_goods

Row = tuple[str, str, str, str]

HEXAGON = "hexagon head, ISO 4017"
NO_CARDS: Mapping[str, Material] = {}


def _got(foot: Foot, cards: Mapping[str, Material]) -> str:
    """Return where a foot's mount is got, as a brief tells of its own."""
    card = cards.get(foot.pad.material)
    return GOT if card is None or card.mount is None else f"got: {card.supply.found}"


def foot_rows(
    feet: tuple[Foot, ...],
    slab: Slab | None,
    layer: float | None = None,
    cards: Mapping[str, Material] = NO_CARDS,
) -> list[Row]:
    """Return (item, quantity, unit, remark) for all feet; equal items are counted together.

    Ready-made mounts and what screws them to their plates are among them where the `layer` height
    [m] is told that these are drawn in; `cards` tell where those of the brief are got.
    """
    found = defaultdict[tuple[str, str], float](float)
    remarks: dict[str, dict[str, None]] = {}
    for foot in feet:
        mounts = () if layer is None else mount_goods(foot, layer, _got(foot, cards))
        for item, each, unit, remark in (*mounts, *_hardware(foot)):
            found[item, unit] += each
            remarks.setdefault(item, {})[remark] = None
    rows = [
        (item, f"{total:g}", unit, "; ".join(remarks[item]))
        for (item, unit), total in found.items()
    ]
    if slab is not None:
        size = " x ".join(f"{side * 1e3:g}" for side in slab.size)
        rows.append((f"slab {size} mm", "1", "pieces", "weigh it: the feet are made for its mass"))
        if slab.lip <= 0:
            under = "under the whole printer: without a lip it walks off the slab"
            rows.append(("anti-slip sheet", "1", "pieces", under))
    return rows


def _hardware(foot: Foot) -> Iterator[tuple[str, float, str, str]]:
    count = len(foot.positions)
    if foot.pad.outline.halved:
        wall = (foot.pad.first - foot.pad.second) / 2.0
        hollow = f"{wall * 1e3:g} mm wall" if foot.pad.second > 0 else "solid"
        ball = f"rubber ball {foot.pad.first * 1e3:g} mm, {hollow}"
        yield ball, math.ceil(count / 2), "pieces", "cut in halves"
    if foot.thread > 0:
        yield from _screws(foot, count)
    elif foot.build.hung:
        remark = f"between {foot.build.top} and frame, or the glue its maker names; degrease first"
        yield "double-sided acrylic tape", count * face_area(foot) * 1e4, "cm^2", remark


def _screws(foot: Foot, count: int) -> Iterator[tuple[str, float, str, str]]:
    thread, held = foot.thread, foot.fastening
    size, each = f"M{thread * 1e3:g}", len(foot.holes) or (1 if held.slot is None else 2)
    length = screw_length(foot)
    told = "" if length is None else f" x {length * 1e3:g}"
    if held.tapping:
        name = f"self-tapping screw ST{thread * 1e3:g}{told}, pan head, ISO 7049"
        remark = "into the printer's plastic; drill what its maker says"
        if length is None:
            remark = f"none sold holds in {foot.grip * 1e3:g} mm of plastic without coming through"
        yield name, each * count, "pieces", remark
        yield from _under_heads(foot, each * count)
        return
    head = HEXAGON if held.hides and not held.driven and not foot.from_above else BUTTON
    yield f"screw {size}{told}, {head}", each * count, "pieces", _screw_remark(foot, each, length)
    for item, remark in _beside(foot, size):
        yield item, each * count, "pieces", remark
    yield from _under_heads(foot, each * count)


def _under_heads(foot: Foot, count: int) -> Iterator[tuple[str, float, str, str]]:
    """Yield the washers that keep heads from sinking into a flexible flange."""
    if foot.soft_flange:
        size = f"M{washer_row(foot.thread).thread * 1e3:g}"
        yield f"washer {size}, ISO 7089", count, "pieces", "under the heads, on soft plastic"


def _screw_remark(foot: Foot, each: int, length: float | None) -> str:
    if foot.fastening.way in _REMARKS:
        return _REMARKS[foot.fastening.way]
    if foot.fastening.turned and length is None:
        return f"{reach(foot)[0] * 1e3:.0f} mm longer than the thread in the frame"
    where = "from above, " if foot.from_above else ""
    if length is None:
        low, high = (f"{end * 1e3:.0f}" for end in reach(foot))
        if foot.from_above:
            return f"{where}{low} to {high} mm longer than the frame is thick"
        return f"{low} mm longer than the frame is thick, or a little more"
    many = f"{each} a foot, " if each > 1 else ""
    return f"{many}{where}for a frame {foot.grip * 1e3:g} mm thick"


_REMARKS = {
    "slot": "two a foot; they must not bottom out in the slot",
    "plug": "in the tube's plug",
    "socket": "cuts its thread in the rod's socket",
    "driven": "into the bore at the profile's end",
}
"""What is said of the screws of a way to hold a foot, whose length the frame does not change."""

_GOODS: dict[str, tuple[tuple[str, str], ...]] = {
    "slot": (("slot nut {size} for {profile:g} mm extrusion", "of the profile's own kind"),),
    "driven": (),
    "plug": (("nut {size}, ISO 4032", "in the plug"),),
    "socket": (),
    "stud": (
        ("nut {size}, ISO 4032", "clamps the screw's head in the cap"),
        ("thin nut {size}, ISO 4035", "locks the foot at the frame once it is level"),
        ("washer {size}, ISO 7089", "under either nut"),
        ("washer {size}, ISO 7089", "under either nut"),
    ),
}
"""What goes with a screw; where no row is, a washer, and a nut at the frame or in the cap."""


def _beside(foot: Foot, size: str) -> Iterator[tuple[str, str]]:
    """Return what goes with one screw."""
    held = foot.fastening
    if held.way in _GOODS:
        profile = 0.0 if held.slot is None else held.slot.profile * 1e3
        for item, remark in _GOODS[held.way]:
            yield item.format(size=size, profile=profile), remark
        return
    washer = f"large washer {size}, ISO 7093" if held.sheet else f"washer {size}, ISO 7089"
    if not foot.from_above:
        yield f"nut {size}, ISO 4032", "where there is no tapped hole"
        yield washer, "under the nut"
        return
    if foot.fixing == "nut":
        yield f"nut {size}, ISO 4032", "in the cap"
    if foot.fixing == "insert":
        row = INSERTS[round(foot.thread, 6)]
        yield f"threaded insert {size} x {row.length * 1e3:g}, set with heat", "in the cap"
    yield washer, "under the head"


def face_area(foot: Foot) -> float:
    """Return the area of a foot's outside [m²], its box's where it has round corners."""
    wide, deep = foot.widths
    return math.pi / 4.0 * wide**2 if foot.pad.outline.round else wide * deep
