"""Modes of a rectangular thin plate and their sum at the feet: on simple edges, or on legs."""

from __future__ import annotations

import math
from functools import lru_cache
from typing import NamedTuple

import numpy as np
from numpy.polynomial import legendre

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies import footprint

DEGREES = 24
"""Legendre polynomials each way: the lowest sixty modes of a table top are right to 1 %."""
APART = 3.0
"""Modes this many times above the highest frequency asked are taken by three terms of their power
series in (ω/ω_n)², which leaves out 1e-3 of what they add."""
MOST = 2e4
"""Modes on edges that are worked out."""
SMALLEST = 5e-3
"""Feet are taken as this wide at least, so that a series ends [m]."""


class Rectangle(NamedTuple):
    """A plate; the origin of its axes lies in its middle."""

    width: float  # along x [m]
    depth: float  # along y [m]
    bending: float  # B [N·m]
    mass_per_area: float  # [kg/m²]
    poisson: float
    legs: tuple[tuple[float, float], ...] | None  # places [m]; None: held on all edges


class Shapes(NamedTuple):
    """Modes as the contacts feel them."""

    square: Array  # (m,) ω² [1/s²], ascending
    felt: Array  # (m, 3s) shapes of mass 1 at the contacts [1/√kg, 1/(m·√kg)]
    rest: Array  # (3s, 3s) static give of all that the modes leave out [m/N …], symmetric


def receptance(shapes: Shapes, loss: float, frequency: Array) -> Complex:
    """Return Σ φφᵀ/(ω_n²(1 + jη) − ω²) (f, 3s, 3s) with what the modes leave out."""
    square = (2.0 * math.pi * np.asarray(frequency, dtype=float)) ** 2
    lossy = 1.0 + 1j * loss
    high = int(np.searchsorted(shapes.square, APART**2 * square.max()))
    low, above = shapes.felt[:high], shapes.felt[high:]
    each = 1.0 / (shapes.square[:high] * lossy - square[:, None])
    count = low.shape[1]
    pairs = (low[:, :, None] * low[:, None, :]).reshape(high, count**2)
    found = (each @ pairs).reshape(-1, count, count) + shapes.rest / lossy
    for power in range(3):
        term = (above.T * shapes.square[high:] ** -(power + 1.0)) @ above
        found = found + (square**power)[:, None, None] * term / lossy ** (power + 1)
    return np.asarray(found)


def shapes_at(plate: Rectangle, contacts: Array, width: Array) -> Shapes:
    """Return the modes of a plate at `contacts` (s, 2) [m] of `width` (s,) [m]."""
    wide = np.maximum(width, SMALLEST)
    if plate.legs is None:
        return _on_edges(plate, contacts, wide)
    return _on_legs(plate, contacts, wide)


def _on_edges(plate: Rectangle, contacts: Array, width: Array) -> Shapes:
    """Modes sin(pπx/a)·sin(qπy/b), ω = √(B/m″)·k², k² = (pπ/a)² + (qπ/b)².

    Each is a sum of plane waves of one wavenumber, so that the footprint acts by k alone. Taken
    are all that the smallest foot feels, of a large plate the lowest `MOST`.
    """
    sides = (plate.width, plate.depth)
    most = math.sqrt(4.0 * math.pi * MOST / math.prod(sides))
    end = min(2.0 * footprint.END / float(width.min()), most)
    first, second = (np.arange(1, max(2, int(end * side / math.pi)) + 1) for side in sides)
    p, q = (each.ravel() for each in np.meshgrid(first, second, indexing="ij"))
    kx, ky = p * math.pi / plate.width, q * math.pi / plate.depth
    kept = np.flatnonzero(np.hypot(kx, ky) <= max(end, 4.0 * math.pi / min(sides)))
    kept = kept[np.argsort(np.hypot(kx, ky)[kept])]
    kx, ky = kx[kept], ky[kept]
    wave = np.hypot(kx, ky)
    x, y = (contacts + 0.5 * np.array(sides)).T
    force, moment = footprint.of_wave(wave[:, None] * width / 2.0)
    sx, sy = np.sin(kx[:, None] * x), np.sin(ky[:, None] * y)
    cx, cy = np.cos(kx[:, None] * x), np.cos(ky[:, None] * y)
    felt = np.stack(
        [force * sx * sy, moment * sx * cy * ky[:, None], -moment * cx * sy * kx[:, None]], axis=-1
    )
    modal_mass = plate.mass_per_area * plate.width * plate.depth / 4.0
    size = felt.shape[1] * 3
    return Shapes(
        square=plate.bending / plate.mass_per_area * wave**4,
        felt=np.real(felt.reshape(-1, size)) / math.sqrt(modal_mass),
        rest=_rest(plate, np.full((len(contacts), len(footprint.TURNS)), end), width),
    )


