"""How long a foot's screws are: sold lengths for what they go through."""

from __future__ import annotations

from isolator.design import COVER, Foot, attachment_thread
from isolator.design.attachment import FLANGED, LEVELLING, SLOTS, SPARE, fixing_depth
from isolator.design.screws import DIRECT_DEPTH, LARGE_WASHER, LENGTHS, screw

THREAD_HELD = 0.8
"""Thread of a slot screw in its nut, in diameters; common practice, no source."""
TAPPED_HELD = 1.5
"""Thread in tapped aluminium, in diameters, at least; common practice, no source."""
PLASTIC_HELD = 2.5
"""Thread of a self-tapping screw in plastic, in diameters; common practice, no source."""
SHORTEST_PLUG = 12e-3
"""A tube's plug is as long as the tube is wide, and this at least [m]."""
LIPS = {"slot-20": 1.8e-3, "slot-30": 2.2e-3, "slot-40": 4.5e-3}
"""Thickness of a profile beside its slot [m]; usual profiles, common practice, no source."""
DEPTHS = {"slot-20": 6.2e-3, "slot-30": 9.0e-3, "slot-40": 12.0e-3}
"""Depth of a profile's slot, less a little [m]; usual profiles, from memory."""
MARGIN = 0.5e-3
"""Of the spare room behind a nut or insert that a screw may use [m]."""
LEAST_HELD = 0.6
"""Thread in a nut or insert in the cap, in diameters, at least; no source."""
LEAST_PLASTIC = 2.0
"""The same of a self-tapping screw in plastic; common practice, no source."""
TURNS = 2.0
"""That stand out of a nut; common practice, no source."""
TAPPING_LENGTHS = tuple(each * 1e-3 for each in (9.5, 13, 16, 19, 22, 25, 32, 38))
"""Lengths of self-tapping screws, ISO 7049 (from memory) [m]."""


def floor_of(foot: Foot) -> float:
    """Return the plastic between the frame and what is hidden in the cap [m]."""
    thread = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    return foot.cap - COVER - fixing_depth(foot.attachment, thread, foot.fixing)


def washer_height(foot: Foot) -> float:
    """Return the height of the washer under the head of a screw from above [m]."""
    thread = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    row = screw(thread)
    if foot.attachment == "panel":
        return LARGE_WASHER.get(round(thread * 1e3), row.washer_height)
    return row.washer_height


def from_above(foot: Foot) -> bool:
    """Return whether the foot's screw comes from above, through the frame."""
    return foot.fixing in ("nut", "insert", "direct")


def reach(foot: Foot) -> tuple[float, float]:
    """Return the shortest and longest screw [m] that a foot takes, the frame's grip left out.

    Measured under the head. A flange's screw and one that stands up may be as long as there is
    room above; infinite then.
    """
    thread = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    row, free = screw(thread), float("inf")
    over = row.washer_height + row.nut_height + TURNS * row.pitch
    if foot.attachment in SLOTS:
        least = foot.cap + LIPS[foot.attachment] + LEAST_HELD * thread
        return least, foot.cap + DEPTHS[foot.attachment]
    if foot.attachment == "self-tapping":
        if foot.grip <= 0:
            return foot.cap + PLASTIC_HELD * thread, free
        # it may not come out on the other side
        return foot.cap + LEAST_PLASTIC * thread, foot.cap + foot.grip - MARGIN
    if foot.attachment in FLANGED:
        return foot.cap + over, free
    under = washer_height(foot)
    if foot.fixing == "direct":
        return under + 1.5 * thread, under + DIRECT_DEPTH * thread + MARGIN
    floor = floor_of(foot)
    if from_above(foot):
        deep = fixing_depth(foot.attachment, thread, foot.fixing) - SPARE
        return under + floor + LEAST_HELD * thread, under + floor + deep + MARGIN
    if foot.attachment == "tapped-end":
        return floor + TAPPED_HELD * thread, free
    if foot.attachment == "tube-end":
        # to 0.8 diameters into the nut, which lies half a millimetre below the plug's end
        nut = max(foot.tube, SHORTEST_PLUG) - 0.5e-3 - row.nut_height
        return floor + nut + THREAD_HELD * thread, free
    if foot.attachment == "rod-end":
        # longer would lift the rod off its socket's closed end
        return floor + 1.5 * thread, floor + DIRECT_DEPTH * thread
    if foot.attachment == "stud":
        # half of the levelling is turned out as drawn; the other half still has to be there
        return floor + foot.lift + LEVELLING / 2.0, free
    return floor + over, free


def screw_length(foot: Foot) -> float | None:
    """Return the sold length [m] that a foot's screws need, None where the frame is not known.

    Screws whose room ends are as long as they may be, others as short as they can.
    """
    least, most = reach(foot)
    gripping = foot.attachment not in (*SLOTS, "self-tapping", "tapped-end", "tube-end", "rod-end")
    if gripping and foot.grip <= 0:
        return None
    grip = foot.grip if gripping else 0.0
    sold = TAPPING_LENGTHS if foot.attachment == "self-tapping" else LENGTHS
    if most < float("inf"):
        fits = [each for each in sold if least + grip - 1e-9 <= each <= most + grip + 1e-9]
        return fits[-1] if fits else None
    return next((each for each in sold if each >= least + grip - 1e-9), None)
