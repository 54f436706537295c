"""Reversals of an infill zigzag: how far they sway a printer on its feet.

The tool runs to and fro over a stroke L at speed v with acceleration a. Its acceleration is a train
of rectangular pulses of height a, one way at one end and the other way at the other, so it holds
odd harmonics alone. Each swings the modes of the printer on its feet.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array, Complex
from isolator.physics.bodies.rigid import cross_matrix

ORDERS = np.array([1.0, 3.0, 5.0, 7.0, 9.0])
"""Harmonics summed; in a square wave those left out hold under 4 % of the power."""
PHASES = 32
"""Moments looked at in half a period (the other half is its mirror)."""
STROKES = (0.001, 0.1)
"""Shortest and longest stroke looked at [m]."""
GRID = 6
"""Strokes, spaced geometrically, looked at besides those that hit a mode."""
PUSH = 3  # where the push stands among the arrays of `worst_sway`
CHUNK = 1024
"""Candidates taken at a time, to stay within the cache."""


def period(stroke: ArrayLike, speed: ArrayLike, acceleration: ArrayLike) -> Array:
    """Return the time [s] of one zigzag to and fro, 2(L/v + v/a), or 4√(L/a) where L < v²/a.

    `stroke` L [m], `speed` v [m/s], `acceleration` a [m/s²]. In the second case the tool never
    reaches its speed (its velocity is a triangle).
    """
    length, v, a = np.asarray(stroke, dtype=float), np.asarray(speed), np.asarray(acceleration)
    top = np.minimum(v, np.sqrt(a * length))
    return np.asarray(2 * (length / top + top / a))


def stroke_of_period(time: ArrayLike, speed: ArrayLike, acceleration: ArrayLike) -> Array:
    """Return the stroke [m] whose zigzag takes `time` [s]; the inverse of `period`."""
    half, v, a = np.asarray(time, dtype=float) / 2, np.asarray(speed), np.asarray(acceleration)
    return np.asarray(np.where(half < 2 * v / a, a * half**2 / 4, v * (half - v / a)))


def acceleration_harmonics(
    stroke: ArrayLike, speed: ArrayLike, acceleration: ArrayLike, orders: ArrayLike = ORDERS
) -> Array:
    """Return the Fourier coefficients (..., n) [m/s²] of the tool's acceleration.

    a(t) = Σ A_n cos(nω₀t) over odd n, t = 0 in the middle of one reversal; a pulse lasts 2v/a, or
    half a period for a triangle: A_n = (4a/nπ)·sin(nω₀·v/a). [derived]
    """
    length, v, a = np.asarray(stroke, dtype=float), np.asarray(speed), np.asarray(acceleration)
    n = np.asarray(orders, dtype=float)
    width = np.minimum(v, np.sqrt(a * length)) / a
    angle = 2 * np.pi / period(length, v, a) * width
    return np.asarray(4 * np.asarray(a)[..., None] / (n * np.pi) * np.sin(n * angle[..., None]))


class WorstSway(NamedTuple):
    """Worst sway of each candidate: peak motion (..., p) [m] of each point, with the stroke
    [m] and the speed [m/s] that make the largest of them (...)."""

    peak: Array
    stroke: Array
    speed: Array


def worst_sway(
    frequencies: ArrayLike,
    shapes: ArrayLike,
    loss_factors: ArrayLike,
    push: ArrayLike,
    points: ArrayLike,
    speeds: ArrayLike,
    acceleration: float,
    strokes: tuple[float, float] = STROKES,
) -> WorstSway:
    """Return the largest steady sway over all strokes and speeds, by modal superposition.

    `frequencies` (..., m) [Hz], `shapes` (..., 6, m) mass-normalised, `loss_factors` (..., m);
    `push` (..., 6): generalised force on the printer per unit of the tool's acceleration [kg,
    kg·m], −m ê and its moment; `points` (..., p, 3) from the centre of mass [m], whose motion is
    asked; `speeds` (s,) [m/s]; `acceleration` [m/s²].
    Looked at are, for each mode, the stroke whose lowest harmonic that can hit it does, and a
    coarse grid. The worst is picked by the sum, and by the root of the squared sum, of the
    harmonics' amplitudes and then followed through half a period. Against 51 harmonics at 600
    strokes it is within 1 % for loss factors up to 0.2, 3 % up to 0.4, 6 % up to 0.8; where the
    zigzag is too slow to reach a mode (stiff feet, hardly any sway) up to 20 % short at 0.8.
    Coupling of modes through damping is left out. Modes that are not stable have no sway: leave
    such candidates out.
    """
    parts = [np.asarray(a, dtype=float) for a in (frequencies, shapes, loss_factors, push, points)]
    rest = (1, 2, 1, 1, 2)
    lead = np.broadcast_shapes(*(a.shape[: a.ndim - r] for a, r in zip(parts, rest, strict=True)))
    # pushes along the last dimension that share all else share their modes' motion too
    shared = len(lead) > 0 and all(
        a.ndim <= r or a.shape[a.ndim - r - 1] == 1
        for number, (a, r) in enumerate(zip(parts, rest, strict=True))
        if number != PUSH
    )
    many = lead[-1] if shared else 1
    flat = []
    for number, (a, r) in enumerate(zip(parts, rest, strict=True)):
        whole = np.broadcast_to(a, (*lead, *a.shape[a.ndim - r :]))
        rows = whole.reshape(-1, many, *a.shape[a.ndim - r :])
        flat.append(rows if number == PUSH else rows[:, 0])
    v = np.asarray(speeds, dtype=float)
    f, shape, loss, pushed, place = flat
    pieces = []
    for start in range(0, len(f), CHUNK):
        n = slice(start, start + CHUNK)
        part = _worst(f[n], shape[n], loss[n], pushed[n], place[n], v, acceleration, strokes)
        pieces.append(part)
    peak, stroke, speed = (np.concatenate(column) for column in zip(*pieces, strict=True))
    return WorstSway(peak.reshape(*lead, -1), stroke.reshape(lead), speed.reshape(lead))


def _worst(
    frequencies: Array,
    shapes: Array,
    loss: Array,
    push: Array,
    points: Array,
    speeds: Array,
    acceleration: float,
    strokes: tuple[float, float],
) -> WorstSway:
    """Do `worst_sway` for one chunk, leading dimension N; `push` (N, q, 6) makes it (N, q)."""
    count, many = push.shape[:2]
    pull = np.einsum("nim,nqi->nqm", shapes, push)
    turned = cross_matrix(points) @ shapes[:, None, 3:, :]
    moved = (shapes[:, None, :3, :] - turned)[:, None] * pull[:, :, None, None, :]
    gains = moved.reshape(count, many, -1, pull.shape[-1])
    length = _strokes(frequencies, speeds, acceleration, strokes)  # (N, s, c)
    driven = _harmonics(frequencies, loss, length, speeds, acceleration)  # (N, m, s, c, h)
    size = driven.shape[2:]
    swing = np.abs(gains @ driven.reshape(count, 1, -1, int(np.prod(size))))
    swing = swing.reshape(count, many, -1, 3, *size)
    row = np.arange(count)[:, None]
    wave = np.exp(1j * ORDERS[:, None] * np.linspace(0, np.pi, PHASES, endpoint=False))
    none = np.zeros((count, many))
    result = WorstSway(np.zeros((count, many, points.shape[1])), none, none)
    # harmonics in step add up, out of step their powers do: look at the worst of either kind
    # a product with ones sums a short last axis far faster than a reduction does
    ones = np.ones(len(ORDERS))
    for amplitude in (swing @ ones, np.sqrt(np.square(swing) @ ones)):
        score = np.square(amplitude).sum(axis=3).max(axis=2).reshape(count, many, -1)
        which = (row, *np.unravel_index(np.argmax(score, axis=2), size[:2]))
        motion = np.real(gains @ driven.transpose(0, 2, 3, 1, 4)[which] @ wave)
        peak = np.sqrt(
            np.square(motion.reshape(count, many, -1, 3, PHASES)).sum(axis=3).max(axis=-1)
        )
        worse = peak.max(axis=-1) > result.peak.max(axis=-1)
        result = WorstSway(
            np.where(worse[..., None], peak, result.peak),
            np.where(worse, length[which], result.stroke),
            np.where(worse, speeds[which[1]], result.speed),
        )
    return result


def _strokes(
    frequencies: Array, speeds: Array, acceleration: float, strokes: tuple[float, float]
) -> Array:
    """Return the strokes (N, s, c) to look at: one for each mode, then the grid."""
    highest = 1 / period(strokes[0], speeds, acceleration)[:, None]  # (s, 1)
    f = np.maximum(frequencies, 1e-3)[:, None, :]
    order = np.clip(2 * np.ceil((f / highest - 1) / 2) + 1, 1, ORDERS[-1])
    hit = stroke_of_period(order / f, speeds[:, None], acceleration)
    grid = np.geomspace(*strokes, GRID)
    every = np.broadcast_to(grid, (*hit.shape[:2], GRID))
    return np.concatenate([np.clip(hit, *strokes), every], axis=-1)


def _harmonics(
    frequencies: Array, loss: Array, length: Array, speeds: Array, acceleration: float
) -> Complex:
    """Return the modal motion (N, m, s, c, h) per unit of modal push."""
    v = speeds[:, None]
    size = acceleration_harmonics(length, v, np.full_like(v, acceleration))  # (N, s, c, h)
    square = np.square(2 * np.pi * ORDERS / period(length, v, acceleration)[..., None])
    own = np.square(2 * np.pi * frequencies)[:, :, None, None, None]
    # size/(own·(1 + jη) − square), written out: complex division takes four times as long
    real, lost = own - square[:, None], own * loss[:, :, None, None, None]
    scale = size[:, None] / (np.square(real) + np.square(lost))
    motion = np.empty(scale.shape, dtype=complex)
    motion.real, motion.imag = scale * real, -scale * lost
    return motion


def step_factor(damping_ratio: ArrayLike) -> Array:
    """Return the peak over the static displacement after a step of force, 1 + e^(−πζ/√(1 − ζ²)).

    One mode, viscous damping, ζ < 1; 2 without damping.
    """
    zeta = np.asarray(damping_ratio, dtype=float)
    return np.asarray(1 + np.exp(-np.pi * zeta / np.sqrt(1 - zeta**2)))


def slip_margin(
    moving_mass: ArrayLike, acceleration: ArrayLike, weight: ArrayLike, friction: ArrayLike
) -> Array:
    """Return friction's limit over the reversal's push, µW/(m·a); under 1 the printer walks.

    `weight` [N] on all feet. The feet's own resonance raises the push: give the acceleration with
    its factor where the zigzag may hit a mode.
    """
    push = np.asarray(moving_mass) * np.asarray(acceleration)
    return np.asarray(np.asarray(friction) * np.asarray(weight) / push)


def tip_margin(
    positions: ArrayLike, com_xy: ArrayLike, weight: ArrayLike, force: ArrayLike, height: ArrayLike
) -> Array:
    """Return by how much a push may grow until the first foot line is the tipping edge.

    `positions` (s, 2) and `com_xy` (..., 2) in plan [m]; `weight` (...) [N]; `force` (..., 2)
    horizontal push [N] at `height` (...) [m] above the floor. The weight's line shifts by
    force·height/weight; the margin is its distance to the edge of the feet's outline along the
    push, over that shift. Static; zero or less where the centre lies outside already.
    """
    place = np.asarray(positions, dtype=float)
    com, push = np.asarray(com_xy, dtype=float), np.asarray(force, dtype=float)
    shift = push * (np.asarray(height) / np.asarray(weight))[..., None]
    edge = place[None, :, :] - place[:, None, :]  # from foot i to foot j
    normal = np.stack([edge[..., 1], -edge[..., 0]], axis=-1)  # outward if all feet lie left
    side = np.einsum("ijk,ijmk->ijm", normal, place[None, None] - place[:, None, None])
    reach = 1e-12 * np.abs(edge).max() ** 2
    outline = (side <= reach).all(axis=-1) & (np.abs(edge).sum(axis=-1) > 0)
    first, second = np.nonzero(outline)
    n, start = normal[first, second], place[first]
    room = ((start - com[..., None, :]) * n).sum(axis=-1)
    rate = (shift[..., None, :] * n).sum(axis=-1)
    steps = np.where(rate > 0, room / np.where(rate > 0, rate, 1.0), np.inf)
    return np.asarray(steps.min(axis=-1))