def _on_legs(plate: Rectangle, contacts: Array, width: Array) -> Shapes:
    square, vectors = legged_modes(plate)
    half, felt = 0.5 * np.array([plate.width, plate.depth]), []
    for place, wide in zip(contacts, width, strict=True):
        at, weights = footprint.points(float(wide))
        felt.append(weights @ _functions(plate, np.clip((place + at) / half, -1.0, 1.0)))
    # where a polynomial resolves waves: finer towards the edges, as its zeros lie
    inside = np.sqrt(np.maximum(1.0 - (contacts / half) ** 2, 1.0 / DEGREES**2))
    along = DEGREES / (half * inside)
    turned = (along[:, :1] / np.cos(footprint.TURNS), along[:, 1:] / np.sin(footprint.TURNS))
    return Shapes(
        square=square,
        felt=(np.concatenate(felt) @ vectors).T,
        rest=_rest(plate, np.minimum(*turned), width),
    )


def _rest(plate: Rectangle, largest: Array, width: Array) -> Array:
    """Return what all waves beyond those of the modes give way, each foot under itself."""
    return np.diag(footprint.beyond(largest, width).ravel()) / plate.bending


def _functions(plate: Rectangle, at: Array) -> Array:
    """Return the products of Legendre polynomials (q, n²), of mass 1, at `at` (q, 2) in ±1."""
    norm = np.sqrt(np.arange(DEGREES) + 0.5)
    x, y = (legendre.legvander(each, DEGREES - 1) * norm for each in at.T)
    quarter = plate.mass_per_area * plate.width * plate.depth / 4.0
    product: Array = (x[:, :, None] * y[:, None, :]).reshape(len(at), DEGREES**2)
    product /= math.sqrt(quarter)
    return product


@lru_cache(maxsize=8)
def legged_modes(plate: Rectangle) -> tuple[Array, Array]:
    """Return ω² (m,) and mode shapes (n², m) of a free plate held upright at its legs.

    Rayleigh–Ritz with products of Legendre polynomials, in which mass is the unit matrix; the
    legs do not give way upright and hold nothing else. Without legs the plate is free.
    """
    stiffness = _stiffness(plate)
    legs = np.array(plate.legs or (), dtype=float).reshape(-1, 2)
    half = 0.5 * np.array([plate.width, plate.depth])
    held = _functions(plate, legs / half)
    # all shapes that are at rest at every leg
    turned = np.linalg.qr(held.T, mode="complete").Q[:, len(legs) :]
    square, vectors = np.linalg.eigh(turned.T @ stiffness @ turned)
    return square, turned @ vectors


def _stiffness(plate: Rectangle) -> Array:
    """Return the bending stiffness (n², n²) between products of polynomials of mass 1."""
    nodes, share = legendre.leggauss(DEGREES + 1)
    norm = np.sqrt(np.arange(DEGREES) + 0.5)
    own = np.eye(DEGREES) * norm
    tables = [legendre.legval(nodes, legendre.legder(own, m) if m else own) for m in range(3)]
    zero, one, two = (each * np.sqrt(share) for each in tables)  # (n, nodes)
    slopes, curves, mixed, unit = one @ one.T, two @ two.T, two @ zero.T, np.eye(DEGREES)
    x, y = 2.0 / plate.width, 2.0 / plate.depth
    found = (
        np.kron(curves * x**4, unit)
        + np.kron(unit, curves * y**4)
        + plate.poisson * (x * y) ** 2 * (np.kron(mixed, mixed.T) + np.kron(mixed.T, mixed))
        + 2.0 * (1.0 - plate.poisson) * (x * y) ** 2 * np.kron(slopes, slopes)
    )
    return np.asarray(plate.bending / plate.mass_per_area * found)
