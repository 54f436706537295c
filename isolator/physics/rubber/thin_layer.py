"""Exact limits of bonded pads: very thin, very tall, and compressible.

A thin incompressible layer between rigid plates carries a pressure p with ∇²p = −12Gε/t² and
p = 0 at its free edges, so E_a/E → C·S² with C = 4⟨ψ⟩(P/A)², −∇²ψ = 1. Under tilt the source is
the co-ordinate x, E_t/E → C_t·S² with C_t = 4(∫xψ/∫x²)(P/A)², −∇²ψ = x. P is the free edge, A the
area. Source: J. M. Kelly, Earthquake-Resistant Design with Rubber, 2nd ed. 1997, ch. 3, from
memory; the outlines' solutions are derived below.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

import numpy as np

from isolator.physics.arrays import Array
from isolator.physics.rubber.section import section

_SOLID = 1e-9  # hole ratio below which an outline has no hole
_ZETA5, _LAMBDA5, _LAMBDA6 = 1.03692775514337, 1.00452376279514, 1.00144707664094
# Square with a round hole, d over side from 0.02 to 0.95: least squares to plane finite elements
# (tests/reference/thin_layer_points.csv), of the logarithm over the value without hole, in powers
# 1, 2, … of 1/(1 − ln ρ), ρ and ρ².
_HOLE_C: tuple[float, ...] = (-1.6527, 3.8686, -14.7477, 37.9274, -45.3478, 20.5821)
_HOLE_TILT: tuple[float, ...] = (1.4677, 0.6557, -11.5546, 31.4064, -37.0645, 16.8447)
_HOLE_TORSION: tuple[float, ...] = (0.0444, -1.0113, 5.8768, -16.7388, 21.1886, -10.2804)
_SQUARE_C, _SQUARE_TILT, _SQUARE_TORSION = 2.249232, 0.742546, 0.843463


def hole_coordinate(ratio: Array) -> Array:
    """Return 1/(1 − ln ρ) of a hole ratio ρ [-]: 0 without a hole, 1 where no rubber is left.

    Potentials round a small hole go with its logarithm.
    """
    safe = np.where(ratio > _SOLID, ratio, 1.0)
    return np.asarray(np.where(ratio > _SOLID, 1.0 / (1.0 - np.log(safe)), 0.0))


def compression_limit(shape: str, first: Array, second: Array) -> Array:
    """Return C [-] of E_a/E → C·S²: disc 2, long strip and thin ring 4/3, square 2.249.

    `first`, `second` [m] as in `section`. Ring: the hole function of M. C. Constantinou,
    A. Kartoum, J. M. Kelly, Eng. Struct. 14 (1992), C = 2F. Rectangle: C = J·P²/A³ with the
    Saint-Venant constant J (the same Poisson problem). Square with hole: fit to 1 %.

    >>> round(float(compression_limit("rectangle", np.array(0.04), np.array(0.04))), 4)
    2.2492
    """
    return _LIMITS[shape].compression(first, second)


def tilt_limit(shape: str, first: Array, second: Array) -> tuple[Array, Array]:
    """Return C_t [-] of E_t/E → C_t·S², about x and about y: disc 2/3, thin ring 4/3.

    `first`, `second` [m] as in `section`. Disc and ring (2/3)(1 + q)²/(1 + q²), q = di/do, from
    ψ = (x/8)(ro² + ri² − r² − ro²ri²/r²); rectangle from its Fourier series; square with hole
    fitted to 1 %.

    >>> [round(float(c), 4) for c in tilt_limit("ring", np.array(0.042), np.array(0.024))]
    [1.241, 1.241]
    """
    limit = _LIMITS[shape].tilt(first, second)
    return (limit[0], limit[-1])


def torsion_share(shape: str, first: Array, second: Array) -> Array:
    """Return the Saint-Venant torsion constant over the polar second moment [-]; 1 if round.

    It rules a very tall pad, whose section is free to warp. Rectangle: series, S. P. Timoshenko,
    J. N. Goodier, Theory of Elasticity, art. 109; square with hole: fit to 0.5 %.

    >>> round(float(torsion_share("rectangle", np.array(0.03), np.array(0.03))), 4)
    0.8435
    """
    return _LIMITS[shape].torsion(first, second)


def confinement(stiffness: Array, sharpness: Array) -> Array:
    """Return what is left of a layer's bulging stiffness when its rubber is compressible [-].

    `stiffness` y [-]: bulging stiffness of the incompressible layer over the modulus that caps
    it. `sharpness` m [-] describes how the loss starts at the edges, c·y → 1 − m/√y for large y.
    The exact strip and disc functions, 1 − tanh z/z with z² = 3y (m = 1/√3) and
    1 − 2I₁(x)/(x·I₀(x)) with x² = 8y (m = 1/√2), are mixed linearly in m. Errors against exact
    series: 0.4 % for compression of rings and rectangles, 1 % for tilt. Source of the disc form:
    M. S. Chalhoub, J. M. Kelly, Int. J. Solids Struct. 26 (1990) 743, from memory.

    >>> round(float(confinement(np.array(1.0), np.array(0.5**0.5))), 4)
    0.4368
    """
    from scipy.special import ive

    y = np.maximum(stiffness, 1e-6)
    z, x = np.sqrt(3.0 * y), np.sqrt(8.0 * y)
    strip = (1.0 - np.tanh(z) / z) / y
    disc = (1.0 - 2.0 * ive(1, x) / (x * ive(0, x))) / y
    share = (sharpness - 3.0**-0.5) / (2.0**-0.5 - 3.0**-0.5)
    return np.asarray(share * disc + (1.0 - share) * strip)


def sharpness(shape: str, first: Array, second: Array) -> tuple[Array, Array, Array]:
    """Return m [-] of `confinement` for compression, tilt about x and tilt about y.

    The pressure falls to zero within t·√(K/12G) of each free edge, which gives m = √C/2 for
    compression and √C_t/2·(A/P)·∮x²ds/∫x²dA for tilt.

    >>> [round(float(m), 4) for m in sharpness("disc", np.array(0.03), np.array(0.0))]
    [0.7071, 0.8165, 0.8165]
    """
    part = section(shape, first, second)
    across = edge_moments(shape, first, second)
    limits = tilt_limit(shape, first, second)
    depth = part.area / part.perimeter
    return (
        np.asarray(np.sqrt(compression_limit(shape, first, second)) / 2.0),
        np.asarray(np.sqrt(limits[0]) / 2.0 * depth * across[1] / part.i_x),
        np.asarray(np.sqrt(limits[1]) / 2.0 * depth * across[0] / part.i_y),
    )


def edge_moments(shape: str, first: Array, second: Array) -> tuple[Array, Array]:
    """Return ∮x²ds and ∮y²ds [m³] along all free edges.

    >>> [round(float(m), 4) for m in edge_moments("rectangle", np.array(2.0), np.array(1.0))]
    [3.3333, 1.1667]
    """
    moments = _LIMITS[shape].edges(first, second)
    return moments[0], moments[-1]


def _powers(coefficients: tuple[float, ...], x: Array) -> Array:
    return np.asarray(np.exp(sum(c * x ** (i + 1) for i, c in enumerate(coefficients))))


def _ring_function(q: Array) -> Array:
    """Return F [-]: 1 without a hole, 2/3 for a thin ring; q = di/do."""
    r = 1.0 / np.maximum(q, 1e-12)
    return np.asarray((r**2 + 1.0) / (r - 1.0) ** 2 + (1.0 + r) / ((1.0 - r) * np.log(r)))


def _rectangle_torsion(a: Array, b: Array) -> Array:
    """Return the Saint-Venant constant [m⁴]; terms past the third differ from tanh = 1 by 1e-7."""
    long, short = np.maximum(a, b), np.minimum(a, b)
    k = np.pi * long / (2.0 * short)
    series = _LAMBDA5 - sum((1.0 - np.tanh(n * k)) / n**5 for n in (1, 3))
    return np.asarray(long * short**3 / 3.0 * (1.0 - 192.0 / np.pi**5 * short / long * series))


def _rectangle_tilt(a: Array, b: Array) -> Array:
    """Return C_t of a tilt along side a: sine series across a if b ≥ a, else along b."""
    k = np.pi * np.maximum(b / a, 1.0)
    series = _ZETA5 - sum((1.0 - np.tanh(n * k)) / n**5 for n in (1, 2, 3))
    wide = a**2 / 60.0 - 1.5 * a**3 / (b * np.pi**5) * series
    k = np.pi * np.maximum(a / b, 1.0) / 2.0
    series = _LAMBDA5 + sum((1.0 / np.tanh(n * k) - 1.0) / n**5 for n in (1, 3))
    narrow = b**2 / 12.0 - 24.0 * b**2 / np.pi**4 * (series / k - _LAMBDA6 / k**2)
    return np.asarray(np.where(b >= a, wide, narrow) * 16.0 * (1.0 / a + 1.0 / b) ** 2)


def _rectangle_compression(a: Array, b: Array) -> Array:
    part = section("rectangle", a, b)
    return np.asarray(_rectangle_torsion(a, b) * part.perimeter**2 / part.area**3)


def _round_tilt(q: Array) -> Array:
    return np.asarray(2.0 / 3.0 * (1.0 + q) ** 2 / (1.0 + q**2))


def _rectangle_edge(a: Array, b: Array) -> Array:
    return np.asarray(b * a**2 / 2.0 + a**3 / 6.0)


def _circle_edge(diameter: Array) -> Array:
    return np.asarray(np.pi * (diameter / 2.0) ** 3)


class _Limits(NamedTuple):
    """One outline's limits, as functions of its two sizes; one value where x and y are alike."""

    compression: Callable[[Array, Array], Array]
    tilt: Callable[[Array, Array], tuple[Array, ...]]
    torsion: Callable[[Array, Array], Array]
    edges: Callable[[Array, Array], tuple[Array, ...]]


