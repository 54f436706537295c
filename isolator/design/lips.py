"""The room that printed corners on a slab find beside the printer's frame [m]."""

from __future__ import annotations

from collections.abc import Sequence

HELD = 25e-3  # along the frame's sides from its corner; common practice, no source
LEAST_SHELF = 3e-3
BESIDE_FRAME = 0.5e-3  # between a corner and the printer's frame
HOLDS = 4e-3  # by which a corner stands over the frame's underside; common practice, no source
CORNERS = ((1, 1), (-1, 1), (-1, -1), (1, -1))
"""Right or left, back or front."""


def beside_frame(
    size: Sequence[float], position: Sequence[float], frame: Sequence[float]
) -> tuple[tuple[float, float], ...]:
    """Return how far a slab stands out beside the printer's frame at each of `CORNERS`, along x
    and along y [m]; less than nothing where it does not.

    `size` and `position` are the slab's, `frame` the printer's outside [m].
    """
    return tuple(
        (
            right * position[0] + (size[0] - frame[0]) / 2.0,
            back * position[1] + (size[1] - frame[1]) / 2.0,
        )
        for right, back in CORNERS
    )


def least_lip(gap: float) -> float:
    """Return the least height of corners over a slab [m] that holds a frame `gap` above it."""
    return gap + HOLDS
