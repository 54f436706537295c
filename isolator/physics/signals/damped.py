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

from isolator.physics.arrays import Array, Complex, Flags

LONGEST = 240
"""Samples of the rows in which swings are looked for."""
OVER_NOISE = 2.5
"""A direction of the signal's space belongs to a swing where it holds so many times the noise's."""
EXACT = 1e-12
"""Of the strongest direction: what of a signal without noise is rounding."""
GROWN = 50.0
"""Exponent beyond which a swing that grows is held, while poles are still sought."""


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
    amplitudes: tuple[Complex, ...]  # (m, k) of each piece, at its start; 0: not in that piece
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


def fit_swings(
    pieces: Sequence[Piece], poles: Complex, tolerance: float = 1e-8, held: Flags | None = None
) -> Swings:
    """Return the swings that fit all pieces best, begun at `poles` (m,).

    `held` (pieces, m) says which swing is in which piece; None: all in all. Each must be in one.
    Beside them each channel may drift along a straight line. The fit ends where a further step
    changes poles and what is left by less than a share of `tolerance`.
    """
    inside = np.ones((len(pieces), len(poles)), dtype=bool) if held is None else held
    start = np.concatenate((-poles.real, poles.imag))
    found = least_squares(
        partial(_left, pieces, inside),
        start,
        jac=partial(_slopes, pieces, inside),
        method="lm",
        ftol=tolerance,
        xtol=tolerance,
    )
    decay, turn = np.split(found.x, 2)
    natural = np.hypot(decay, turn)
    squares = 2.0 * float(found.cost)
    count = sum(piece.samples.size for piece in pieces)
    # each channel's own amplitudes and drift take their share of the numbers too
    widths = [piece.samples.shape[1] for piece in pieces]
    own = int((2 * inside.sum(axis=1) + 2) @ np.array(widths))
    spare = max(1, count - own - len(start))
    slopes = _slopes(pieces, inside, found.x)
    inner = np.linalg.pinv(slopes.T @ slopes) * squares / spare
    return Swings(
        frequency=natural / (2.0 * math.pi),
        damping=decay / natural,
        covariance=_to_logarithms(decay, turn, inner),
        amplitudes=tuple(
            _amplitudes(piece, found.x, each) for piece, each in zip(pieces, inside, strict=True)
        ),
        squares=squares,
        count=count,
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What one piece by itself tells of m swings fitted to all."""

    worth: Array  # (m,) by how much each lessens the sum of squares that is left
    step: Array  # (m, 2) by which its own decay and turn differ, to first order [1/s]
    reach: Array  # (m, 2) standard deviation of those for noise of 1 in every sample [1/s]
    left: Array  # (n, k) what no swing explains


def told_by(piece: Piece, poles: Complex) -> Told:
    """Return what a piece tells of swings with `poles` (m,), each looked at beside all others."""
    at = np.concatenate((-poles.real, poles.imag))
    m = len(poles)
    whole = np.ones(m, dtype=bool)
    basis = _basis(piece.time, at)[1]
    size = np.linalg.lstsq(basis, piece.samples, rcond=None)[0]
    inverse = np.linalg.pinv(basis.T @ basis)
    left = piece.samples - basis @ size
    slopes = _slopes([piece], whole[None], at)
    worth, step, reach = np.empty(m), np.empty((m, 2)), np.empty((m, 2))
    for n in range(m):
        pair = [n, m + n]
        own = size[pair]
        worth[n] = float(np.sum(own * np.linalg.lstsq(inverse[np.ix_(pair, pair)], own)[0]))
        inner = np.linalg.pinv(slopes[:, pair].T @ slopes[:, pair])
        step[n] = -inner @ (slopes[:, pair].T @ left.ravel())
        reach[n] = np.sqrt(np.diag(inner))
    return Told(worth=worth, step=step, reach=reach, left=left)


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
    size = np.exp(np.minimum(-np.outer(time, decay), GROWN))
    swings = np.hstack((size * np.cos(phase), size * np.sin(phase)))
    return swings, np.column_stack((swings, np.ones_like(time), time))


def _within(at: Array, inside: Flags) -> Array:
    """Return the decays and turns of those swings that are inside a piece."""
    return at[np.tile(inside, 2)]


def _left(pieces: Sequence[Piece], held: Flags, at: Array) -> Array:
    parts = []
    for piece, inside in zip(pieces, held, strict=True):
        q = np.linalg.qr(_basis(piece.time, _within(at, inside))[1])[0]
        parts.append((piece.samples - q @ (q.T @ piece.samples)).ravel())
    return np.concatenate(parts)


def _slopes(pieces: Sequence[Piece], held: Flags, at: Array) -> Array:
    """Return how what is left changes with decays and turns, without the second-order part."""
    m = len(at) // 2
    parts = []
    for piece, inside in zip(pieces, held, strict=True):
        swings, whole = _basis(piece.time, _within(at, inside))
        q, r = np.linalg.qr(whole)
        size = np.linalg.lstsq(r, q.T @ piece.samples, rcond=None)[0]
        late = piece.time[:, None] * swings
        one = np.zeros((2 * m, *piece.samples.shape))
        count = int(inside.sum())
        for n, place in enumerate(np.flatnonzero(inside)):
            cosine, sine = late[:, n, None], late[:, count + n, None]
            one[place] = cosine * size[n] + sine * size[count + n]
            one[m + place] = sine * size[n] - cosine * size[count + n]
        one -= q @ (q.T @ one)
        parts.append(one.reshape(2 * m, -1).T)
    return np.concatenate(parts)


def _amplitudes(piece: Piece, at: Array, inside: Flags) -> Complex:
    count = int(inside.sum())
    basis = _basis(piece.time, _within(at, inside))[1]
    size = np.linalg.lstsq(basis, piece.samples, rcond=None)[0]
    whole = np.zeros((len(inside), piece.samples.shape[1]), dtype=complex)
    whole[inside] = size[:count] - 1j * size[count : 2 * count]
    return whole


def _to_logarithms(decay: Array, turn: Array, inner: Array) -> Array:
    """Return the covariance of ln f and ln ζ from that of decays and turns."""
    squared = decay**2 + turn**2
    to_frequency = np.hstack((np.diag(decay / squared), np.diag(turn / squared)))
    to_damping = np.hstack((np.diag(turn**2 / squared / decay), np.diag(-turn / squared)))
    turning = np.vstack((to_frequency, to_damping))
    return np.asarray(turning @ inner @ turning.T)
