"""How long a foot's screws are: sold lengths for what they go through."""

from __future__ import annotations

from isolator.design import COVER, Foot, attachment_thread
from isolator.design.attachment import FLANGED, SLOTS, fixing_depth
from isolator.design.screws import DIRECT_DEPTH, LENGTHS, screw

THREAD_HELD = 0.8
"""Thread of a slot screw in its nut, in diameters; common practice, no source."""
TAPPED_HELD = 1.5
"""Thread in tapped aluminium, in diameters, at least; common practice, no source."""
PLASTIC_HELD = 2.5
"""Thread of a self-tapping screw in plastic, in diameters; common practice, no source."""
SHORTEST_PLUG = 12e-3
"""A tube's plug is as long as the tube is wide, and this at least [m]."""
LEVELLING = 10e-3
"""By which a stud can be turned out [m]; convention, no source."""
TURNS = 2.0
"""That stand out of a nut; common practice, no source."""
TAPPING_LENGTHS = tuple(each * 1e-3 for each in (9.5, 13, 16, 19, 22, 25, 32, 38))
"""Lengths of self-tapping screws, ISO 7049 (from memory) [m]."""
THIN_NUT = {6: 3.2e-3, 8: 4.0e-3, 10: 5.0e-3}
"""Height of thin nuts, ISO 4035, by thread in mm (from memory) [m]."""


def floor_of(foot: Foot) -> float:
    """Return the plastic between the frame and what is hidden in the cap [m]."""
    thread = attachment_thread(foot.attachment, foot.bolt, foot.tube)
    return foot.cap - COVER - fixing_depth(foot.attachment, thread, foot.fixing)


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
        return foot.cap + THREAD_HELD * thread, free
    if foot.attachment == "self-tapping":
        return foot.cap + PLASTIC_HELD * thread, free
    if foot.attachment in FLANGED:
        return foot.cap + over, free
    if foot.fixing == "direct":
        return 1.5 * thread, DIRECT_DEPTH * thread
    floor = floor_of(foot)
    if from_above(foot):
        return floor + 0.5 * thread, floor + fixing_depth(foot.attachment, thread, foot.fixing)
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
        thin = THIN_NUT.get(round(thread * 1e3), 0.8 * thread)
        return floor + thin + LEVELLING, free
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
