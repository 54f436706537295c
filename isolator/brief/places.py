"""Where feet stand."""

from __future__ import annotations

from isolator.brief.feet import Feet
from isolator.brief.slab import Slab
from isolator.design.axes import Pair, Triple


def foot_positions(feet: Feet, size: Triple, count: int) -> tuple[Pair, ...]:
    """Return the places (x, y) of `count` feet [m] under a printer of outside `size` [m].

    Places written in the brief rule. Otherwise, from the inset: 4 stand in the corners; 3 stand
    two in front and one at the middle of the back; 6 add the middles of both sides to the corners.
    Raises ValueError for any other count.

    >>> from isolator.brief import Feet
    >>> feet = Feet(positions=None, count=(3,), inset=0.03, attachment="adhesive", bolt=0.0,
    ...             tube=0.0, given=(), now=None, design=None)
    >>> [(round(x, 3), round(y, 3)) for x, y in foot_positions(feet, (0.42, 0.44, 0.48), 3)]
    [(-0.18, -0.19), (0.18, -0.19), (0.0, 0.19)]
    """
    if feet.positions is not None:
        return feet.positions
    x, y = size[0] / 2 - feet.inset, size[1] / 2 - feet.inset
    corners = ((-x, -y), (x, -y), (x, y), (-x, y))
    if count == 4:
        return corners
    if count == 3:
        return ((-x, -y), (x, -y), (0.0, y))
    if count == 6:
        return (*corners, (x, 0.0), (-x, 0.0))
    raise ValueError(f"no rule for {count} feet; 3, 4 and 6 have one")


def designed_positions(feet: Feet, size: Triple, slab: Slab | None, count: int) -> tuple[Pair, ...]:
    """Return where `count` feet to be designed go [m]: under the slab where there is one.

    `size` is the printer's outside [m].
    """
    if slab is None or feet.positions is not None:
        return foot_positions(feet, size, count)
    x, y = slab.position
    return tuple((x + a, y + b) for a, b in foot_positions(feet, slab.size, count))


def all_places(feet: Feet, size: Triple, slab: Slab | None) -> tuple[Pair, ...]:
    """Return every place (x, y) [m] where a foot may come to stand, of any count of the brief."""
    counts = feet.count if feet.positions is None else feet.count[:1]
    found = [place for count in counts for place in designed_positions(feet, size, slab, count)]
    return tuple(dict.fromkeys(found))
