"""How far a pressed half-ball swells, and where a dimple stays: made here, kept in two files.

`python tests/reference/ball_studies.py` computes all again (some minutes on one core). Outer
radius 1, Young's modulus 1, incompressible.
"""

from __future__ import annotations

import csv
from pathlib import Path

from ball_dimple import let_go
from ball_elements import pressed

SWELLING, DIMPLES = (
    Path(__file__).with_name(name) for name in ("ball_swelling.csv", "ball_dimples.csv")
)
SWOLLEN = {1.0: (0.15, 0.3), 0.25: (0.15, 0.3)}
"""Wall, and the sags that one ball is pressed to in turn."""
LET_GO = ((0.1, 0.25, 0.7), (0.1, 0.3, 0.7), (0.1, 0.3, 0.35))
"""Wall, sag and fineness; the last is coarse, and quick to compute again."""


def swollen(wall: float) -> list[float]:
    """Return by how much the largest radius has grown at each sag."""
    return [found.swell for found in pressed(wall, SWOLLEN[wall], step=0.015)]


def kept(file: Path) -> list[tuple[float, ...]]:
    """Return the rows of a file."""
    with file.open() as stream:
        return [tuple(map(float, row)) for row in list(csv.reader(stream))[1:]]


def main() -> None:
    """Compute every point and write the files."""
    with SWELLING.open("w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("wall", "sag", "swell"))
        for wall, sags in SWOLLEN.items():
            for sag, swell in zip(sags, swollen(wall), strict=True):
                writer.writerow((wall, sag, f"{swell:.6g}"))
    with DIMPLES.open("w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(("wall", "sag", "fineness", "flat", "after", "gap"))
        for wall, sag, fineness in LET_GO:
            found = let_go(wall, sag, fineness=fineness)
            writer.writerow((wall, sag, fineness, *(f"{value:.10g}" for value in found)))


if __name__ == "__main__":
    main()
