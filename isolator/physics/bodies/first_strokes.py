"""The largest sway of a printer on its feet in an infill zigzag, followed in time from rest on.

The first strokes of an infill may sway a lightly damped printer farther than those that follow:
what the start leaves swinging and what the train makes steady meet. What is told is the motion of
the frame at the tool's height; the print rides on it, so this is no error of the print by itself.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array
from isolator.physics.bodies.zigzag import (
    STROKES,
    Complex,
    Modes,
    Real,
    Train,
    amplitude,
    gains,
    out_of_step,
    strokes_at,
)

GRID = 160
"""Strokes looked at, spaced geometrically, besides those that hit a mode."""
PICKS = 12
"""Zigzags followed in time: as many peaks of the sum of the modes, and of their powers' root."""
HALVES = np.array([*range(20), *np.rint(np.geomspace(20, 400, 28))])
"""Half periods followed, before the steady ones."""
IN_PULSE, BETWEEN = 16, 48
"""Moments looked at in half a pulse, and in what follows it."""
TURNS = 1.5
"""Turns of the loudest mode looked at between pulses."""
TIED = 0.05
"""Zigzags that move the first point so nearly as far as the farthest count whole: what is followed
is good to 3 %, so nearer ones cannot be told apart. Beyond, they count less and less, and at twice
as much nothing: a sudden end would let a hair's breadth of stiffness decide."""


class WorstSway(NamedTuple):
    """Worst sway of each system: peak motion (N, q, p) [m] of each point, with the stroke
    [m] and the speed [m/s] that make the first point's largest (N, q).

    `tied` (t, N, q, p) [m]: peaks in the zigzags that move the first point about as far, this one
    among them, each by the share with which it counts (`TIED`)."""

    peak: Array
    stroke: Array
    speed: Array
    tied: Array


def worst_sway(
    frequencies: Array,
    shapes: Array,
    damping: Array,
    push: Array,
    points: Array,
    speeds: ArrayLike,
    acceleration: float,
    strokes: tuple[float, float] = STROKES,
) -> WorstSway:
    """Return the largest sway from rest on over all strokes and speeds, by modal superposition.

    Arguments as `zigzag.quick_sway`. Strokes are picked by the modes' amplitudes and followed
    exactly in time; within 3 % of all strokes and moments where the sway is 0.05 mm or more.
    Damping is viscous, coupling of modes through it is left out, and stiffness is that at each
    mode's own frequency.
    """
    v = np.asarray(speeds, dtype=float)
    length = np.sort(strokes_at(frequencies, v, acceleration, strokes, GRID), axis=-1)
    lines = length.shape[1:]
    speed = np.broadcast_to(v[:, None], lines).reshape(-1)
    length = length.reshape(len(length), -1)
    modes = Modes.of(frequencies[..., None], damping[..., None])
    train = Train.of(modes, length[:, None], speed, acceleration)
    size, gain = amplitude(modes, train), acceleration * gains(shapes, push, points)
    row = np.arange(len(length))[:, None]
    tool = gain[:, :, :3]
    picks = [
        which for score in (out_of_step, _in_step) for which in _peaks(score(tool, size), lines)
    ]
    which = np.unique(picks, axis=0)  # (picks, N, q)
    found = np.array([_follow(modes, tool, train, row, each)[..., 0] for each in which])
    farthest = found.argmax(axis=0)
    best = np.take_along_axis(which, farthest[None], axis=0)[0]
    peaks = _follow(modes, gain, train, row, best)
    short = 1.0 - found / np.maximum(found.max(axis=0), 1e-300)
    share = np.clip(2.0 - short / TIED, 0.0, 1.0)
    np.put_along_axis(share, farthest[None], 0.0, axis=0)
    tied = [peaks]
    for each, counts in zip(which, share[..., None], strict=True):
        if np.any(counts > 0.0):
            tied.append(counts * _follow(modes, gain, train, row, each))
    return WorstSway(peaks, length[row, best], speed[best], np.array(tied))


def _in_step(gain: Array, size: Real) -> Real:
    """Return as `out_of_step` the squared motion with all modes at their farthest at once."""
    moved = np.square(np.abs(gain) @ size[:, None])
    return np.asarray(moved.reshape(*gain.shape[:2], -1, 3, size.shape[-1]).sum(axis=3).max(axis=2))


def _peaks(score: Real, lines: tuple[int, ...]) -> list[NDArray[np.intp]]:
    """Return the highest peaks (N, q) of `score` (N, q, s·c) along the strokes, highest first."""
    each = score.reshape(*score.shape[:2], *lines)
    edge = np.full((*each.shape[:-1], 1), -np.inf)
    left = np.concatenate([edge, each[..., :-1]], axis=-1)
    right = np.concatenate([each[..., 1:], edge], axis=-1)
    kept = np.where((each >= left) & (each >= right), each, 0.0).reshape(score.shape)
    order = np.argsort(-kept, axis=-1, kind="stable")
    return [order[..., place] for place in range(min(PICKS, order.shape[-1]))]


def _follow(
    modes: Modes, gain: Array, train: Train, row: NDArray[np.intp], which: NDArray[np.intp]
) -> Array:
    """Return the peak (N, q, p) of each point in the zigzags `which` (N, q), from rest on."""
    at = train.take(row, which)  # (N, m or 1, q)
    # the start's share after some half periods, against the train; none at last
    left = modes.swung(at.half[..., None] * HALVES) * (1.0 - 2.0 * (HALVES % 2.0))
    left = np.concatenate([left, np.zeros_like(left[..., :1])], axis=-1)  # (N, m, q, K)
    loudest = np.argmax(np.abs(gain).max(axis=2).swapaxes(1, 2) * np.abs(at.free), axis=1)
    turn = (
        2.0 * np.pi / np.take_along_axis(modes.turn[..., 0], loudest, axis=1)[:, None]
    )  # (N, 1, q)
    between = np.clip(at.half - 2.0 * at.width, 0.0, TURNS * turn)
    static = (gain @ modes.static[:, None])[:, :, None]  # (N, q, 1, 3p, 1)
    peak = np.zeros(1)
    for steady, begun, length, pushed, count in (
        (at.tail, np.ones_like(at.after), at.width, 1.0, IN_PULSE),
        (at.free, at.after, between, 0.0, BETWEEN),
        (at.head, at.before, at.width, -1.0, IN_PULSE),
    ):
        z = steady[..., None] + (at.start * begun)[..., None] * left  # (N, m, q, K)
        swing = modes.swung(length[..., None] * np.linspace(0.0, 1.0, count))  # (N, m, q, t)
        square = np.square(pushed * static - _moved(gain, z, swing))  # (N, q, K, 3p, t)
        reach = square.reshape(*square.shape[:3], -1, 3, count).sum(axis=4)
        peak = np.maximum(peak, reach.max(axis=(2, 4)))
    return np.sqrt(peak)


def _moved(gain: Array, z: Complex, swing: Complex) -> Array:
    """Return Re Σ gain·z·swing over the modes, (N, q, K, 3p, t)."""
    left = np.concatenate([z.real, -z.imag], axis=1).transpose(0, 2, 3, 1)  # (N, q, K, 2m)
    wave = np.concatenate([swing.real, swing.imag], axis=1).transpose(0, 2, 1, 3)  # (N, q, 2m, t)
    twice = np.concatenate([gain, gain], axis=-1).swapaxes(2, 3)  # (N, q, 2m, 3p)
    right = twice[..., None] * wave[..., None, :]
    flat = left @ right.reshape(*right.shape[:3], -1)
    return np.asarray(flat.reshape(*flat.shape[:3], gain.shape[2], -1))
