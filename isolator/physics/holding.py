"""Whether an attachment holds: what a foot's screws, plastic and glue feel when it is pushed.

A foot is a rigid block against the frame, pushed sideways at the desk and held down by its weight.
It tips about the edge of its face; screws, floor and glue take what the weight leaves. Linear
statics; printed plastic as a solid with one allowed stress in each direction.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import ArrayLike, NDArray

Array = NDArray[np.float64]

DIRECTIONS = 24
"""In which a push is tried, over a full turn."""


def tipping_moment(sideways: float, height: float, load: float, edge: float) -> float:
    """Return the moment [N·m] about the face's edge that the weight does not hold, at least 0.

    `sideways` [N] pushes `height` [m] below the face; `load` [N] presses in the middle, `edge` [m]
    from the edge that the foot would tip about.

    >>> tipping_moment(24.0, 0.025, 30.0, 0.013)
    0.21
    """
    return max(0.0, round(sideways * height - load * edge, 12))


def screw_tension(
    places: ArrayLike, edges: ArrayLike, sideways: float, height: float, load: float, pull: float
) -> Array:
    """Return the largest tension (n,) [N] of each screw over all directions of a push.

    `places` (n, 2) [m] of the screws, `edges` (2,) [m] half the widths of the face in x and y: the
    foot tips about the straight edge of that rectangle's ellipse, the shortest lever a face with
    round corners can have. Tension grows with the distance from that edge, as the foot is rigid.
    `pull` [N] hangs on all screws besides.
    """
    at = np.asarray(places, dtype=float)
    half = np.asarray(edges, dtype=float)
    turn = np.arange(DIRECTIONS) * (2.0 * math.pi / DIRECTIONS)
    way = np.stack([np.cos(turn), np.sin(turn)], axis=-1)  # of the push: the foot tips that way
    edge = np.hypot(half[0] * way[:, 0], half[1] * way[:, 1])
    moment = np.maximum(sideways * height - load * edge, 0.0)
    lever = np.maximum(edge[:, None] - way @ at.T, 0.0)  # (directions, n)
    held = (lever**2).sum(axis=1)
    tension = moment[:, None] * lever / np.maximum(held, 1e-30)[:, None]
    return np.asarray(tension.max(axis=0) + pull / len(at))


def bearing_stress(force: float, across: float, hole: float) -> float:
    """Return the pressure [Pa] under a head `across` [m] wide round a `hole` [m].

    >>> round(bearing_stress(40.0, 0.0095, 0.0055))
    848826
    """
    return force / (math.pi / 4.0 * (across**2 - hole**2))


def punching_stress(force: float, across: float, thickness: float) -> float:
    """Return the shear stress [Pa] round a head `across` [m] wide in a plate [m] thick.

    >>> round(punching_stress(40.0, 0.0095, 0.004))
    335063
    """
    return force / (math.pi * across * thickness)


def cantilever_stress(force: float, arm: float, width: float, thickness: float) -> float:
    """Return the bending stress [Pa] where a plate leaves the body: 6·F·a/(b·t²).

    `arm` [m] from the body's side to the screw, `width` of the plate there, `thickness` [m]. A
    clamped plate; what the body gives way makes the stress less. Source: beam theory.

    >>> round(cantilever_stress(40.0, 0.00525, 0.0135, 0.004))
    5833333
    """
    return 6.0 * force * arm / (width * thickness**2)


def thread_stress(force: float, diameter: float, length: float, share: float = 0.5) -> float:
    """Return the shear stress [Pa] on the cylinder in which a screw's thread holds in plastic.

    `share` of the cylinder π·d·L is plastic between the turns; a half: common practice, no source.

    >>> round(thread_stress(40.0, 0.005, 0.0125))
    407437
    """
    return force / (share * math.pi * diameter * length)


def peel_stress(moment: float, pull: float, width: float, depth: float, *, disc: bool) -> float:
    """Return the largest tension [Pa] at the edge of a glued face under a moment and a pull.

    The face is a rectangle `width` by `depth` [m], bent about its long side, or a disc of diameter
    `width`: σ = M/W + F/A with W = b·h²/6 and π·d³/32.
    """
    if disc:
        return moment / (math.pi * width**3 / 32.0) + pull / (math.pi * width**2 / 4.0)
    long, short = max(width, depth), min(width, depth)
    return moment / (long * short**2 / 6.0) + pull / (long * short)
