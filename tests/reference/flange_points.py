"""Finite-element points of flanges under their frames: made here, kept in flange_points.csv.

`python tests/reference/flange_points.py` computes them all again (a minute on one core). Sizes in
millimetres, forces in newtons, moments in newton millimetres, Young's moduli in MPa.
"""

from __future__ import annotations

import csv
from pathlib import Path
from typing import NamedTuple

from flange_elements import Flange, Found, flange

FILE = Path(__file__).with_name("flange_points.csv")
SHORT = Flange(wide=36.0, deep=30.0, cap=3.2, head=9.5, gap=0.5, margin=2.0)
"""Ears beside a slot foot, as drawn."""
LONG = Flange(wide=27.0, deep=33.0, cap=3.0, head=7.6, gap=7.0, margin=2.0)
"""Screws in old holes, further from the body."""


class Case(NamedTuple):
    """A foot and what it is loaded with; see `flange`."""

    own: Flange
    load: float
    pull: float
    moment: float
    youngs: float = 2000.0
    body: float = 30.0
    largest: float = 4.0


CASES = {
    "pulled": Case(SHORT, 0.0, 43.0, 0.0),
    "tipped": Case(SHORT, 31.0, 0.0, 1570.0),
    "long, tipped": Case(LONG, 22.0, 0.0, 1210.0, largest=2.5),  # coarser ones pry too much
    "soft body, tipped": Case(SHORT, 31.0, 0.0, 1570.0, body=1.0),
    "flexible, pulled": Case(SHORT, 0.0, 43.0, 0.0, youngs=26.0),
    "coarse, pulled": Case(SHORT, 0.0, 43.0, 0.0, largest=6.0),  # quick to compute again
}
COLUMNS = ("case", "left", "right", "left root", "right root", "opened", "pressed")


def solved(case: Case) -> Found:
    """Return what the finite elements give."""
    own, load, pull, moment, youngs, body, largest = case
    return flange(own, load, pull, moment, youngs=youngs, body=body, largest=largest)


def kept() -> dict[str, Found]:
    """Return the kept points by case."""
    with FILE.open() as file:
        rows = [list(row.values()) for row in csv.DictReader(file)]
    values = {name: [float(each) for each in rest] for name, *rest in rows}
    return {
        name: Found((v[0], v[1]), (v[2], v[3]), opened=v[4], pressed=v[5])
        for name, v in values.items()
    }


def main() -> None:
    """Compute every point and write the file."""
    with FILE.open("w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(COLUMNS)
        for name, case in CASES.items():
            found = solved(case)
            values = (*found.tension, *found.root, found.opened, found.pressed)
            writer.writerow([name, *(f"{value:.6g}" for value in values)])
            file.flush()


if __name__ == "__main__":
    main()
