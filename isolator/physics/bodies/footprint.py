"""How a foot's contact feels and drives a plate: a disc under a soft pad.

A foot presses on a disc of diameter `width`: its force as an even pressure, its moment as one that
grows straight across the disc. A contact's deflection and turns are the plate's averages with the
same weights, so that force times motion is the work done and power is never negative. A wave of
wavenumber k is felt by 2·J1(ka)/(ka) as deflection and 8·J2(ka)/(ka)² as turn, a = width/2; fields
that fall off as exp(−kr) by the same with I for J. Without a footprint the turn of a plate under a
moment would be endless (it grows with the logarithm of 1/a). [derived]
"""

from __future__ import annotations

import math

import numpy as np
from scipy import special

from isolator.physics.arrays import Array, Complex

END = 6.0
"""Waves of more than END/a add less than 1e-3 to a moment's local give, and less to a force's."""
STEPS = 200


def of_wave(z: Complex | Array) -> tuple[Complex, Complex]:
    """Return how deflection and turn are felt of a wave, at z = ka."""
    return 2.0 * special.jv(1, z) / z, 8.0 * special.jv(2, z) / z**2


def of_near_field(z: Complex | Array) -> tuple[Complex, Complex]:
    """Return the same of a field that falls off as exp(−kr)."""
    return 2.0 * special.iv(1, z) / z, 8.0 * special.iv(2, z) / z**2


def points(width: float) -> tuple[Array, Array]:
    """Return places (q, 2) [m] on a disc about its middle and weights (3, q).

    The weights take deflection and both turns (w, θx, θy), θx = ∂w/∂y, θy = −∂w/∂x, from the
    deflections there: means of w, 4yw/a² and −4xw/a². Exact for polynomials up to degree 5.
    """
    nodes, share = np.polynomial.legendre.leggauss(3)  # in (r/a)²
    turns = 2.0 * math.pi * np.arange(8) / 8.0
    radius = 0.5 * width * np.sqrt(0.5 * (nodes + 1.0))
    at = np.stack(
        [np.outer(radius, np.cos(turns)).ravel(), np.outer(radius, np.sin(turns)).ravel()], axis=-1
    )
    mean = np.repeat(share / 2.0, 8) / 8.0
    scale = 4.0 / (0.5 * width) ** 2
    return at, np.stack([mean, scale * at[:, 1] * mean, -scale * at[:, 0] * mean])


TURNS = (np.arange(16) + 0.5) * math.pi / 32.0
"""Directions of waves over a quarter, the other three alike [rad]."""


def beyond(largest: Array, width: Array) -> Array:
    """Return the static give (s, 3), times B, of all waves beyond wavenumbers `largest` [1/m].

    For series that end at `largest` (s, 16), along `TURNS`, under contacts of `width` (s,) [m]:
    what an endless plate adds beyond, without which a moment's local give comes out too small.
    (1/4π²)∫∫ H²·(1, ky², kx²)/k⁴ dkx dky. [derived]
    """
    least, half = largest[..., None], 0.5 * width[:, None, None]
    # outwards evenly in the logarithm, to where the footprint feels nothing
    octaves = np.log(np.maximum(4.0 * END / (least * half), 1.0 + 1e-9))
    grid = np.linspace(0.0, 1.0, STEPS)
    wave = least * np.exp(octaves * grid)
    force, moment = of_wave(wave * half)
    step = octaves[..., 0]
    upright = step * np.trapezoid(force**2 / wave**2, grid, axis=-1)
    tilted = step * np.trapezoid(moment**2, grid, axis=-1)
    parts = [upright, tilted * np.sin(TURNS) ** 2, tilted * np.cos(TURNS) ** 2]
    return np.stack([each.mean(axis=-1) for each in parts], axis=-1) / (2.0 * math.pi)
