"""Small numbers written into a picture."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

_ROWS = {
    "0": "xxx x.x x.x x.x xxx",
    "1": ".x. xx. .x. .x. xxx",
    "2": "xxx ..x xxx x.. xxx",
    "3": "xxx ..x .xx ..x xxx",
    "4": "x.x x.x xxx ..x ..x",
    "5": "xxx x.. xxx ..x xxx",
    "6": "xxx x.. xxx x.x xxx",
    "7": "xxx ..x .x. .x. .x.",
    "8": "xxx x.x xxx x.x xxx",
    "9": "xxx x.x xxx ..x xxx",
}
DOT = 2  # side of a digit's dot [pixels]
GAP = 4  # between what is numbered and its number [pixels]


def write_number(image: NDArray[np.uint8], number: int, x: int, y: int) -> None:
    """Write `number` in black into a picture (h, w, 3) under the pixel (x, y), within its edges."""
    columns = [
        np.array([list(row) for row in _ROWS[digit].split()]) == "x" for digit in str(number)
    ]
    space = np.zeros((5, 1), dtype=bool)
    dots = np.concatenate([part for one in columns for part in (one, space)][:-1], axis=1)
    ink = np.kron(dots, np.ones((DOT, DOT), dtype=bool)).astype(bool)
    high, wide = ink.shape
    top = min(max(y + GAP, 0), image.shape[0] - high)
    left = min(max(x - wide // 2, 0), image.shape[1] - wide)
    # a white ground, so that it reads over what lies behind
    image[max(top - 1, 0) : top + high + 1, max(left - 1, 0) : left + wide + 1] = 255
    image[top : top + high, left : left + wide][ink] = 0
