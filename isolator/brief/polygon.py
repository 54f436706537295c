"""Whether a printer stands: the outline of its feet and its centre of mass."""

from __future__ import annotations

import math
from collections.abc import Sequence

from isolator.design.axes import Pair


def outline(places: Sequence[Pair]) -> tuple[Pair, ...]:
    """Return the convex outline of `places` [m], counter-clockwise (Andrew's monotone chain).

    >>> outline([(0, 0), (2, 0), (1, 0.2), (2, 3), (0, 3)])
    ((0, 0), (2, 0), (2, 3), (0, 3))
    """
    ordered = sorted(set(places))
    if len(ordered) < 3:
        return tuple(ordered)
    halves: list[Pair] = []
    for row in (ordered, ordered[::-1]):
        half: list[Pair] = []
        for place in row:
            while len(half) > 1 and _turn(half[-2], half[-1], place) <= 0.0:
                half.pop()
            half.append(place)
        halves += half[:-1]
    return tuple(halves)


def width(places: Sequence[Pair]) -> float:
    """Return the smallest width of the outline [m]: 0 where the places stand in one line.

    >>> round(width([(0, 0), (3, 0), (0, 4)]), 6)
    2.4
    """
    corners = outline(places)
    if len(corners) < 3:
        return 0.0
    return min(
        max(_turn(start, end, place) for place in corners) / math.dist(start, end)
        for start, end in zip(corners, corners[1:] + corners[:1], strict=True)
    )


def margin(places: Sequence[Pair], point: Pair) -> float:
    """Return how far `point` lies inside the outline's nearest edge [m]; negative outside.

    Needs three places that do not stand in one line.

    >>> round(margin([(-3, -2), (3, -2), (3, 2), (-3, 2)], (1, 0.5)), 6)
    1.5
    """
    corners = outline(places)
    return min(
        _turn(start, end, point) / math.dist(start, end)
        for start, end in zip(corners, corners[1:] + corners[:1], strict=True)
    )


def _turn(start: Pair, end: Pair, point: Pair) -> float:
    return (end[0] - start[0]) * (point[1] - start[1]) - (end[1] - start[1]) * (point[0] - start[0])
