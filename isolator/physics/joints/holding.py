"""Whether an attachment holds: what a foot's screws, plastic and glue feel when it is pushed.

A foot is a rigid block against the frame, pushed sideways at the desk and held down by its weight.
It tips about the edge of its face; screws, floor and glue take what the weight leaves. Linear
statics; printed plastic as a solid with one allowed stress in each direction. What a screw is
tightened by is left out: plastic creeps, so it is not counted on.
"""

from __future__ import annotations

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike

from isolator.physics.arrays import Array

DIRECTIONS = 24
"""In which a push is tried, over a full turn."""
FAR_END = 1.25
"""Of the arm: no more of a flange's end presses back on the frame. Source: EN 1993-1-8, table 6.2
(from memory)."""


def tipping_moment(sideways: float, height: float, load: float, edge: float) -> float:
    """Return the moment [N·m] about the face's edge that the weight does not hold, at least 0.

    `sideways` [N] pushes `height` [m] below the face; `load` [N] presses in the middle, `edge` [m]
    from the edge that the foot would tip about.

    >>> tipping_moment(24.0, 0.025, 30.0, 0.013)
    0.21
    """
    return max(0.0, round(sideways * height - load * edge, 12))


class Tipped(NamedTuple):
    """Largest over all directions of a push."""

    tension: Array  # (n,) of each screw [N]
    heel: float  # moment of the frame's push on a flange's end about the body's side [N·m]


def screw_tension(
    places: ArrayLike,
    inner: ArrayLike,
    outer: ArrayLike,
    sideways: float,
    height: float,
    load: float,
    pull: float,
) -> Tipped:
    """Return what pulls at the screws of a foot that is pushed `sideways` [N] at its `height` [m].

    `places` (n, 2) [m] of the screws, `inner` (2,) [m] half the widths of the face in x and y that
    both body and frame have, `outer` those with the flange. The foot tips about the edge of the
    ellipse in the inner face, the shortest lever a face with round corners can have: a flange
    gives way under the push of the frame. Only where every screw stands on the side that is
    pressed does the flange's end hold, and is bent by what it bears. Tension grows with the
    distance from the edge, as the foot is rigid. `load` [N] presses in the middle, `pull` [N]
    hangs on all screws besides.
    """
    at = np.asarray(places, dtype=float)
    turn = np.arange(DIRECTIONS) * (2.0 * math.pi / DIRECTIONS)
    way = np.stack([np.cos(turn), np.sin(turn)], axis=-1)  # of the push: the foot tips that way
    near, far = (np.hypot(*(np.asarray(half, dtype=float) * way).T) for half in (inner, outer))
    along = way @ at.T  # (directions, n)
    one_sided = (along > 1e-9).all(axis=1)
    edge = np.where(one_sided, np.maximum(near, far), near)
    moment = np.maximum(sideways * height - load * edge, 0.0)
    lever = np.maximum(edge[:, None] - along, 0.0)
    held = (lever**2).sum(axis=1)
    tension = moment[:, None] * lever / np.maximum(held, 1e-30)[:, None]
    heel = np.where(moment > 0, (load + tension.sum(axis=1)) * (edge - near), 0.0)
    return Tipped(tension.max(axis=0) + pull / len(at), float(heel.max()))


def prying(arm: float, end: float) -> float:
    """Return a screw's tension over what it holds, where a flange's end pries against the frame.

    The head keeps the flange flat, so that it bends with F·m/2 at the body and as much at the
    screw, which the end, `end` [m] beyond the screw, holds by Q = F·m/(2n) on the frame. `arm` m
    [m] as `spread_arm` has it; n is at most `FAR_END`·m. Source: the T-stub with hinges at web and
    bolts, EN 1993-1-8, 6.2.4 (from memory), here elastic. Finite elements find the end not held
    quite flat and 0.52·F·m at the body of a long ear: the pried tension in place of F covers it.

    >>> prying(0.004, 0.0025)
    1.8
    """
    return 1.0 + arm / (2.0 * min(end, FAR_END * arm)) if arm > 0 else 1.0


def spread_arm(arm: float, across: float) -> float:
    """Return the arm [m] of a screw whose force is spread under its head, less a quarter of it.

    `arm` [m] from the body's side to the screw, `across` [m] of the head. Source: EN 1993-1-8,
    table 6.2, method 2 (from memory).

    >>> round(spread_arm(0.00525, 0.0095), 9)
    0.002875
    """
    return max(arm - across / 4.0, 0.0)


def drawn_in(place: tuple[float, float], by: float) -> tuple[float, float]:
    """Return a place [m] moved towards the middle `by` a length [m], no further than there.

    >>> drawn_in((0.03, -0.04), 0.01)
    (0.024, -0.032)
    """
    out = math.hypot(*place)
    left = max(1.0 - by / out, 0.0) if out > 0 else 0.0
    return round(place[0] * left, 12), round(place[1] * left, 12)


