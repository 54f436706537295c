"""How long a foot's screws are: sold lengths for what they go through."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

from isolator.design import COVER, Foot
from isolator.design.attachment import LEVELLING, PLUG_NUT, SHORTEST_PLUG, SPARE
from isolator.design.attachment_room import fixing_depth
from isolator.design.screws import (
    DIRECT_DEPTH,
    LARGE_WASHER,
    TAPPING_LENGTHS,
    Screw,
    kept_lengths,
    screw,
    washer_row,
)

THREAD_HELD = 0.8
"""Thread of a slot screw in its nut, in diameters; common practice, no source."""
TAPPED_HELD = 1.5
"""Thread in tapped aluminium, in diameters, at least; common practice, no source."""
PLASTIC_HELD = 2.5
"""Thread of a self-tapping screw in plastic, in diameters; common practice, no source."""
MARGIN = 0.5e-3
"""Of the spare room behind a nut or insert that a screw may use [m]."""
LEAST_HELD = 0.6
"""Thread in a nut or insert in the cap, in diameters, at least; no source."""
LEAST_PLASTIC = 2.0
"""The same of a self-tapping screw in plastic; common practice, no source."""
THICKER = 8e-3
"""By so much an ear may grow until a sold screw fits [m]; more is no ear."""
TURNS = 2.0
"""That stand out of a nut; common practice, no source."""


def floor_of(foot: Foot) -> float:
    """Return the plastic between the frame and what is hidden in the cap [m]."""
    return foot.cap - COVER - fixing_depth(foot.attachment, foot.thread, foot.fixing)


def washer_height(foot: Foot) -> float:
    """Return the height of the washer under the head of a screw from above [m]."""
    usual = screw(foot.thread).washer_height
    return LARGE_WASHER.get(round(foot.thread * 1e3), usual) if foot.fastening.sheet else usual


def reach(foot: Foot) -> tuple[float, float]:
    """Return the shortest and longest screw [m] that a foot takes, the frame's grip left out.

    Measured under the head. A screw that stands up may be as long as there is room above; infinite
    then.
    """
    thread = foot.thread
    if foot.fastening.flanged or not foot.from_above:
        least, most = _REACHES[foot.fastening.way](foot, thread, screw(thread))
        washer = washer_row(thread).washer_height if foot.soft_flange else 0.0
        return least + washer, most + washer
    under = washer_height(foot)
    if foot.fixing == "direct":
        return under + 1.5 * thread, under + DIRECT_DEPTH * thread + MARGIN
    floor = floor_of(foot)
    deep = fixing_depth(foot.attachment, thread, foot.fixing) - SPARE
    return under + floor + LEAST_HELD * thread, under + floor + deep + MARGIN


Reach = tuple[float, float]


def _over(row: Screw) -> float:
    """Return what a nut and its washer take of a screw [m]."""
    return row.washer_height + row.nut_height + TURNS * row.pitch


def _into_slot(foot: Foot, thread: float, _: Screw) -> Reach:
    slot = foot.fastening.slot
    if slot is None:
        raise ValueError(f"{foot.attachment} has no slot")
    return foot.cap + slot.lip + LEAST_HELD * thread, foot.cap + slot.depth


def _into_plastic(foot: Foot, thread: float, _: Screw) -> Reach:
    if foot.grip <= 0:
        return foot.cap + PLASTIC_HELD * thread, math.inf
    # it may not come out on the other side
    return foot.cap + LEAST_PLASTIC * thread, foot.cap + foot.grip - MARGIN


def _through_plug(foot: Foot, thread: float, row: Screw) -> Reach:
    # to 0.8 diameters into the nut
    nut = max(foot.tube, SHORTEST_PLUG) - PLUG_NUT - row.nut_height
    return floor_of(foot) + nut + THREAD_HELD * thread, math.inf


def _into_socket(foot: Foot, thread: float, _: Screw) -> Reach:
    # longer would lift the rod off its socket's closed end
    return floor_of(foot) + 1.5 * thread, floor_of(foot) + DIRECT_DEPTH * thread


_REACHES: dict[str, Callable[[Foot, float, Screw], Reach]] = {
    "slot": _into_slot,
    "tapping": _into_plastic,
    "through": lambda foot, _, row: (foot.cap + _over(row), math.inf),
    "driven": lambda foot, thread, _: (floor_of(foot) + TAPPED_HELD * thread, math.inf),
    "plug": _through_plug,
    "socket": _into_socket,
    # half of the levelling is turned out as drawn; the other half still has to be there
    "stud": lambda foot, *_: (floor_of(foot) + foot.lift + LEVELLING / 2.0, math.inf),
    "captive": lambda foot, _, row: (floor_of(foot) + _over(row), math.inf),
}
"""How long the screw of each way to hold a foot may be, not from above."""


def screw_length(foot: Foot) -> float | None:
    """Return the sold length [m] that a foot's screws need.

    None where the frame is not known, or where no sold length fits. Screws whose room ends are as
    long as they may be, others as short as they can.
    """
    if not _known(foot):
        return None
    least, most = _lengths(foot)
    fits = [each for each in _sold(foot) if least - 1e-9 <= each <= most + 1e-9]
    if not fits:
        return None
    return fits[-1] if most < math.inf else fits[0]


def missing(foot: Foot) -> float:
    """Return by how much the nearest sold screw is too long or too short for a foot [m].

    0 where one fits, where there is no screw, or where the frame is not known.
    """
    if foot.thread == 0 or not _known(foot) or screw_length(foot) is not None:
        return 0.0
    least, most = _lengths(foot)
    if least > most:
        return least - most  # a screw that held would come through
    return min(max(least - each, each - most) for each in _sold(foot))


def ear_that_fits(foot: Foot, layer: float) -> tuple[float, float] | None:
    """Return the least thicker ear or cap [m] that a sold screw fits, and that screw's length [m].

    In whole layers [m], up to `THICKER` more; None where none does.
    """
    for more in range(1, math.floor(THICKER / layer) + 1):
        ear = round(foot.cap + more * layer, 9)
        length = screw_length(replace(foot, cap=ear))
        if length is not None:
            return ear, length
    return None


def _known(foot: Foot) -> bool:
    return not foot.fastening.gripping or foot.grip > 0


def _sold(foot: Foot) -> tuple[float, ...]:
    return TAPPING_LENGTHS if foot.fastening.tapping else kept_lengths(foot.thread)


def _lengths(foot: Foot) -> Reach:
    """Return the shortest and longest screw [m] of a foot, the frame's grip counted in."""
    least, most = reach(foot)
    grip = foot.grip if foot.fastening.gripping else 0.0
    return least + grip, most + grip
