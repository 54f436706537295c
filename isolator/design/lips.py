"""The room that printed corners on a slab find beside the printer's frame [m]."""

from __future__ import annotations

from collections.abc import Sequence

LEG = 40e-3  # along the slab's edges from its corner; common practice, no source
PART_OF_SIDE = 0.3  # of the slab's shorter side that a leg may take
SHELF = 8e-3  # on the slab's upper face
LEAST_SHELF = 3e-3
BESIDE_FRAME = 0.5e-3  # between a lip and the printer's frame
UNDER_FRAME = 1e-3  # from a lip up to a frame that goes over it
CORNERS = ((1, 1), (-1, 1), (-1, -1), (1, -1))
"""Right or left, back or front."""


def leg_of(size: Sequence[float]) -> float:
    """Return how far a corner reaches along the edges of a slab of `size` [m]."""
    return min(LEG, PART_OF_SIDE * min(size[:2]))


def shelf_of(
    size: Sequence[float], position: Sequence[float], gap: float, lip: float, frame: Sequence[float]
) -> float:
    """Return how far lips may reach in over a slab [m], up to the frame that they would meet.

    `size`, `position`, `gap`, `lip` are the slab's, `frame` the printer's outside [m]. Below
    `LEAST_SHELF` there is no room for lips.
    """
    if lip + UNDER_FRAME <= gap:
        return SHELF
    leg, room = leg_of(size), SHELF
    for corner in CORNERS:
        # from the frame's side out to the slab's, along x and y, at this corner
        beside = [
            sign * at + side / 2.0 - own / 2.0
            for sign, at, side, own in zip(corner, position, size[:2], frame[:2], strict=True)
        ]
        for across, along in (beside, beside[::-1]):
            if along < leg:  # the frame reaches as far as this arm
                room = min(room, across - BESIDE_FRAME)
    return round(room, 9)
