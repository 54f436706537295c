"""Least squares from the kept finite-element points to the coefficients in the code.

`PYTHONPATH=. python tests/reference/refit_pads.py` prints the tables to paste.
"""

from __future__ import annotations

import csv
from pathlib import Path
from unittest import mock

import numpy as np

from isolator.physics.rubber import bonded, pad_fits, thin_layer
from isolator.physics.rubber.section import shape_factor

HERE = Path(__file__).parent
FORM = {  # motion and shape: scale s0, powers of u, powers of v
    ("compression", "disc"): (0.5, 4, 1),
    ("tilt", "disc"): (0.5, 4, 1),
    ("shear", "disc"): (0.5, 4, 1),
    ("compression", "ring"): (0.7, 4, 4),
    ("tilt", "ring"): (0.5, 4, 4),
    ("shear", "ring"): (0.3, 4, 4),
    ("compression", "rectangle"): (0.5, 4, 4),
    ("tilt", "rectangle"): (0.5, 4, 4),
    ("shear", "rectangle"): (0.5, 4, 4),
    ("twist", "rectangle"): (0.3, 4, 4),
    ("compression", "square-with-hole"): (0.5, 4, 4),
    ("tilt", "square-with-hole"): (0.5, 4, 4),
    ("shear", "square-with-hole"): (0.5, 4, 4),
    ("twist", "square-with-hole"): (0.5, 4, 4),
}
HOLE_POWERS = {"compression": 6, "tilt": 6, "torsion": 6}


def points(shape: str) -> dict[str, np.ndarray]:
    """Return the columns of the kept points of one shape."""
    with (HERE / "pad_points.csv").open() as file:
        rows = [row for row in csv.DictReader(file) if row.pop("shape") == shape]
    return {key: np.array([float(row[key]) for row in rows]) for key in rows[0]}


def samples(motion: str, shape: str):
    """Return S, plan co-ordinate, finite-element value and the code's base form at every point."""
    table = points(shape)
    sizes = table["first"], table["second"], table["thickness"]
    s = shape_factor(shape, *sizes)
    one_way = motion in ("compression", "twist")
    ratio = getattr(bonded, f"{motion}_ratio")
    plain = {key: fit for key, fit in pad_fits.FITS.items() if key != (motion, shape)}
    with mock.patch.object(pad_fits, "FITS", plain):
        base = ratio(shape, *sizes)
    across, x, y = bonded._PLAN[shape](*sizes[:2])
    if one_way:
        return s, across, table[motion], base
    values = table[f"{motion}-x"], table[f"{motion}-y"]
    if motion == "tilt":  # about x the motion runs along y
        x, y = y, x
    if shape != "rectangle":
        return s, x, values[0], base[0]
    return tuple(np.concatenate(pair) for pair in ((s, s), (x, y), values, base))


def refit(motion: str, shape: str) -> tuple[pad_fits.RiseFit, float]:
    """Return the least-squares fit of the logarithm and its largest relative miss."""
    scale, n_u, n_v = FORM[motion, shape]
    s, v, value, base = samples(motion, shape)
    u = s / (s + scale)
    columns = [u * (1 - u) * u**i * v**j for i in range(n_u) for j in range(n_v)]
    design, wanted = np.array(columns).T, np.log(value / base)
    c = np.linalg.lstsq(design, wanted, rcond=None)[0]
    miss = float(np.max(np.abs(np.expm1(design @ c - wanted))))
    rows = tuple(tuple(round(float(x), 4) for x in row) for row in c.reshape(n_u, n_v))
    return pad_fits.RiseFit(scale, round(float(v.min()), 3), round(float(v.max()), 3), rows), miss


def refit_hole(name: str) -> tuple[tuple[float, ...], float]:
    """Return the powers' coefficients of a square-with-hole constant and the largest miss."""
    with (HERE / "thin_layer_points.csv").open() as file:
        rows = list(csv.DictReader(file))
    hole = np.array([float(row["hole"]) for row in rows])
    value = np.array([float(row[name]) for row in rows])
    solid = {
        "compression": thin_layer._SQUARE_C,
        "tilt": thin_layer._SQUARE_TILT,
        "torsion": thin_layer._SQUARE_TORSION,
    }[name]
    x = {"compression": thin_layer.hole_coordinate(hole), "tilt": hole, "torsion": hole**2}[name]
    design = np.array([x**i for i in range(1, HOLE_POWERS[name] + 1)]).T
    wanted = np.log(value / solid)
    c = np.linalg.lstsq(design, wanted, rcond=None)[0]
    return tuple(round(float(x), 4) for x in c), float(np.max(np.abs(design @ c - wanted)))


def main() -> None:
    """Print what belongs in the code."""
    for name in HOLE_POWERS:
        print(name, *refit_hole(name))
    print("FITS = {")
    for motion, shape in FORM:
        fit, miss = refit(motion, shape)
        pad_fits.FITS[motion, shape] = fit  # the shear base uses the tilt fit
        print(f'    ("{motion}", "{shape}"): Fit(  # misses its points by {100 * miss:.2f} %')
        print(f"        {fit.scale}, {fit.low}, {fit.high},")
        print("        (")
        for row in fit.coefficients:
            print(f"            ({', '.join(map(str, row))},),".replace(",,", ","))
        print("        ),\n    ),")
    print("}")


if __name__ == "__main__":
    main()
