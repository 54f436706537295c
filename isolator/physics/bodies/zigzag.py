"""How each mode of a printer on its feet answers the reversals of an infill zigzag, from rest on.

The tool runs to and fro over a stroke L at speed v with acceleration a. Its acceleration is a train
of rectangular pulses of height a, one way at one end and the other way at the other; it starts in
the middle of a pulse, at rest. Between two jumps of the push a mode swings freely about its static
place, so its motion is exact in time: q(t) = a(t)/ω² − Re Z(t), where Z turns and fades with
exp(λt), λ = −ζω + jω√(1 − ζ²), and jumps with a. The train changes sign every half period H, and so
does what is left of Z when the start has died away; the start itself adds B·exp(λt) to it, whose
sign against the train's after k half periods is that of μᵏ, μ = −exp(λH). [derived]
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from isolator.physics.arrays import Array
from isolator.physics.bodies.reversal import period, stroke_of_period
from isolator.physics.bodies.rigid import cross_matrix

STROKES = (0.001, 0.1)
"""Shortest and longest stroke looked at [m]."""
GRID = 6
"""Strokes, spaced geometrically, that `quick_sway` looks at besides those that hit a mode."""
SHORT = 1.05
"""Factor by which `quick_sway` may be short, where feet are soft enough to isolate anything."""
HIGHEST_ORDER = 9.0
"""Harmonic up to which a mode is sought that even the shortest stroke is too slow for."""
LEADING = 4
"""Modes that `quick_sway` follows: those that can move a point farthest under a still push."""
CHUNK = 512
"""Candidates taken at a time, to stay within the cache."""
Complex = NDArray[np.complexfloating]
Real = NDArray[np.floating]


class Modes(NamedTuple):
    """How modes swing freely, of viscous damping; arrays (…) of a shape of the caller's."""

    fade: Real  # ζω [1/s]
    turn: Real  # ω√(1 − ζ²) [rad/s]
    static: Real  # 1/ω² [s²]
    jump: Complex  # what a jump of the push by one adds to Z [s²]

    @staticmethod
    def of(frequencies: Real, damping: Real) -> Modes:
        """Return modes of `frequencies` (…) [Hz] and `damping` (…) ratios."""
        omega = 2.0 * np.pi * np.maximum(frequencies, 1e-3)
        zeta = np.minimum(damping, 0.99)
        root = np.sqrt(1.0 - zeta**2)
        return Modes(
            zeta * omega, omega * root, 1.0 / omega**2, (1.0 - 1j * zeta / root) / omega**2
        )

    def swung(self, time: Real) -> Complex:
        """Return exp(λt) at `time` [s], of the modes' shape but for axes that come last."""
        extra = (...,) + (None,) * (time.ndim - self.turn.ndim)
        angle, size = self.turn[extra] * time, np.exp(-self.fade[extra] * time)
        out = np.empty(angle.shape, dtype=self.jump.dtype)
        np.multiply(size, np.cos(angle), out=out.real)
        np.multiply(size, np.sin(angle), out=out.imag)
        return out


class Train(NamedTuple):
    """Zigzags, and what Z is in half a period of the steady train; shapes go with the modes'."""

    half: Real  # half a period [s]
    width: Real  # half a pulse [s]
    tail: Complex  # Z in the middle of a pulse
    free: Complex  # between pulses, at first
    head: Complex  # as the next pulse begins
    start: Complex  # B, the start's share
    whole: Complex  # exp(λt) of half a period,
    after: Complex  # half a pulse
    before: Complex  # and of what is left

    @staticmethod
    def of(modes: Modes, length: Real, speed: Array, acceleration: float) -> Train:
        """Return zigzags of strokes `length` [m] at `speed` [m/s]."""
        kind = modes.turn.dtype
        width = np.minimum(speed / acceleration, np.sqrt(length / acceleration)).astype(kind)
        half = (period(length, speed, acceleration) / 2.0).astype(kind)
        after, between = modes.swung(width), modes.swung(np.maximum(half - 2.0 * width, 0.0))
        before = between * after
        whole, jump = after * before, modes.jump
        tail = jump * (after + before) / (1.0 + whole)
        free = tail * after - jump
        head = free * between - jump
        return Train(half, width, tail, free, head, jump - tail, whole, after, before)

    def take(self, row: NDArray[np.intp], which: NDArray[np.intp]) -> Train:
        """Return of each of N systems (`row` (N, 1)) the zigzags `which` (N, q); they lie last."""

        def one(each: Any) -> Any:
            return np.swapaxes(each[row, :, which], 1, 2)

        return Train(*map(one, self))


