"""Least squares from the kept points of half-balls to the coefficients in the code.

`PYTHONPATH=. python tests/reference/refit_ball.py` prints the table to paste.
"""

from __future__ import annotations

import csv
from pathlib import Path

import numpy as np

from isolator.physics.rubber import ball

FILE = Path(__file__).with_name("ball_points.csv")
FORM = {  # powers of √(sag/R), powers of ln(wall/R)
    "force": (4, 5),
    "shear": (4, 5),
    "rolling": (3, 4),
    "tilt": (3, 3),
    "twist": (3, 4),
}


def points() -> dict[str, np.ndarray]:
    """Return the columns of the kept points within the law's range."""
    with FILE.open() as file:
        rows = list(csv.DictReader(file))
    table = {key: np.array([float(row[key]) for row in rows]) for key in rows[0]}
    within = table["sag"] <= ball.FURTHEST + 1e-9
    return {key: column[within] for key, column in table.items()}


def samples(name: str) -> tuple[np.ndarray, np.ndarray, np.ndarray]:
    """Return √(sag/R), wall/R and the quantity over its limit form at every point."""
    table = points()
    root, wall = np.sqrt(table["sag"]), table["wall"]
    load, shear = table["force"], table["shear"]
    centre = table["lateral_tilt"] / shear
    value = {
        "force": load / ball._series(root, wall),
        "shear": shear / ball._stuck(root, wall),
        "rolling": -table["lateral_tilt"] / load,
        # what is left of the tilt stiffness at the elastic centre, its load upright
        "tilt": (table["tilt"] - centre**2 * shear - load * centre) / load,
        "twist": table["twist"] / load,
    }[name]
    return root, wall, value


def refit(name: str) -> tuple[tuple[tuple[float, ...], ...], float, float]:
    """Return the fit, its largest miss and the mean one.

    Of the quantity's logarithm [-]; of "rolling" the quantity itself, weighed by what it moves the
    elastic centre, and so misses in radii.
    """
    n, m = FORM[name]
    root, wall, value = samples(name)
    design = np.array([root * root**i * np.log(wall) ** j for i in range(n) for j in range(m)]).T
    if name == "rolling":
        table = points()
        lever = table["force"] / table["shear"]
        wanted, weight = value - 1.0, lever / root
    else:
        wanted, weight, lever = np.log(value), np.ones_like(root), np.ones_like(root)
    c = np.linalg.lstsq(design * weight[:, None], wanted * weight, rcond=None)[0]
    off = design @ c - wanted
    miss = np.abs(off * lever if name == "rolling" else np.expm1(off))
    rows = tuple(tuple(round(float(x), 4) for x in row) for row in c.reshape(n, m))
    return rows, float(miss.max()), float(np.sqrt((miss**2).mean()))


def main() -> None:
    """Print what belongs in the code."""
    for name in FORM:
        rows, worst, usual = refit(name)
        print(f'    "{name}": (  # misses its points by {100 * worst:.1f} %, rms {100 * usual:.1f}')
        for row in rows:
            print(f"        {row},")
        print("    ),")


if __name__ == "__main__":
    main()
