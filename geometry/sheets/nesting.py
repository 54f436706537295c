"""Pads side by side in the smallest piece of sheet, in straight rows [mm]."""

from __future__ import annotations

import math
from typing import NamedTuple

KNIFE = 2.0  # between two pads and round them, for knife and saw [mm]; common practice, no source


class Nest(NamedTuple):
    """How pads lie in a sheet [mm]: columns and rows, and the sides of the sheet."""

    columns: int
    rows: int
    wide: float
    high: float


def nested(width: float, depth: float, count: int) -> Nest:
    """Return the smallest sheet for `count` pads of a box `width` by `depth` [mm].

    Of equal areas the one nearer to a square.

    >>> nested(18.0, 31.0, 4)
    Nest(columns=2, rows=2, wide=42.0, high=68.0)
    """
    found = []
    for columns in range(1, count + 1):
        rows = math.ceil(count / columns)
        wide, high = columns * (width + KNIFE) + KNIFE, rows * (depth + KNIFE) + KNIFE
        key = (round(wide * high, 6), max(wide, high), columns)
        found.append((key, Nest(columns=columns, rows=rows, wide=wide, high=high)))
    return min(found)[1]


def middles(nest: Nest, count: int) -> tuple[tuple[float, float], ...]:
    """Return the middles of `count` pads from the sheet's lower left corner, row by row [mm]."""
    across = (nest.wide - KNIFE) / nest.columns
    up = (nest.high - KNIFE) / nest.rows
    return tuple(
        (
            KNIFE / 2 + across * (number % nest.columns + 0.5),
            KNIFE / 2 + up * (number // nest.columns + 0.5),
        )
        for number in range(count)
    )