def amplitude(modes: Modes, train: Train) -> Real:
    """Return how far each mode swings in each zigzag [s²]: what is steady, and the start where they
    meet.

    The start's share turns against the train in every half period; they meet after half a turn, and
    until then it fades.
    """
    static, turn, fade = modes.static, modes.turn, modes.fade
    # in a pulse it swings round its static place, where there is time to come round
    phase = np.angle(-train.tail) / turn
    round_it = np.abs(train.tail) * np.exp(np.clip(fade * phase, -80.0, 80.0))
    pulsed = (np.abs(phase) <= train.width) * (static + round_it)
    # and between pulses round its middle
    angle = -np.angle(train.free)
    until = np.where(angle < 0.0, angle + np.pi, angle) / turn
    free = np.abs(train.free) * np.exp(-np.minimum(fade * until, 80.0))
    ends = np.maximum(np.abs(train.free.real), np.abs(train.head.real + static))
    in_time = until <= train.half - 2.0 * train.width
    between = np.maximum(free * in_time, ends)
    halves = np.pi / np.maximum(np.abs(np.angle(-train.whole)), 1e-6)
    start = np.abs(train.start) * np.exp(-np.minimum(fade * train.half * halves, 80.0))
    return np.asarray(np.maximum(between, pulsed) + start)


def strokes_at(
    frequencies: Array, speeds: Array, acceleration: float, bounds: tuple[float, float], grid: int
) -> Array:
    """Return strokes (N, s, c) [m]: of each mode the one whose lowest harmonic that can hit it
    does, and a grid."""
    highest = 1.0 / period(bounds[0], speeds, acceleration)[:, None]  # (s, 1)
    f = np.maximum(frequencies, 1e-3)[:, None, :]
    order = np.clip(2.0 * np.ceil((f / highest - 1.0) / 2.0) + 1.0, 1.0, HIGHEST_ORDER)
    hit = np.clip(stroke_of_period(order / f, speeds[:, None], acceleration), *bounds)
    every = np.broadcast_to(np.geomspace(*bounds, grid), (*hit.shape[:2], grid))
    return np.concatenate([hit, every], axis=-1)


def gains(shapes: Array, push: Array, points: Array) -> Array:
    """Return the motion (N, q, 3p, m) of points by each mode, per unit of its `amplitude` [m/s²].

    `shapes` (N, 6, m) mass-normalised; `push` (N, q, 6) generalised force; `points` (N, p, 3).
    """
    pull = np.einsum("nim,nqi->nqm", shapes, push)
    turned = cross_matrix(points) @ shapes[:, None, 3:, :]
    moved = (shapes[:, None, :3, :] - turned)[:, None] * pull[:, :, None, None, :]
    return np.asarray(moved.reshape(*push.shape[:2], -1, pull.shape[-1]))


def out_of_step(gain: Real, size: Real) -> Real:
    """Return the squared motion (N, q, k) of the farthest point, the modes' powers added up.

    `gain` (N, q, 3p, m); `size` (N, m, k).
    """
    square = np.square(gain) @ np.square(size)[:, None]
    return np.asarray(
        square.reshape(*gain.shape[:2], -1, 3, size.shape[-1]).sum(axis=3).max(axis=2)
    )


