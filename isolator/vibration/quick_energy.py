"""What many sets of feet pass on, in single precision: for candidates, not for what is told."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from isolator.physics.arrays import Array, Complex
from isolator.vibration.isolation import force_weights
from isolator.vibration.source import Source
from isolator.vibration.system import System

Single = NDArray[np.complex64]
CHUNK = 512
"""Sets taken at a time, to stay within the cache."""


ORDER = (2, 3, 4, 0, 1, 5)
"""Coordinates as they are eliminated: upright motion first, then all that it touches."""


def quick_floor_energy(system: System, source: Source) -> Array:
    """Return the squared norm (n, f, p) [N²] of all foot forces, as `floor_energy` has it.

    Eliminated without pivots, all sets and frequencies side by side: the dynamic stiffness is
    symmetric and the losses of the feet keep its pivots from zero. Within 0.01 dB.
    """
    passed = system.moving(source.frequency)
    weights = np.moveaxis(_ordered(force_weights(system)), 0, -1).astype(np.float32)
    factor, lossy, gravity = _single(passed.T), _last(system.lossy), _last(system.gravity)
    dynamic = _single(np.moveaxis(_ordered(source.dynamic[0]), 0, -1))
    blocked = _single(np.moveaxis(source.blocked[0][:, ORDER], 0, -1))
    spans = _spans(*(np.any(e, axis=-1) for e in (lossy, gravity, dynamic)))
    pairs = np.any(weights, axis=-1)
    found = []
    for begin in range(0, len(passed), CHUNK):
        n = slice(begin, begin + CHUNK)
        passing = factor[:, n]  # (f, n): what lies side by side is worked out fastest
        size = passing.shape
        stiff = np.empty((6, 6, *size), dtype=np.complex64)
        for i, end in enumerate(spans):  # its upper half
            np.multiply(passing, lossy[i, i:end, None, n], out=stiff[i, i:end])
            if np.any(gravity[i, i:end]):
                stiff[i, i:end] += gravity[i, i:end, None, n]
            stiff[i, i:end] += dynamic[i, i:end, :, None]
        moved = np.array(np.broadcast_to(blocked[..., None], (*blocked.shape, size[-1])))
        _solve(stiff, moved, spans)
        both = np.concatenate([moved.real, moved.imag], axis=1)  # (6, 2p, f, n)
        square = np.zeros(both.shape[1:], dtype=np.float32)
        for i in range(6):
            # the diagonal once, what stands beside it twice
            row = 0.5 * weights[i, i, n] * both[i]
            for j in range(i + 1, 6):
                if pairs[i, j]:
                    row += weights[i, j, n] * both[j]
            row *= both[i]
            square += row
        whole = 2.0 * square.reshape(2, -1, *size).sum(axis=0)
        found.append((whole * np.abs(passing) ** 2).T)
    return np.concatenate(found)


def _ordered(matrices: Array | Complex) -> Array | Complex:
    """Return matrices (..., 6, 6) with their coordinates in `ORDER`."""
    return matrices[..., ORDER, :][..., ORDER]


def _single(numbers: Array | Complex) -> Single:
    return np.ascontiguousarray(numbers, dtype=np.complex64)


def _last(matrices: Array | Complex) -> Single:
    """Return matrices (n, 6, 6), in `ORDER`, with their number last (6, 6, n)."""
    return _single(np.moveaxis(_ordered(matrices), 0, -1))


def _spans(*used: NDArray[np.bool_]) -> list[int]:
    """Return of each row of symmetric matrices where what is not zero of it ends, as eliminating
    leaves it; `used` (6, 6) say where each matrix has something."""
    there = np.any(used, axis=0) | np.eye(6, dtype=bool)
    ends = [6 - int(np.argmax(row[::-1])) for row in there]
    for k, end in enumerate(ends):
        for i in range(k + 1, end):
            ends[i] = max(ends[i], end)
    return ends


def _solve(a: Single, x: Single, spans: list[int]) -> None:
    """Turn b (6, p, ...) in `x` into the solution of A x = b; `a` (6, 6, ...) is the upper half of
    a symmetric A, and used up; `spans` say where each of its rows ends."""
    inverse = np.empty_like(a[0])  # of each pivot: a division is dearer than a product
    for k, end in enumerate(spans):
        np.divide(1.0, a[k, k], out=inverse[k])
        part = a[k, k + 1 : end] * inverse[k]
        for i in range(k + 1, end):
            a[i, i:end] -= part[i - k - 1] * a[k, i:end]
        x[k + 1 : end] -= part[:, None] * x[k]
        a[k, k + 1 : end] = part
    for k in range(5, -1, -1):
        x[k] *= inverse[k]
        for j in range(k + 1, spans[k]):
            x[k] -= a[k, j] * x[j]