def bearing_stress(force: float, across: float, hole: float) -> float:
    """Return the pressure [Pa] under a head `across` [m] wide round a `hole` [m].

    >>> round(bearing_stress(40.0, 0.0095, 0.0055))
    848826
    """
    return force / (math.pi / 4.0 * (across**2 - hole**2))


def punching_stress(force: float, across: float, thickness: float) -> float:
    """Return the shear stress [Pa] round a head `across` [m] wide in a plate [m] thick.

    It is as large between the plate's layers as across them.

    >>> round(punching_stress(40.0, 0.0095, 0.004))
    335063
    """
    return force / (math.pi * across * thickness)


def bending_stress(moment: float, width: float, thickness: float) -> float:
    """Return the stress [Pa] of a plate `width` by `thickness` [m] under a moment [N·m]: 6M/(bt²).

    >>> round(bending_stress(0.21, 0.0135, 0.004))
    5833333
    """
    return 6.0 * moment / (width * thickness**2)


def guided_deflection(
    force: float, arm: float, width: float, thickness: float, youngs: float, shear: float
) -> float:
    """Return how far [m] a strip's flat-held end moves: F·m³/(12EI) + 1.2·F·m/(G·b·t).

    `arm`, `width`, `thickness` [m], `youngs`, `shear` [Pa]. Source: beam theory with shear.

    >>> round(guided_deflection(29.0, 0.0029, 0.0135, 0.0032, 26e6, 8.7e6) * 1e3, 3)
    0.33
    """
    inertia = width * thickness**3 / 12.0
    bent = force * arm**3 / (12.0 * youngs * inertia)
    return bent + 1.2 * force * arm / (shear * width * thickness)


def middle_moment(pull: float, reach: float, wide: float) -> float:
    """Return the moment [N·m] in the middle of a cap between two screws under a `pull` [N].

    The pull is spread over the pad, `wide` [m]; each screw stands `reach` [m] from the middle.

    >>> round(middle_moment(20.0, 0.022, 0.036), 9)
    0.13
    """
    return max(0.0, pull / 2.0 * (reach - wide / 4.0))


def thread_stress(force: float, diameter: float, length: float, share: float = 0.5) -> float:
    """Return the shear stress [Pa] on the cylinder in which a screw's thread holds.

    `share` of the cylinder π·d·L is solid between the turns; a half: common practice, no source.

    >>> round(thread_stress(40.0, 0.005, 0.0125))
    407437
    """
    return force / (share * math.pi * diameter * length)


def stress_area(diameter: float, pitch: float) -> float:
    """Return a metric thread's tensile stress area [m²], π/4·(d − 0.9382·P)². Source: ISO 898-1.

    >>> round(stress_area(0.006, 0.001) * 1e6, 1)
    20.1
    """
    return math.pi / 4.0 * (diameter - 0.9382 * pitch) ** 2


def screw_bending(moment: float, diameter: float, pitch: float) -> float:
    """Return the stress [Pa] of a bent screw, M/(π·d³/32) at the diameter of its stress area.

    >>> round(screw_bending(0.6, 0.006, 0.001) / 1e6)
    47
    """
    return moment / (math.pi * (diameter - 0.9382 * pitch) ** 3 / 32.0)


def socket_pressure(moment: float, width: float, length: float) -> float:
    """Return the largest pressure [Pa] of a stiff plug in its socket, 6·M/(d·h²).

    `moment` [N·m] about the middle of its `length` [m]; pressure linear over the length, even over
    the `width` [m], and opposite at both ends.

    >>> round(socket_pressure(0.75, 0.013, 0.0131) / 1e6, 2)
    2.02
    """
    return 6.0 * moment / (width * length**2)


def tube_bending(moment: float, outer: float, inner: float) -> float:
    """Return the stress [Pa] of a bent tube of the diameters `outer`, `inner` [m].

    >>> round(tube_bending(0.6, 0.0133, 0.0085) / 1e6, 2)
    3.12
    """
    return moment / (math.pi / 32.0 * (outer**4 - inner**4) / outer)


def peel_stress(moment: float, pull: float, width: float, depth: float, *, disc: bool) -> float:
    """Return the largest tension [Pa] at the edge of a glued face under a moment and a pull.

    The face is a rectangle `width` by `depth` [m], bent about its long side, or a disc of diameter
    `width`: σ = M/W + F/A with W = b·h²/6 and π·d³/32.
    """
    if disc:
        return moment / (math.pi * width**3 / 32.0) + pull / (math.pi * width**2 / 4.0)
    long, short = max(width, depth), min(width, depth)
    return moment / (long * short**2 / 6.0) + pull / (long * short)