def quick_sway(
    frequencies: Array,
    shapes: Array,
    damping: Array,
    push: Array,
    points: Array,
    speeds: ArrayLike,
    acceleration: float,
    strokes: tuple[float, float] = STROKES,
) -> Array:
    """Return how far each point moves (N, q, p) [m], from rest on, in the zigzag that moves the
    first farthest over strokes and speeds, for many systems.

    `frequencies` (N, m) [Hz], `shapes` (N, 6, m) mass-normalised, `damping` (N, m) ratios, viscous;
    `push` (N, q, 6): generalised force on the printer per unit of the tool's acceleration [kg,
    kg·m], −m ê and its moment; `points` (N, p, 3) from the centre of mass [m]; `speeds` (s,) [m/s];
    `acceleration` [m/s²]. Amplitudes of the modes are added up by their powers, none is followed in
    time. Sways of 0.1 mm and more are within −5 % and +10 % of those followed in time, nineteen in
    twenty within 3 %; smaller ones, of stiff feet, up to a quarter short. Modes that are not stable
    have no sway: leave such systems out.
    """
    v = np.asarray(speeds, dtype=float)
    found = []
    for begin in range(0, len(frequencies), CHUNK):
        n = slice(begin, begin + CHUNK)
        lead, power = _powers(frequencies[n], shapes[n], push[n], points[n])
        frequency, loss = (np.take_along_axis(e[n], lead, axis=1) for e in (frequencies, damping))
        length = strokes_at(frequency, v, acceleration, strokes, GRID)
        speed = np.broadcast_to(v[:, None], length.shape[1:]).reshape(-1, 1)
        # single precision: angles stay good to 1e-3 of a turn
        modes = Modes.of(_last(frequency)[:, None], _last(loss)[:, None])
        train = Train.of(modes, _last(length.reshape(len(length), -1))[None], speed, acceleration)
        size = np.square(amplitude(modes, train))  # (m, k, N)
        best = (power[0, :, :, None] * size).sum(axis=1).argmax(axis=1)  # (q, N)
        there = np.take_along_axis(size[None], best[:, None, None], axis=2)[:, :, 0]  # (q, m, N)
        square = (power * there).sum(axis=2)  # (p, q, N)
        found.append(acceleration * np.sqrt(square.T.astype(float)))
    return np.concatenate(found)


def _last(numbers: Array) -> Real:
    """Return numbers (N, ...) in single precision, their first axis last."""
    return np.ascontiguousarray(np.moveaxis(numbers, 0, -1), dtype=np.float32)


def _powers(
    frequencies: Array, shapes: Array, push: Array, points: Array
) -> tuple[NDArray[np.intp], Real]:
    """Return the `LEADING` modes (N, l) that move points farthest at rest, and the squared motion
    (p, q, l, N) of each point by each of them, per unit of its squared amplitude."""
    shape, pushed, (x, y, z) = _last(shapes), _last(push), _last(points).swapaxes(0, 1)[:, :, None]
    pull = (shape[None] * pushed[:, :, None]).sum(axis=1)  # (q, m, N)
    along, turned = shape[:3], shape[3:]
    moved = np.array(
        [
            along[0] + turned[1] * z - turned[2] * y,
            along[1] + turned[2] * x - turned[0] * z,
            along[2] + turned[0] * y - turned[1] * x,
        ]
    )  # (3, p, m, N)
    reach = np.abs(moved).max(axis=(0, 1)) * np.abs(pull).max(axis=0)
    still = reach / np.maximum(np.abs(_last(frequencies)), 1e-3) ** 2
    lead = np.argpartition(-still, LEADING - 1, axis=0)[:LEADING]
    square = np.take_along_axis(np.square(moved).sum(axis=0), lead[None], axis=1)
    drive = np.take_along_axis(np.square(pull), lead[None], axis=1)
    return lead.T, square[:, None] * drive