_LIMITS = {
    "disc": _Limits(
        compression=lambda a, b: np.full(np.broadcast(a, b).shape, 2.0),
        tilt=lambda a, b: (_round_tilt(0.0 * a * b),),
        torsion=lambda a, b: np.ones(np.broadcast(a, b).shape),
        edges=lambda a, b: (_circle_edge(a) + 0.0 * b,),
    ),
    "ring": _Limits(
        compression=lambda a, b: 2.0 * _ring_function(b / a),
        tilt=lambda a, b: (_round_tilt(b / a),),
        torsion=lambda a, b: np.ones(np.broadcast(a, b).shape),
        edges=lambda a, b: (_circle_edge(a) + _circle_edge(b),),
    ),
    "rectangle": _Limits(
        compression=_rectangle_compression,
        tilt=lambda a, b: (_rectangle_tilt(b, a), _rectangle_tilt(a, b)),
        torsion=lambda a, b: _rectangle_torsion(a, b) / section("rectangle", a, b).polar,
        edges=lambda a, b: (_rectangle_edge(a, b), _rectangle_edge(b, a)),
    ),
    "square-with-hole": _Limits(
        compression=lambda a, b: _SQUARE_C * _powers(_HOLE_C, hole_coordinate(b / a)),
        tilt=lambda a, b: (_SQUARE_TILT * _powers(_HOLE_TILT, b / a),),
        torsion=lambda a, b: _SQUARE_TORSION * _powers(_HOLE_TORSION, (b / a) ** 2),
        edges=lambda a, b: (2.0 / 3.0 * a**3 + _circle_edge(b),),
    ),
}
