"""What has to be bought of a foot on a ready-made mount: the mount, its screws and nuts."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from isolator.design import Foot
from isolator.design.ends import seat

BUTTON = "button head, ISO 7380-1"
GOT = "by post or in some hardware shops"

Goods = tuple[str, float, str, str]


def mount_goods(foot: Foot, layer: float, got: str = GOT) -> Iterator[Goods]:
    """Yield (item, quantity, unit, remark) of all copies of a foot; nothing for other feet.

    `layer` [m] is the layer height that its plates are drawn in; `got` says
    where such a mount is got.
    """
    ends, count = foot.ends, len(foot.positions)
    if ends is None:
        return
    size = f"{foot.pad.first * 1e3:g} x {foot.pad.thickness * 1e3:g} mm"
    thread = f"M{ends.thread * 1e3:g}"
    grade = f" ({ends.grade})" if ends.grade else ""
    yield f"rubber-metal buffer {size} {thread}{grade}, {ends.words}", count, "pieces", got
    seats = [seat(ends, end, layer) for end in (ends.upper, ends.lower)]
    items = Counter(
        f"screw {thread} x {each.screw * 1e3:g}, {BUTTON}"
        if each.screw > 0
        else f"nut {thread}, ISO 4032"
        for each in seats
        if each is not None
    )
    for item, times in items.items():
        yield item, times * count, "pieces", "in the plates of the buffers"


def mount_uses(feet: tuple[Foot, ...], layer: float) -> tuple[str, ...]:
    """Return the same for a step of assembly, counted."""
    found = Counter[str]()
    for foot in feet:
        for item, quantity, _, _ in mount_goods(foot, layer):
            found[item] += int(quantity)
    return tuple(f"{count} × {item}" for item, count in found.items())
