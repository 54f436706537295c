"""Finite-element points of bonded, incompressible pads (E = 3G): made here, kept in pad_points.csv.

`python tests/reference/pad_points.py` computes them all again (some minutes on one core).
Sizes are in units of the first size; values are over E·A/t, G·A/t, E·I/t and G·polar/t.
"""

from __future__ import annotations

import csv
import sys
from pathlib import Path

import numpy as np
from pad_finite_elements import MOTIONS, block_pad, round_pad

FILE = Path(__file__).with_name("pad_points.csv")
COLUMNS = ("shape", "first", "second", "thickness", *MOTIONS)


def properties(shape: str, first: float, second: float) -> tuple[float, float, float, float]:
    """Return area, free perimeter, second moments about x and y."""
    if shape == "rectangle":
        a, b = first, second
        return a * b, 2 * (a + b), a * b**3 / 12, b * a**3 / 12
    hole = np.pi * second**4 / 64
    if shape == "square-with-hole":
        i = first**4 / 12 - hole
        return first**2 - np.pi * second**2 / 4, 4 * first + np.pi * second, i, i
    i = np.pi * first**4 / 64 - hole
    return np.pi * (first**2 - second**2) / 4, np.pi * (first + second), i, i


def thickness_at(shape: str, first: float, second: float, shape_factor: float) -> float:
    """Return the thickness that gives a shape factor."""
    area, perimeter, *_ = properties(shape, first, second)
    return area / (perimeter * shape_factor)


def point(shape, first, second, thickness, *, fineness=1.0, motions=MOTIONS) -> dict[str, float]:
    """Return the stiffnesses of one pad over their plain forms."""
    area, _, i_x, i_y = properties(shape, first, second)
    sizes = (first, second, thickness)
    if shape in ("disc", "ring"):
        raw = {
            m: round_pad(*sizes, m[:-1] + "x" if "-" in m else m, fineness=fineness)
            for m in motions
        }
    else:
        raw = block_pad(shape, *sizes, motions, fineness=fineness)
    g = 1.0 / 3.0
    plain = dict(zip(MOTIONS, (area, g * area, g * area, i_x, i_y, g * (i_x + i_y)), strict=True))
    return {m: raw[m] * thickness / plain[m] for m in motions}


def grid():
    """Yield shape, first, second, shape factor of every kept point."""
    many = (0.125, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0, 3.0, 5.0, 8.0)
    few = (0.2, 0.35, 0.6, 1.0, 1.8, 3.0, 5.0)
    yield from (("disc", 1.0, 0.0, s) for s in many)
    for ratio in (1.1, 1.2, 1.35, 1.6, 2.0, 3.0, 5.0, 10.0, 20.0):
        yield from (("ring", 1.0, 1.0 / ratio, s) for s in many)
    for aspect in (1.0, 1.25, 1.6, 2.2, 3.2, 5.0, 8.0):
        yield from (("rectangle", 1.0, 1.0 / aspect, s) for s in few)
    for hole in (0.05, 0.1, 0.2, 0.35, 0.5, 0.65, 0.8, 0.9):
        yield from (("square-with-hole", 1.0, hole, s) for s in few)


def main() -> None:
    """Compute every point and write the file; shapes may be named to compute those alone."""
    wanted = sys.argv[1:]
    with (Path(sys.argv[2]) if len(wanted) > 1 else FILE).open("w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(COLUMNS)
        for shape, first, second, s in grid():
            if wanted and shape not in wanted[0]:
                continue
            t = thickness_at(shape, first, second, s)
            values = point(shape, first, second, t)
            row = [f"{first:.6g}", f"{second:.8g}", f"{t:.8g}"]
            writer.writerow([shape, *row, *(f"{values[m]:.5g}" for m in MOTIONS)])
            file.flush()


if __name__ == "__main__":
    main()
