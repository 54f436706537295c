"""Finite-element points of half a ball on a desk: made here, kept in ball_points.csv.

`python tests/reference/ball_points.py` computes them all again (some minutes on one core). Outer
radius 1, Young's modulus 1, incompressible; `force` and the stiffnesses as `HalfBall.motions`
tells them.
"""

from __future__ import annotations

import csv
from pathlib import Path

from ball_elements import pressed

FILE = Path(__file__).with_name("ball_points.csv")
COLUMNS = ("wall", "sag", "force", "shear", "lateral_tilt", "tilt", "twist")
WALLS = (0.1, 0.125, 0.16, 0.2, 0.25, 0.32, 0.4, 0.5, 0.65, 0.8, 1.0)
SAGS = (0.01, 0.015, 0.02, 0.03, 0.04, 0.055, 0.075, 0.1, 0.13, 0.16, 0.2, 0.25, 0.3, 0.35)


def main() -> None:
    """Compute every point and write the file."""
    with FILE.open("w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(COLUMNS)
        for wall in WALLS:
            for state in pressed(wall, SAGS, fineness=1.4, step=0.012):
                values = (getattr(state, name) for name in COLUMNS[1:])
                writer.writerow([wall, *(f"{value:.5g}" for value in values)])
                file.flush()


if __name__ == "__main__":
    main()
