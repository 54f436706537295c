"""Half a rubber ball, solid or hollow, between a bonded flat face and a desk: a nonlinear contact.

The dome touches without sliding and its patch grows with the load. Limits that the laws keep:
contact of spheres (H. Hertz, 1882), a point load on a shallow shell (E. Reissner, 1946), sideways
stick (R. D. Mindlin, 1949), all as in K. L. Johnson, Contact Mechanics, 1985, and W. C. Young,
Roark's Formulas, from memory; between them a fit of finite elements of our own, large-strain
incompressible rubber, kept in tests/reference (ball_points.csv, refit_ball.py).

**Range.** Wall over outer radius from 0.1 to 1 (solid), sag up to 0.3 of the radius; past that the
force goes on along its last slope. Open cavity: shut-in air would stiffen hollow balls. Not
modelled: the dome sliding, a rim that it bulges against, lobes round a dimple.

**Rolling.** A dome that is turned by θ rolls: its contact moves by R·θ, so the load W resists with
a moment W·R·θ; `tangents` gives what rubber and rolling leave of it. It is the whole of the tilt
stiffness: a light load hardly holds a ball upright. The same load leans as the ball rolls, so that
the elastic centre lies below the desk, by W/k_shear at first, later by 0.6 (solid) to 1.8 (thin)
of it.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

FURTHEST = 0.3
"""Largest sag over outer radius that the laws are held for."""
THINNEST = 0.1
"""Thinnest wall over outer radius."""
DIMPLE = 2.5
"""Sag over wall at which a flattened dome may stay dimpled: at a wall of 0.1 the finite elements
do at 3 and not at 2.5, at 0.15 at 2.8 and not at 2.53. The force then falls by a sixth."""
TOUCH = 1e-5
"""Sag over radius below which the force is taken as linear, so that it has a slope at no load."""
# fmt: off
FITS: dict[str, tuple[tuple[float, ...], ...]] = {
    "force": (  # misses its points by 1.8 %, rms 0.6
        (1.2496, -2.0248, 0.9099, 3.0903, 0.9257),
        (0.7361, -1.5666, -27.6135, -28.5304, -7.139),
        (-1.2471, 7.1424, 62.9086, 63.9838, 16.3087),
        (4.4174, -2.6463, -43.8763, -47.4823, -12.5566),
    ),
    "shear": (  # misses its points by 4.7 %, rms 0.9
        (-2.0209, -1.9068, -0.1047, -0.5573, 0.0688),
        (6.3797, 2.2106, 2.4743, 3.7174, -0.3747),
        (-5.2454, -5.4804, -9.4536, -6.3136, 1.6802),
        (-0.0274, 7.1361, 14.3108, 7.6214, -0.8801),
    ),
    "rolling": (  # misses its points by 1.5 %, rms 0.3
        (-3.1222, 0.5262, 1.1926, 0.9149),
        (8.4578, -3.4027, -3.5467, -4.2879),
        (-7.233, 4.8307, 7.7432, 6.5441),
    ),
    "tilt": (  # misses its points by 8.8 %, rms 3.5
        (-0.0514, -0.8405, -0.3982),
        (0.149, 5.4916, 1.8827),
        (1.4535, -5.6445, -1.3177),
    ),
    "twist": (  # misses its points by 11.3 %, rms 3.7
        (-0.387, -0.8077, -1.8176, -0.7047),
        (-0.4397, 6.6979, 13.1899, 2.0942),
        (-2.4985, -11.3999, -11.6825, 0.1407),
    ),
}
"""Coefficients c[i][j] of (√(sag/R))ⁱ·(ln(wall/R))ʲ: least squares of the finite-element points,
made by tests/reference/refit_ball.py; "rolling" misses by what it moves the elastic centre, in
radii."""
# fmt: on


class Tangents(NamedTuple):
    """Static tangent stiffnesses at a load, arrays of one shape.

    `shear` [N/m], the same along x and y; `tilt` about x and y, and `twist` about z [N·m/rad],
    about the elastic centre, which lies `centre` [m] above the desk (below: negative). The load is
    taken to stay upright and to act at the elastic centre.
    """

    shear: Array
    tilt: Array
    twist: Array
    centre: Array


def force(
    radius: ArrayLike, wall: ArrayLike, sag: ArrayLike, *, youngs_modulus: ArrayLike
) -> tuple[Array, Array]:
    """Return the static force [N] and its tangent [N/m] of half-balls pressed by `sag`.

    `radius` outside, `wall` (the radius: solid), `sag` [m]; `youngs_modulus` E [Pa] at small
    strain; arrays broadcast. Hertz, 4/3·E/(1 − ν²)·√R·sag^1.5 with ν = ½, in series with
    Reissner's shell, 4·E·t²/(R·√(3(1 − ν²))), times a fit. Errors: 3 % against finite elements
    that stick; sliding freely a thin ball is softer by up to a tenth. Range: see the module.

    >>> found = force(0.021, 0.021, 0.0021, youngs_modulus=1.5e6)
    >>> round(float(found[0]), 1)
    49.3
    """
    r, e, x, tau = _scaled(radius, wall, sag, youngs_modulus)
    within = np.clip(x, TOUCH, FURTHEST)
    value, slope = _force(np.sqrt(within), tau)
    # below TOUCH along the chord from no load, past FURTHEST along the last slope
    chord = x < TOUCH
    slope = np.where(chord, value / within, slope)
    value = np.where(chord, slope * x, value + slope * (x - within))
    return np.asarray(e * r**2 * value), np.asarray(e * r * slope)


def sag_under(
    load: ArrayLike, radius: ArrayLike, wall: ArrayLike, *, youngs_modulus: ArrayLike
) -> Array:
    """Return the sag [m] under `load` [N], the inverse of `force`; none without load.

    Arguments as there. Newton on the logarithms, in which the force is nearly straight.

    >>> round(float(sag_under(49.3, 0.021, 0.021, youngs_modulus=1.5e6)) * 1e3, 2)
    2.1
    """
    r, _, p, tau = _scaled(radius, wall, load, youngs_modulus, per_area=True)
    low, high = np.log(TOUCH) / 2.0, np.log(FURTHEST) / 2.0
    first, last = _force(np.exp(low), tau)[0], _force(np.exp(high), tau)
    wanted = np.log(np.clip(p, first, last[0]))
    root = np.clip(np.log(9.0 / 16.0 * np.clip(p, first, last[0])) / 3.0, low, high)
    for _ in range(12):
        value, slope = _force(np.exp(root), tau)
        rise = 2.0 * np.exp(2.0 * root) * slope / value
        root = np.clip(root - (np.log(value) - wanted) / rise, low, high)
    sag = np.exp(2.0 * root)
    sag = np.where(p < first, TOUCH * np.maximum(p, 0.0) / first, sag)
    return np.asarray(r * np.where(p > last[0], FURTHEST + (p - last[0]) / last[1], sag))


def tangents(
    radius: ArrayLike,
    wall: ArrayLike,
    sag: ArrayLike,
    *,
    youngs_modulus: ArrayLike,
    shear_modulus: ArrayLike,
) -> Tangents:
    """Return how half-balls at `sag` [m] resist small shift, tilt and twist of their flat face.

    Arguments as `force`; `shear_modulus` G [Pa] rules shear and twist (fitted at E = 3G). Shear
    starts as Mindlin's 8·G·a/(2 − ν) with a = √(R·sag), loses by the ball's own yielding and by
    its load; tilt is near W·R; twist starts as 16/3·G·a³. Errors against finite elements: shear
    5 %, tilt 12 %, twist 15 % (their contact edge moves in steps), centre 2 % of the radius. Past
    the range all stay at its end.

    >>> found = tangents(0.021, 0.021, 0.0021, youngs_modulus=1.5e6, shear_modulus=0.5e6)
    >>> [round(float(x), 2) for x in (found.shear / 1e3, found.tilt, found.centre * 1e3)]
    [11.96, 1.08, -2.6]
    """
    r, e, x, tau = _scaled(radius, wall, sag, youngs_modulus)
    z = np.sqrt(np.clip(x, TOUCH, FURTHEST))
    pressed = _force(z, tau)[0] * np.minimum(x / TOUCH, 1.0)
    soft = 3.0 * np.asarray(shear_modulus, dtype=float)
    shear = soft * r * _stuck(z, tau) * np.exp(z * _sum("shear", z, tau)[0])
    tilt = e * r**3 * pressed * np.exp(z * _sum("tilt", z, tau)[0])
    twist = soft * r**3 * pressed * np.exp(z * _sum("twist", z, tau)[0])
    leans = e * r**2 * pressed * (1.0 + z * _sum("rolling", z, tau)[0])
    return Tangents(shear, tilt, twist, -leans / shear)


def stop_load(radius: ArrayLike, wall: ArrayLike, *, youngs_modulus: ArrayLike) -> Array:
    """Return the load [N] at which the force stops rising: the dome's flat patch may turn inwards.

    Arguments as `force`; the force at a sag of `DIMPLE` walls, infinite where that is the whole
    radius and more. Where it lies past the range the straight continuation tells it, which is low.

    >>> float(stop_load(0.02, 0.02, youngs_modulus=1.5e6))
    inf
    """
    r, t = np.asarray(radius, dtype=float), np.asarray(wall, dtype=float)
    sag = DIMPLE * t
    load = force(r, t, sag, youngs_modulus=youngs_modulus)[0]
    return np.asarray(np.where(sag < r, load, np.inf))


def girth(radius: ArrayLike, sag: ArrayLike) -> Array:
    """Return how far a half-ball swells past its radius [m] at `sag` [m], walls of any thickness.

    1.05·R·(sag/R)^2.6, which is a solid ball's; hollow ones swell less. Below the flat face by a
    tenth to a fifth of the radius. Finite elements, up to 0.3 of the radius.

    >>> round(float(girth(0.021, 0.0063)) * 1e3, 2)
    0.96
    """
    r = np.asarray(radius, dtype=float)
    return np.asarray(1.05 * r * (np.maximum(np.asarray(sag, dtype=float), 0.0) / r) ** 2.6)


def _scaled(
    radius: ArrayLike,
    wall: ArrayLike,
    value: ArrayLike,
    youngs: ArrayLike,
    *,
    per_area: bool = False,
) -> tuple[Array, Array, Array, Array]:
    """Return radius, modulus, sag over radius (or load over E·R²), wall over radius."""
    r, e = np.asarray(radius, dtype=float), np.asarray(youngs, dtype=float)
    tau = np.asarray(wall, dtype=float) / r
    if np.any(tau < THINNEST * (1.0 - 1e-9)) or np.any(tau > 1.0 + 1e-9):
        raise ValueError(
            f"a half-ball's wall must be {THINNEST:g} to 1 times its outer radius; "
            f"got {float(tau.min()):.3g} to {float(tau.max()):.3g}"
        )
    scale = e * r**2 if per_area else r
    return r, e, np.asarray(value, dtype=float) / scale, tau


def _series(z: Array, tau: Array) -> Array:
    """Return Hertz' contact in series with Reissner's shell, over E·R²; z = √(sag/R)."""
    return np.asarray(16.0 / 9.0 * z**3 / (1.0 + 2.0 * z / (3.0 * tau**2)))


def _stuck(z: Array, tau: Array) -> Array:
    """Return Mindlin's stuck patch in series with a shell that bends, over E·R."""
    return np.asarray(16.0 / 9.0 * z / (1.0 + 0.8 * z / tau**2))


def _force(z: Array, tau: Array) -> tuple[Array, Array]:
    """Return force over E·R² and its slope over sag/R."""
    total, slope = _sum("force", z, tau)
    value = _series(z, tau) * np.exp(z * total)
    soft = 2.0 / (3.0 * tau**2)
    rise = 3.0 / z - soft / (1.0 + soft * z) + total + z * slope
    return value, np.asarray(value * rise / (2.0 * z))


def _sum(name: str, z: Array, tau: Array) -> tuple[Array, Array]:
    """Return Σ c[i][j]·zⁱ·(ln τ)ʲ of a fit and its slope over z."""
    total, slope, thin = np.zeros(()), np.zeros(()), np.log(tau)
    for row in reversed(FITS[name]):
        value = np.zeros(())
        for c in reversed(row):
            value = value * thin + c
        slope = slope * z + total
        total = total * z + value
    return np.asarray(total), np.asarray(slope)
