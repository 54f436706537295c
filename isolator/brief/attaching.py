"""Reading how feet are held: the attachment of [feet] and what it needs."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import combinations
from typing import NamedTuple

from isolator.design import ATTACHMENTS
from isolator.design.attachment import (
    CHOOSES_FIXING,
    FIXINGS,
    HEAD_GAP,
    SLOTS,
    attachment_thread,
    head,
)
from isolator.design.axes import Pair
from isolator.design.screws import INSERTS, SCREWS, SELF_TAPPING
from isolator.reading.notes import shown
from isolator.reading.table import Section
from isolator.reading.units import format_quantity
from isolator.reading.values import read_quantities

GRIPPED = ("bolt", "two-bolts", "panel", "stud", "holes", "self-tapping")
"""Attachments whose screws go through the frame, or as deep into it as it is thick."""
SPACED = ("two-bolts", "self-tapping")
"""Attachments held by two screws in line."""
IN_SLOT = {
    "slot-20": (0.003, 0.004, 0.005),
    "slot-30": (0.004, 0.005, 0.006, 0.008),
    "slot-40": (0.004, 0.005, 0.006, 0.008),
}
"""Threads that slot nuts are sold with [m]; common practice, no source."""
WIDEST_KEY = 10.3e-3
"""Slot whose key's groove can still be bridged [m]."""
LEAST_ROD = 6e-3
"""A thinner rod finds nothing to stand on round the socket's screw [m]."""
MOST_HOLES = 12
_NONE = ("adhesive", "tube-end", "rod-end")
"""Attachments whose thread is not asked for."""


class Fixing(NamedTuple):
    """How feet are held, as isolator.design.Foot has it [m]."""

    attachment: str
    bolt: float = 0.0
    tube: float = 0.0
    rod: float = 0.0
    holes: tuple[Pair, ...] = ()
    grip: float = 0.0
    fixing: str = "screw"
    slot_along: str = "x"
    slot_key: float = 0.0


def read_fixing(section: Section) -> Fixing:
    """Return the attachment with all that goes with it; keys of other attachments are ignored
    with a warning."""
    attachment = section.choice(
        "attachment", ATTACHMENTS, "adhesive", "fits any frame with a flat underside"
    )
    fixing = "screw"
    if _wanted(section, "fixing", attachment, CHOOSES_FIXING):
        fixing = section.choice("fixing", FIXINGS, "screw", "its head is hidden in the foot")
    bolt = 0.0
    threaded = tuple(each for each in ATTACHMENTS if each not in _NONE)
    if _wanted(section, "bolt", attachment, threaded):
        usual = 0.005 if attachment == "bolt" else attachment_thread(attachment, 0.0, 0.0)
        bolt = section.quantity("bolt", "m", usual, "goes with the attachment")
        _judge_thread(section, attachment, fixing, bolt)
    tube = rod = 0.0
    if _wanted(section, "tube", attachment, ("tube-end",)):
        tube = section.quantity("tube", "m", usual=(0.01, 0.06))
    if _wanted(section, "rod", attachment, ("rod-end",)):
        rod = section.quantity("rod", "m", usual=(0.006, 0.03))
        if rod < LEAST_ROD:
            section.notes.fault(
                section.path("rod"),
                format_quantity(rod, "mm"),
                f"{format_quantity(LEAST_ROD, 'mm')} or more",
                "a thinner rod has no ground to stand on; is this its diameter?",
            )
    holes = _holes(section, attachment)
    _judge_holes(section, attachment, bolt, holes)
    return Fixing(
        attachment=attachment,
        bolt=bolt,
        tube=tube,
        rod=rod,
        holes=holes,
        grip=_grip(section, attachment),
        fixing=fixing,
        slot_along=_slot_along(section, attachment),
        slot_key=_slot_key(section, attachment),
    )


def _wanted(section: Section, key: str, attachment: str, users: Iterable[str]) -> bool:
    """Return whether an attachment uses a key; one typed in vain is warned of."""
    if attachment in users:
        return True
    if section.has(key):
        section.notes.warn(section.path(key), f'is ignored: "{attachment}" has none')
    return False


