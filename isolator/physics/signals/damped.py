"""Damped swings that several records share: first found by subspaces, then fitted by least squares.

The poles come from the shift of a signal's own subspace (matrix pencil; Hua and Sarkar, 1990, from
memory), those are made exact by variable projection (Golub and Pereyra, 1973, from memory): only
frequencies and dampings are sought, amplitudes follow from a linear fit in each record.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import NamedTuple

import numpy as np
from scipy.optimize import least_squares

from isolator.physics.arrays import Array, Complex

LONGEST = 240
"""Samples of the rows in which swings are looked for."""
OVER_NOISE = 2.5
"""A direction of the signal's space belongs to a swing where it holds so many times the noise's."""
EXACT = 1e-12
"""Of the strongest direction: what of a signal without noise is rounding."""


class Piece(NamedTuple):
    """A record of k channels that swings freely."""

    time: Array  # (n,) [s] from its own start
    samples: Array  # (n, k)


@dataclass(frozen=True, slots=True, kw_only=True)
class Swings:
    """m damped swings that all pieces share."""

    frequency: Array  # (m,) undamped natural frequency [Hz]
    damping: Array  # (m,) ratio
    covariance: Array  # (2m, 2m) of the logarithms of frequencies, then of dampings
    amplitudes: tuple[Complex, ...]  # (m, k) of each piece, at its start
    squares: float  # sum of squares that is left
    count: int  # of numbers that were fitted


def find_poles(pieces: Sequence[Piece], rate: float, most: int) -> Complex:
    """Return up to `most` poles [1/s] with a positive frequency, of evenly spaced pieces.

    Each is −ζω + iω√(1 − ζ²).
    """
    rows = min(LONGEST, min(len(piece.time) for piece in pieces) // 2)
    power = np.zeros((rows, rows))
    for piece in pieces:
        for channel in (piece.samples - piece.samples.mean(axis=0)).T:
            hankel = np.lib.stride_tricks.sliding_window_view(channel, rows)
            power += hankel.T @ hankel
    size, vectors = np.linalg.eigh(power)
    least = max(OVER_NOISE * float(np.median(size)), EXACT * float(size[-1]))
    order = min(int(np.count_nonzero(size > least)), 2 * most + 2, rows - 1)
    space = vectors[:, rows - order :]
    shift = np.linalg.lstsq(space[:-1], space[1:], rcond=None)[0]
    turns = np.linalg.eigvals(shift)
    poles = np.log(turns.astype(complex)[np.abs(turns) > 0.0]) * rate
    return np.asarray(poles[poles.imag > 0.0])


def fit_swings(pieces: Sequence[Piece], poles: Complex, tolerance: float = 1e-8) -> Swings:
    """Return the swings that fit all pieces best, begun at `poles` (m,).

    Beside them each channel may drift along a straight line. The fit ends where a further step
    changes poles and what is left by less than a share of `tolerance`.
    """
    start = np.concatenate((-poles.real, poles.imag))
    found = least_squares(
        partial(_left, pieces),
        start,
        jac=partial(_slopes, pieces),
        method="lm",
        ftol=tolerance,
        xtol=tolerance,
    )
    decay, turn = np.split(found.x, 2)
    natural = np.hypot(decay, turn)
    squares = 2.0 * float(found.cost)
    count = sum(piece.samples.size for piece in pieces)
    # each channel's own amplitudes and drift take their share of the numbers too
    own = (2 * len(poles) + 2) * sum(piece.samples.shape[1] for piece in pieces)
    spare = max(1, count - own - len(start))
    slopes = _slopes(pieces, found.x)
    inner = np.linalg.pinv(slopes.T @ slopes) * squares / spare
    return Swings(
        frequency=natural / (2.0 * math.pi),
        damping=decay / natural,
        covariance=_to_logarithms(decay, turn, inner),
        amplitudes=tuple(_amplitudes(piece, found.x) for piece in pieces),
        squares=squares,
        count=count,
    )


def swung(time: Array, swings: Swings, amplitudes: Complex) -> Array:
    """Return what the swings of one piece come to, each by itself: (m, n, k)."""
    omega = 2.0 * math.pi * swings.frequency
    decay, turn = swings.damping * omega, omega * np.sqrt(1.0 - swings.damping**2)
    moved = np.exp(np.outer(-decay + 1j * turn, time))
    return np.asarray(np.real(moved[:, :, None] * amplitudes[:, None, :]))


def _basis(time: Array, at: Array) -> tuple[Array, Array]:
    """Return cosines and sines that decay (n, 2m), and those with a straight line (n, 2m + 2)."""
    decay, turn = np.split(at, 2)
    phase = np.outer(time, turn)
    size = np.exp(-np.outer(time, decay))
    swings = np.hstack((size * np.cos(phase), size * np.sin(phase)))
    return swings, np.column_stack((swings, np.ones_like(time), time))


def _left(pieces: Sequence[Piece], at: Array) -> Array:
    parts = []
    for piece in pieces:
        q = np.linalg.qr(_basis(piece.time, at)[1])[0]
        parts.append((piece.samples - q @ (q.T @ piece.samples)).ravel())
    return np.concatenate(parts)


def _slopes(pieces: Sequence[Piece], at: Array) -> Array:
    """Return how what is left changes with decays and turns, without the second-order part."""
    m = len(at) // 2
    parts = []
    for piece in pieces:
        swings, whole = _basis(piece.time, at)
        q, r = np.linalg.qr(whole)
        size = np.linalg.lstsq(r, q.T @ piece.samples, rcond=None)[0]
        late = piece.time[:, None] * swings
        one = np.empty((2 * m, *piece.samples.shape))
        for n in range(m):
            cosine, sine = late[:, n, None], late[:, m + n, None]
            one[n] = cosine * size[n] + sine * size[m + n]
            one[m + n] = sine * size[n] - cosine * size[m + n]
        one -= q @ (q.T @ one)
        parts.append(one.reshape(2 * m, -1).T)
    return np.concatenate(parts)


def _amplitudes(piece: Piece, at: Array) -> Complex:
    m = len(at) // 2
    size = np.linalg.lstsq(_basis(piece.time, at)[1], piece.samples, rcond=None)[0]
    return np.asarray(size[:m] - 1j * size[m : 2 * m])


def _to_logarithms(decay: Array, turn: Array, inner: Array) -> Array:
    """Return the covariance of ln f and ln ζ from that of decays and turns."""
    squared = decay**2 + turn**2
    to_frequency = np.hstack((np.diag(decay / squared), np.diag(turn / squared)))
    to_damping = np.hstack((np.diag(turn**2 / squared / decay), np.diag(-turn / squared)))
    turning = np.vstack((to_frequency, to_damping))
    return np.asarray(turning @ inner @ turning.T)
