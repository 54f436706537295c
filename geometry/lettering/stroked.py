"""The outline of lines drawn with a pen of one width: closed loops, corners sharp.

The lines are a plane graph. Walking round each of its faces, every edge is moved into the face by
half the pen's width; neighbours meet where their moved lines cross. So the loops are exact, and so
is the area between them.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise

Point = tuple[float, float]
Loop = tuple[Point, ...]

SAME = 1e-6  # points nearer than this are one


def stroked(lines: Sequence[Sequence[Point]], pen: float) -> tuple[Loop, ...]:
    """Return the loops round lines that hang together, the outer one first, holes after it.

    `pen` is the width of the stroke in the unit of the points. Free ends stand out by half of it,
    where they are square to an axis, and by all of it where not: cut them with `clipped`. The outer
    loop runs clockwise, holes run anticlockwise. Valid while every face is wider than the pen.
    """
    ways = _ways(lines)
    found = [_moved(face, pen / 2) for face in _faces(ways)]
    return tuple(sorted(found, key=signed_area))


def area_between(loops: Iterable[Loop]) -> float:
    """Return the area inside the outer loop and outside the holes."""
    return -sum(signed_area(loop) for loop in loops)


def signed_area(loop: Loop) -> float:
    """Return the area of a loop, positive where it runs anticlockwise."""
    pairs = zip(loop, (*loop[1:], loop[0]), strict=True)
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs) / 2


def clipped(loop: Loop, low: Point, high: Point) -> Loop:
    """Return what lies of a loop in a box; what is cut off must be corners, not its middle."""
    points = list(loop)
    for axis in (0, 1):
        for bound, sign in ((low[axis], 1.0), (high[axis], -1.0)):
            points = _cut(points, axis, bound, sign)
    return _distinct(points)


def _cut(points: list[Point], axis: int, bound: float, sign: float) -> list[Point]:
    """Keep the side of one line parallel to an axis (Sutherland and Hodgman's way)."""
    kept: list[Point] = []
    for start, end in zip(points, points[1:] + points[:1], strict=True):
        before, after = sign * (start[axis] - bound), sign * (end[axis] - bound)
        if before >= 0:
            kept.append(start)
        if before * after < 0:
            share = before / (before - after)
            kept.append(tuple(a + share * (b - a) for a, b in zip(start, end, strict=True)))  # type: ignore[arg-type]
    return kept


def _distinct(points: list[Point]) -> Loop:
    return tuple(
        point
        for point, before in zip(points, points[-1:] + points[:-1], strict=True)
        if math.dist(point, before) > SAME
    )


def _ways(lines: Sequence[Sequence[Point]]) -> dict[Point, list[Point]]:
    """Return the neighbours of every node, anticlockwise; a line is split where another ends."""
    nodes = list(dict.fromkeys(_tidy(point) for line in lines for point in line))
    ways: dict[Point, set[Point]] = {node: set() for node in nodes}
    for line in lines:
        for start, end in pairwise(line):
            a, b = _tidy(start), _tidy(end)
            on = sorted(
                (node for node in nodes if _between(a, node, b)),
                key=lambda node: math.dist(a, node),
            )
            for first, second in zip((a, *on), (*on, b), strict=True):
                ways[first].add(second)
                ways[second].add(first)
    return {
        node: sorted(near, key=lambda to: math.atan2(to[1] - node[1], to[0] - node[0]))
        for node, near in ways.items()
    }


def _tidy(point: Point) -> Point:
    return round(point[0], 9), round(point[1], 9)


def _between(a: Point, node: Point, b: Point) -> bool:
    over = math.dist(a, node) + math.dist(node, b) - math.dist(a, b)
    return node not in (a, b) and over < SAME**2


def _faces(ways: dict[Point, list[Point]]) -> list[list[Point]]:
    """Return the nodes round every face, the face on the left hand."""
    left = {(start, end) for start, near in ways.items() for end in near}
    faces = []
    while left:
        start, end = first = min(left)
        face = []
        while True:
            left.discard((start, end))
            face.append(start)
            near = ways[end]
            start, end = end, near[near.index(start) - 1]
            if (start, end) == first:
                break
        faces.append(face)
    return faces


def _moved(face: list[Point], by: float) -> Loop:
    """Return the loop `by` inside a face."""
    points: list[Point] = []
    for before, node, after in zip(face[-1:] + face[:-1], face, face[1:] + face[:1], strict=True):
        points += _corner(before, node, after, by)
    return _distinct(points)


def _corner(before: Point, node: Point, after: Point, by: float) -> list[Point]:
    (ax, ay), (bx, by_) = _along(before, node), _along(node, after)
    x, y = node
    if ax * bx + ay * by_ < -1 + 1e-12:  # a free end: go round it
        end = by if min(abs(ax), abs(ay)) < SAME else 2 * by
        return [
            (x + ax * end - ay * by, y + ay * end + ax * by),
            (x + ax * end + ay * by, y + ay * end - ax * by),
        ]
    scale = by / (1 + ax * bx + ay * by_)
    return [(x - (ay + by_) * scale, y + (ax + bx) * scale)]


def _along(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length
