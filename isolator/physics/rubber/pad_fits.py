"""Coefficients that carry bonded pads from their thin to their tall limit.

Least squares of finite-element points, which stand with the fit's derivation in tests/reference
(pad_points.csv, refit_pads.py). A square with hole rises with the hole, a rectangle with the share
of one side in both.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array


class RiseFit(NamedTuple):
    """One fitted rise: exp(u(1 − u)·Σ c[i][j]·uⁱ·vʲ), u = S/(S + scale).

    `low`, `high` bound the plan co-ordinate v that the points cover; beyond, v stays at the bound.
    """

    scale: float
    low: float
    high: float
    coefficients: tuple[tuple[float, ...], ...]


def rise(motion: str, shape: str, shape_factor: Array, plan: Array) -> Array:
    """Return the factor [-] on a limit form that the finite elements ask for; 1 where none is kept.

    `motion` compression, tilt, shear or twist; `shape_factor` S [-]; `plan` v [-] of
    `isolator.physics.rubber.bonded`. Tends to 1 for S → 0 and for S → ∞. Errors: `FITS` names the
    largest miss of each fit at its points, S from 0.125 or 0.2 to 5 or 8.

    >>> float(rise("compression", "disc", np.array(0.0), np.array(0.0)))
    1.0
    """
    fit = FITS.get((motion, shape))
    if fit is None:
        return np.ones(np.broadcast(shape_factor, plan).shape)
    u = shape_factor / (shape_factor + fit.scale)
    v = np.clip(plan, fit.low, fit.high)
    total = np.zeros(())
    for row in reversed(fit.coefficients):
        total = total * u + _polynomial(row, v)
    return np.asarray(np.exp(u * (1.0 - u) * total))


def _polynomial(row: tuple[float, ...], v: Array) -> Array:
    value = np.zeros(())
    for c in reversed(row):
        value = value * v + c
    return np.asarray(value)


# fmt: off
FITS: dict[tuple[str, str], RiseFit] = {
    ("compression", "disc"): RiseFit(  # misses its points by 0.04 %
        0.5, 0.0, 0.0, (
            (0.2178,),
            (1.4378,),
            (-4.7225,),
            (2.8978,),
        ),
    ),
    ("tilt", "disc"): RiseFit(  # misses its points by 0.40 %
        0.5, 0.0, 0.0, (
            (0.3219,),
            (-0.6134,),
            (3.9761,),
            (-4.2328,),
        ),
    ),
    ("shear", "disc"): RiseFit(  # misses its points by 0.12 %
        0.5, 0.0, 0.0, (
            (1.0079,),
            (-4.109,),
            (5.1819,),
            (-2.087,),
        ),
    ),
    ("compression", "ring"): RiseFit(  # misses its points by 1.44 %
        0.7, 0.25, 0.913, (
            (7.4074, -34.8043, 46.2383, -14.2523,),
            (-51.1071, 236.5588, -270.945, 70.3399,),
            (100.805, -420.0134, 409.2684, -68.7792,),
            (-54.351, 196.6768, -141.3727, -13.0237,),
        ),
    ),
    ("tilt", "ring"): RiseFit(  # misses its points by 0.84 %
        0.5, 0.25, 0.913, (
            (-2.7978, 23.5499, -55.7465, 39.6114,),
            (22.4203, -170.045, 391.2991, -257.8651,),
            (-40.8453, 322.5286, -723.3938, 460.5093,),
            (21.4695, -180.8088, 396.762, -247.3587,),
        ),
    ),
    ("shear", "ring"): RiseFit(  # misses its points by 0.91 %
        0.3, 0.25, 0.913, (
            (-7.0014, 51.0748, -95.1955, 47.2276,),
            (33.9753, -223.7016, 383.816, -179.9724,),
            (-52.6045, 320.3308, -513.3383, 228.1667,),
            (26.0158, -149.5102, 226.6481, -95.8643,),
        ),
    ),
    ("compression", "rectangle"): RiseFit(  # misses its points by 0.23 %
        0.5, 0.111, 0.5, (
            (3.4348, -35.5719, 106.5902, -95.7642,),
            (-7.8114, 162.0986, -557.8974, 534.634,),
            (8.473, -249.5756, 897.193, -876.2755,),
            (-4.7245, 126.3046, -455.0751, 445.5943,),
        ),
    ),
    ("tilt", "rectangle"): RiseFit(  # misses its points by 0.72 %
        0.5, 0.111, 0.889, (
            (5.7013, -26.2553, 43.6961, -24.4434,),
            (-24.294, 126.6755, -234.2259, 145.5169,),
            (42.979, -189.4166, 337.1994, -213.1614,),
            (-24.8999, 87.8743, -143.6418, 90.2556,),
        ),
    ),
    ("shear", "rectangle"): RiseFit(  # misses its points by 0.22 %
        0.5, 0.111, 0.889, (
            (-0.5723, 14.23, -31.4297, 17.5211,),
            (3.5924, -66.9932, 139.0048, -74.0651,),
            (-7.082, 101.285, -199.0104, 102.1006,),
            (4.1757, -49.4143, 92.8668, -46.1665,),
        ),
    ),
    ("twist", "rectangle"): RiseFit(  # misses its points by 0.59 %
        0.3, 0.111, 0.5, (
            (-17.7652, 45.3087, 49.4039, -136.7006,),
            (66.9577, -172.8712, -180.9925, 504.8235,),
            (-84.7036, 220.4043, 224.1654, -630.7081,),
            (35.7994, -93.586, -93.2714, 264.6338,),
        ),
    ),
    ("compression", "square-with-hole"): RiseFit(  # misses its points by 1.36 %
        0.5, 0.25, 0.905, (
            (13.6433, -62.7319, 85.4025, -34.2498,),
            (-72.9285, 311.0486, -359.6159, 116.9303,),
            (116.876, -419.7895, 373.5623, -64.1387,),
            (-51.9412, 135.2016, -35.8752, -52.6679,),
        ),
    ),
    ("tilt", "square-with-hole"): RiseFit(  # misses its points by 0.58 %
        0.5, 0.25, 0.905, (
            (-0.3136, 6.8689, -20.552, 16.0186,),
            (7.4742, -70.4392, 184.8391, -124.6349,),
            (-12.5958, 140.6803, -349.8166, 220.8897,),
            (5.4087, -79.9053, 189.8762, -114.0312,),
        ),
    ),
    ("shear", "square-with-hole"): RiseFit(  # misses its points by 0.31 %
        0.5, 0.25, 0.905, (
            (-3.382, 34.0167, -81.3283, 49.5492,),
            (15.7096, -158.976, 374.9026, -227.7041,),
            (-24.8458, 244.8906, -567.4788, 342.8008,),
            (12.8852, -122.9943, 280.4235, -168.4439,),
        ),
    ),
    ("twist", "square-with-hole"): RiseFit(  # misses its points by 0.09 %
        0.5, 0.25, 0.905, (
            (-0.4971, 3.4148, -9.8064, 6.8634,),
            (1.6886, -18.9218, 53.1425, -35.8073,),
            (-2.3137, 32.6179, -88.8408, 58.4131,),
            (1.1676, -17.701, 46.9053, -30.3215,),
        ),
    ),
}