def _judge_thread(section: Section, attachment: str, fixing: str, bolt: float) -> None:
    """Refuse a thread that nothing is known of."""
    if math.isnan(bolt):
        return
    rows = tuple(row.thread for row in SCREWS.values())
    if attachment == "self-tapping":
        rows = tuple(SELF_TAPPING)
    elif attachment in SLOTS:
        rows = IN_SLOT[attachment]
    elif fixing == "insert":
        rows = tuple(INSERTS)
    if any(abs(bolt - row) < 1e-6 for row in rows):
        return
    near = min(rows, key=lambda row: abs(row - bolt))
    section.notes.fault(
        section.path("bolt"),
        format_quantity(bolt, "mm"),
        f"one of {', '.join(format_quantity(row, 'mm') for row in rows)}",
        f"the nearest is {format_quantity(near, 'mm')}",
    )


def _grip(section: Section, attachment: str) -> float:
    if not _wanted(section, "grip", attachment, GRIPPED):
        return 0.0
    if attachment == "panel":
        return section.quantity("grip", "m", usual=(0.0008, 0.02))
    if section.has("grip"):
        return section.quantity("grip", "m", usual=(0.0008, 0.06))
    return 0.0


def _slot_along(section: Section, attachment: str) -> str:
    if not _wanted(section, "slot_along", attachment, SLOTS):
        return "x"
    return section.choice("slot_along", ("x", "y"), "x", "the profile under the front edge")


def _slot_key(section: Section, attachment: str) -> float:
    if _wanted(section, "slot_key", attachment, SLOTS) and section.has("slot_key"):
        wide = section.quantity("slot_key", "m", usual=(0.005, 0.0103))
        if wide > WIDEST_KEY:
            section.notes.fault(
                section.path("slot_key"),
                format_quantity(wide, "mm"),
                f"{format_quantity(WIDEST_KEY, 'mm')} or less",
                "its groove prints as a bridge and could not be wider; leave the key out",
            )
        return wide
    return 0.0


def _judge_holes(section: Section, attachment: str, bolt: float, holes: tuple[Pair, ...]) -> None:
    """Refuse places at which two screw heads would meet."""
    if not holes or math.isnan(bolt):
        return
    apart = head(attachment, bolt)[0] + HEAD_GAP
    for (n, one), (m, other) in combinations(enumerate(holes, 1), 2):
        if math.dist(one, other) < apart - 1e-9:
            section.notes.fault(
                section.path("spacing" if attachment in SPACED else "holes"),
                f"screws {n} and {m} {format_quantity(math.dist(one, other), 'mm', 3)} apart",
                f"{format_quantity(apart, 'mm', 3)} or more between them",
                "their heads would meet: mend the places, or take thinner screws",
            )
            return


def _holes(section: Section, attachment: str) -> tuple[Pair, ...]:
    """Return the places of the screws: two in line from their spacing, or as listed."""
    if _wanted(section, "spacing", attachment, SPACED):
        half = section.quantity("spacing", "m", usual=(0.02, 0.15)) / 2.0
        return ((-half, 0.0), (half, 0.0))
    if not _wanted(section, "holes", attachment, ("holes",)):
        return ()
    raw = section.raw("holes") if section.has("holes") else None
    key = section.path("holes")
    if not isinstance(raw, list) or not 1 <= len(raw) <= MOST_HOLES:
        section.notes.fault(
            key,
            "nothing" if raw is None else shown(raw),
            f"a list of 1 to {MOST_HOLES} places, from the middle of a foot",
            'write it like [["-22 mm", "0 mm"], ["22 mm", "0 mm"]]',
        )
        return ()
    rows = [
        read_quantities(section.notes, f"{key}[{index}]", row, "m", (2,), "any")
        for index, row in enumerate(raw, 1)
    ]
    return tuple((row[0], row[1]) for row in rows)
