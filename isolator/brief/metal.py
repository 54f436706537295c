"""What of a frame feet may be screwed or glued to: rails, edges of sheet, corner brackets."""

from __future__ import annotations

from typing import NamedTuple

from isolator.brief.feet import SHEET, USUAL_WIDTHS, Feet
from isolator.design import ATTACHMENTS
from isolator.design.axes import Pair, Triple

_ONE_LINE = 1e-3
"""Feet nearer than this across a rail hang on one rail [m]."""


class Strip(NamedTuple):
    """A rectangle of metal under the frame, from above [m]."""

    left: float
    right: float
    front: float
    back: float


def metal_width(feet: Feet) -> float:
    """Return the width of a rail, an edge or a bracket [m]; 0 for a whole sheet."""
    slot = ATTACHMENTS[feet.attachment].slot
    if feet.metal_width > 0.0 or feet.metal == SHEET:
        return feet.metal_width
    return slot.profile if slot is not None else USUAL_WIDTHS[feet.metal]


def rail_lines(feet: Feet, size: Triple) -> tuple[float, ...]:
    """Return the middle lines [m] of the rails that run along `feet.slot_along`, in their order.

    As told; else through the feet whose places are told; else one at either outside. `size` [m] is
    the printer's outside.
    """
    across = 1 if feet.slot_along == "x" else 0
    if feet.rails:
        return tuple(sorted(feet.rails))
    if feet.positions is not None:
        lines: list[float] = []
        for at in sorted(place[across] for place in feet.positions):
            if not lines or at - lines[-1] > _ONE_LINE:
                lines.append(at)
        return tuple(lines)
    half = (size[across] - metal_width(feet)) / 2.0
    return (-half, half)


def metal_under(feet: Feet, size: Triple) -> tuple[Strip, ...]:
    """Return the metal under a printer of outside `size` [m] that feet may be fixed to.

    Slots: the rails along which they run. Else rails or edges round the outside, brackets in its
    corners, or the whole underside.
    """
    x, y, width = size[0] / 2.0, size[1] / 2.0, metal_width(feet)
    if feet.metal == SHEET:
        return (Strip(-x, x, -y, y),)
    half = width / 2.0
    if feet.metal == "brackets":
        corners = ((a, b) for a in (-x, x - width) for b in (-y, y - width))
        return tuple(Strip(a, a + width, b, b + width) for a, b in corners)
    lines = rail_lines(feet, size)
    along_x = tuple(Strip(-x, x, at - half, at + half) for at in lines)
    along_y = tuple(Strip(at - half, at + half, -y, y) for at in lines)
    told = along_x if feet.slot_along == "x" else along_y
    if feet.rails or ATTACHMENTS[feet.attachment].slot is not None:
        return told
    return (
        Strip(-x, x, -y, -y + width),
        Strip(-x, x, y - width, y),
        Strip(-x, -x + width, -y, y),
        Strip(x - width, x, -y, y),
    )


def inset_places(feet: Feet, size: Triple) -> tuple[Pair, Pair]:
    """Return the least and the greatest x and y [m] of feet that stand by their inset.

    Across a rail with a slot feet stand on its middle line.
    """
    x, y = size[0] / 2.0 - feet.inset, size[1] / 2.0 - feet.inset
    if ATTACHMENTS[feet.attachment].slot is None and not feet.rails:
        return (-x, x), (-y, y)
    lines = rail_lines(feet, size)
    ends = (lines[0], lines[-1])
    return ((-x, x), ends) if feet.slot_along == "x" else (ends, (-y, y))
