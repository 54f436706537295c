"""A page of strokes and words, and how measures are drawn on it [mm on paper, y upwards]."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from itertools import chain, pairwise, product
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

TEXT = 3.5  # height of the writing, ISO 3098's row from memory
SMALL = 2.5
ARROW = 2.5  # length of an arrow head
LETTER = 0.62  # width of a letter over its height
STEP, REACH = 1.0, 14  # by which words are moved, and how many steps each way

WIDTHS = {"visible": 0.5, "hidden": 0.25, "thin": 0.18, "centre": 0.18, "frame": 0.5}
DASHES: dict[str, tuple[float, ...]] = {"hidden": (2.0, 1.0), "centre": (5.0, 1.0, 0.6, 1.0)}
"""Lines and gaps by kind; the kinds are those of ISO 128, from memory."""

Point = tuple[float, float]
Polyline = tuple[Point, ...]
Box = tuple[float, float, float, float]
"""Least x, y, greatest x, y."""


class Stroke(NamedTuple):
    """One polyline of one kind."""

    line: Polyline
    kind: str


class Words(NamedTuple):
    """One line of text: where its baseline starts, has its middle or ends; turned by 90 or not."""

    at: Point
    text: str
    height: float
    anchor: str  # "start" | "middle" | "end"
    upright: bool

    @property
    def box(self) -> Box:
        """Return the room that the words take."""
        (x, y), long = self.at, LETTER * self.height * len(self.text)
        start = -long * {"start": 0.0, "middle": 0.5, "end": 1.0}[self.anchor]
        if self.upright:
            return x - 0.8 * self.height, y + start, x + 0.2 * self.height, y + start + long
        return x + start, y - 0.2 * self.height, x + start + long, y + 0.8 * self.height


_STEPS = [STEP * number for number in range(-REACH, REACH + 1)]
_MOVES = sorted(product(_STEPS, _STEPS), key=lambda by: (math.hypot(*by), by))
"""How far words are moved on paper [mm], the least first."""


def _meet(a: Box, b: Box) -> bool:
    """Return whether two boxes lie over each other."""
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def segments(page: Page) -> NDArray[np.float64]:
    """Return the straight pieces of all lines and arrow heads of a page (n, 2 ends, 2)."""
    lines = [stroke.line for stroke in page.strokes]
    lines += [(*head, head[0]) for head in page.heads]
    found = [pair for line in lines for pair in pairwise(line)]
    return np.array(found, dtype=float).reshape(-1, 2, 2)


def _within(drawn: NDArray[np.float64], box: Box, far: float) -> NDArray[np.bool_]:
    """Return which pieces may come nearer to a box than `far`."""
    low, high = drawn.min(axis=1), drawn.max(axis=1)
    near = (low <= np.array(box[2:]) + far) & (high >= np.array(box[:2]) - far)
    return np.asarray(near.all(axis=1))


def crossed(box: Box, drawn: NDArray[np.float64]) -> bool:
    """Return whether any of the pieces (n, 2, 2) runs through a box, by clipping them to it."""
    start, way = drawn[:, 0], drawn[:, 1] - drawn[:, 0]
    level = np.abs(way) < 1e-12  # along the other axis: in or out all the way
    steps = np.where(level, 1.0, way)
    ends = [(np.array(side) - start) / steps for side in (box[:2], box[2:])]
    inside = (start > box[:2]) & (start < box[2:])
    enter = np.where(level, np.where(inside, -np.inf, np.inf), np.minimum(*ends))
    leave = np.where(level, np.inf, np.maximum(*ends))
    return bool((np.maximum(enter.max(axis=1), 0.0) < np.minimum(leave.min(axis=1), 1.0)).any())


@dataclass(slots=True)
class Page:
    """What is drawn on a sheet of `size`."""

    size: Point
    strokes: list[Stroke] = field(default_factory=list)
    heads: list[Polyline] = field(default_factory=list)
    words: list[Words] = field(default_factory=list)

    def line(self, a: Point, b: Point, kind: str = "thin") -> None:
        """Draw a straight line."""
        self.strokes.append(Stroke((a, b), kind))

    def write(
        self,
        at: Point,
        text: str,
        height: float = TEXT,
        anchor: str = "start",
        upright: bool = False,
    ) -> None:
        """Write one line of text."""
        self.words.append(Words(at, text, height, anchor, upright))

    def across(self, left: Point, right: Point, y: float, text: str) -> None:
        """Dimension the distance in x of two points on a line at height `y`, words above it."""
        self._extend(left, (left[0], y))
        self._extend(right, (right[0], y))
        inside = self._arrows((left[0], y), (right[0], y))
        at = (left[0] + right[0]) / 2 if inside else right[0] + 2.5 * ARROW
        self.write((at, y + 0.8), text, anchor="middle" if inside else "start")

    def along(self, low: Point, high: Point, x: float, text: str) -> None:
        """Dimension the distance in y of two points on a line at `x`, words upright to its left.

        Where there is no room for them they stand above the line's end.
        """
        self._extend(low, (x, low[1]))
        self._extend(high, (x, high[1]))
        if self._arrows((x, low[1]), (x, high[1])):
            self.write((x - 0.8, (low[1] + high[1]) / 2), text, anchor="middle", upright=True)
        else:
            self.write((x, high[1] + 2.4 * ARROW), text, SMALL, anchor="middle")

    def leader(self, tip: Point, end: Point, text: str) -> None:
        """Point at something with an arrow and a shelf that carries the words."""
        self.line(tip, end)
        self._head(tip, _unit(end, tip))
        way = 1.0 if end[0] >= tip[0] else -1.0
        length = 0.62 * TEXT * len(text)
        self.line(end, (end[0] + way * length, end[1]))
        self.write((end[0] + way * length / 2, end[1] + 0.8), text, anchor="middle")

    def set_apart(self) -> None:
        """Move words that lie over lines or other words, each as little as it takes.

        Where no place is free of both, lines give way: two words in one place are worse.
        """
        drawn = segments(self)
        placed: list[Box] = []
        for number, words in enumerate(self.words):
            x, y = words.at
            near = drawn[_within(drawn, words.box, STEP * REACH)]
            tried = (words._replace(at=(x + dx, y + dy)) for dx, dy in _MOVES)
            free = (
                each
                for each in tried
                if self._holds(each.box) and not any(_meet(each.box, other) for other in placed)
            )
            first = next(free, words)
            clear = chain([first], free)
            moved = next((each for each in clear if not crossed(each.box, near)), first)
            self.words[number] = moved
            placed.append(moved.box)

    def _holds(self, box: Box) -> bool:
        return box[0] >= 0 and box[1] >= 0 and box[2] <= self.size[0] and box[3] <= self.size[1]

    def _extend(self, start: Point, end: Point) -> None:
        x, y = _unit(start, end)
        self.line((start[0] + x, start[1] + y), (end[0] + 1.5 * x, end[1] + 1.5 * y))

    def _arrows(self, a: Point, b: Point) -> bool:
        """Draw the line, its heads inside or where there is no room outside; tell which."""
        way = _unit(a, b)
        length = abs(b[0] - a[0]) + abs(b[1] - a[1])  # along one axis
        if length > 4 * ARROW:
            self.line(a, b)
            self._head(a, (-way[0], -way[1]))
            self._head(b, way)
            return True
        out = 2 * ARROW
        self.line(
            (a[0] - out * way[0], a[1] - out * way[1]), (b[0] + out * way[0], b[1] + out * way[1])
        )
        self._head(a, way)
        self._head(b, (-way[0], -way[1]))
        return False

    def _head(self, tip: Point, way: Point) -> None:
        (x, y), (dx, dy) = tip, way
        back, half = (x - ARROW * dx, y - ARROW * dy), ARROW / 6
        self.heads.append(
            (
                tip,
                (back[0] - half * dy, back[1] + half * dx),
                (back[0] + half * dy, back[1] - half * dx),
            )
        )


def _unit(a: Point, b: Point) -> Point:
    x, y = b[0] - a[0], b[1] - a[1]
    length = (x * x + y * y) ** 0.5
    return (x / length, y / length) if length > 1e-9 else (0.0, 0.0)
