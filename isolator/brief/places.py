"""Where feet stand."""

from __future__ import annotations

from dataclasses import replace

from isolator.brief.feet import Feet
from isolator.brief.metal import inset_places
from isolator.brief.slab import Slab
from isolator.design import ATTACHMENTS
from isolator.design.attachment import GLUED
from isolator.design.axes import Pair, Triple


def foot_positions(feet: Feet, size: Triple, count: int) -> tuple[Pair, ...]:
    """Return the places (x, y) of `count` feet [m] under a printer of outside `size` [m].

    Places written in the brief rule. Otherwise, from the inset: 4 stand in the corners; 3 stand
    two in front and one at the middle of the back; 6 add the middles of both sides to the corners.
    Feet with slot screws stand on the middle lines of their rails, all along them. Raises
    ValueError for any other count.

    >>> from isolator.brief import Feet
    >>> feet = Feet(positions=None, count=(3,), inset=0.03, attachment="adhesive", bolt=0.0,
    ...             tube=0.0, given=(), now=None, design=None)
    >>> [(round(x, 3), round(y, 3)) for x, y in foot_positions(feet, (0.42, 0.44, 0.48), 3)]
    [(-0.18, -0.19), (0.18, -0.19), (0.0, 0.19)]
    """
    if feet.positions is not None:
        return feet.positions
    (left, right), (front, back) = inset_places(feet, size)
    corners = ((left, front), (right, front), (right, back), (left, back))
    slotted = ATTACHMENTS[feet.attachment].slot is not None
    if count == 4:
        return corners
    if count == 3 and slotted and feet.slot_along == "y":
        return ((left, front), (left, back), (right, 0.0))
    if count == 3:
        return ((left, front), (right, front), (0.0, back))
    if count == 6 and slotted and feet.slot_along == "x":
        return (*corners, (0.0, front), (0.0, back))
    if count == 6:
        return (*corners, (right, 0.0), (left, 0.0))
    raise ValueError(f"no rule for {count} feet; 3, 4 and 6 have one")


def designed_positions(feet: Feet, size: Triple, slab: Slab | None, count: int) -> tuple[Pair, ...]:
    """Return where `count` feet to be designed go [m]: under the slab where there is one.

    `size` is the printer's outside [m].
    """
    if slab is None or feet.positions is not None:
        return foot_positions(feet, size, count)
    x, y = slab.position
    glued = replace(feet, attachment=GLUED, rails=())
    return tuple((x + a, y + b) for a, b in foot_positions(glued, slab.size, count))


def all_places(feet: Feet, size: Triple, slab: Slab | None) -> tuple[Pair, ...]:
    """Return every place (x, y) [m] where a foot may come to stand, of any count of the brief."""
    counts = feet.count if feet.positions is None else feet.count[:1]
    found = [place for count in counts for place in designed_positions(feet, size, slab, count)]
    return tuple(dict.fromkeys(found))
