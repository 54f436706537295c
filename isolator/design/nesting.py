"""Pads side by side in the smallest piece of sheet, in straight rows; all lengths in one unit."""

from __future__ import annotations

import math
from typing import NamedTuple

KNIFE = 2e-3
"""Left between two pads and round them, for knife and saw [m]; common practice, no source."""


class Nest(NamedTuple):
    """How pads lie in a sheet: columns and rows, the sides of the sheet, and the gap."""

    columns: int
    rows: int
    wide: float
    high: float
    gap: float


def nested(width: float, depth: float, count: int, gap: float) -> Nest:
    """Return the smallest sheet for `count` pads of a box `width` by `depth`, `gap` apart.

    Of equal areas the one nearer to a square.

    >>> nested(18.0, 31.0, 4, 2.0)
    Nest(columns=2, rows=2, wide=42.0, high=68.0, gap=2.0)
    """
    found = []
    for columns in range(1, count + 1):
        rows = math.ceil(count / columns)
        wide, high = columns * (width + gap) + gap, rows * (depth + gap) + gap
        key = (round(wide * high / gap**2, 6), max(wide, high), columns)
        found.append((key, Nest(columns=columns, rows=rows, wide=wide, high=high, gap=gap)))
    return min(found)[1]


def middles(nest: Nest, count: int) -> tuple[tuple[float, float], ...]:
    """Return the middles of `count` pads from the sheet's lower left corner, row by row."""
    across = (nest.wide - nest.gap) / nest.columns
    up = (nest.high - nest.gap) / nest.rows
    return tuple(
        (
            nest.gap / 2 + across * (number % nest.columns + 0.5),
            nest.gap / 2 + up * (number // nest.columns + 0.5),
        )
        for number in range(count)
    )
