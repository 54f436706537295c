"""How far feet reach beyond what they are under [m]."""

from __future__ import annotations

from isolator.design import Design, Foot
from isolator.design.attachment import EAR_MARGIN
from isolator.design.attachment_room import bearing, slot_reach


def screw_places(foot: Foot) -> tuple[tuple[float, float], ...]:
    """Return where a foot's screws go up, from its middle [m]; none where glue holds it."""
    if not foot.build.hung or foot.fastening.where == "face":
        return ()
    if foot.holes or not foot.fastening.flanged:
        return foot.holes or ((0.0, 0.0),)
    across = bearing(foot.attachment, foot.thread, soft=foot.soft_flange)[0]
    reach = slot_reach(foot.widths["xy".index(foot.along)], across)
    ends = ((-reach, 0.0), (reach, 0.0))
    return ends if foot.along == "x" else tuple((y, x) for x, y in ends)


def half_widths(foot: Foot) -> tuple[float, float]:
    """Return how far a foot reaches from its middle along x and y [m], its flange included."""
    wide, deep = (side / 2.0 for side in foot.widths)
    if not foot.fastening.flanged:
        return wide, deep
    ear = bearing(foot.attachment, foot.thread, soft=foot.soft_flange)[0] / 2.0 + EAR_MARGIN
    far_x, far_y = (max(abs(at[axis]) for at in screw_places(foot)) for axis in (0, 1))
    return max(wide, far_x + ear), max(deep, far_y + ear)


def beyond_frame(design: Design) -> float:
    """Return how far feet reach beyond the printer's outside [m]; 0 where all lie under it.

    Pads under a slab have a check of their own.
    """
    found = 0.0
    for foot in design.feet:
        if not foot.build.hung:
            continue
        for place in foot.positions:
            for at, half, side in zip(place, half_widths(foot), design.frame_size, strict=False):
                found = max(found, abs(at) + half - side / 2.0)
    return round(found, 9)
