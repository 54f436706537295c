"""Reading how feet are held: the attachment of [feet] and what it needs."""

from __future__ import annotations

import math
from collections.abc import Iterable
from itertools import combinations
from typing import NamedTuple

from isolator.brief.feet import FeetTable
from isolator.design import ATTACHMENTS
from isolator.design.attachment import CHOOSES_FIXING, HEAD_GAP, SLOTS, head
from isolator.design.axes import Pair
from isolator.design.screws import INSERTS, SCREWS, SELF_TAPPING
from isolator.reading.units import format_quantity

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


def read_fixing(table: FeetTable) -> Fixing:
    """Return the attachment with all that goes with it; keys of other attachments are ignored
    with a warning."""
    attachment = table.attachment
    fixing = table.fixing if _wanted(table, "fixing", CHOOSES_FIXING) else "screw"
    bolt = 0.0
    if _wanted(table, "bolt", tuple(each for each in ATTACHMENTS if each not in _NONE)):
        bolt = table.bolt
        _judge_thread(table, fixing)
    tube = table.tube if _wanted(table, "tube", ("tube-end",)) else 0.0
    rod = table.rod if _wanted(table, "rod", ("rod-end",)) else 0.0
    if 0.0 < rod < LEAST_ROD:
        table.fault(
            "rod",
            format_quantity(rod, "mm"),
            f"{format_quantity(LEAST_ROD, 'mm')} or more",
            "a thinner rod has no ground to stand on; is this its diameter?",
        )
    holes = _holes(table)
    _judge_holes(table, bolt, holes)
    return Fixing(
        attachment=attachment,
        bolt=bolt,
        tube=tube,
        rod=rod,
        holes=holes,
        grip=table.grip if _wanted(table, "grip", GRIPPED) else 0.0,
        fixing=fixing,
        slot_along=table.slot_along if _wanted(table, "slot_along", SLOTS) else "x",
        slot_key=_slot_key(table) if _wanted(table, "slot_key", SLOTS) else 0.0,
    )


def _wanted(table: FeetTable, key: str, users: Iterable[str]) -> bool:
    """Return whether the attachment uses a key; one typed in vain is warned of."""
    if table.attachment in users:
        return True
    if table.has(key):
        table.warn(key, f'is ignored: "{table.attachment}" has none')
    return False


def _judge_thread(table: FeetTable, fixing: str) -> None:
    """Refuse a thread that nothing is known of."""
    bolt = table.bolt
    if math.isnan(bolt):
        return
    rows = tuple(row.thread for row in SCREWS.values())
    if table.attachment == "self-tapping":
        rows = tuple(SELF_TAPPING)
    elif table.attachment in SLOTS:
        rows = IN_SLOT[table.attachment]
    elif fixing == "insert":
        rows = tuple(INSERTS)
    if any(abs(bolt - row) < 1e-6 for row in rows):
        return
    near = min(rows, key=lambda row: abs(row - bolt))
    table.fault(
        "bolt",
        format_quantity(bolt, "mm"),
        f"one of {', '.join(format_quantity(row, 'mm') for row in rows)}",
        f"the nearest is {format_quantity(near, 'mm')}",
    )


def _slot_key(table: FeetTable) -> float:
    if table.slot_key > WIDEST_KEY:
        table.fault(
            "slot_key",
            format_quantity(table.slot_key, "mm"),
            f"{format_quantity(WIDEST_KEY, 'mm')} or less",
            "its groove prints as a bridge and could not be wider; leave the key out",
        )
    return table.slot_key


def _judge_holes(table: FeetTable, bolt: float, holes: tuple[Pair, ...]) -> None:
    """Refuse places at which two screw heads would meet."""
    if not holes or math.isnan(bolt):
        return
    apart = head(table.attachment, bolt)[0] + HEAD_GAP
    for (n, one), (m, other) in combinations(enumerate(holes, 1), 2):
        if math.dist(one, other) < apart - 1e-9:
            table.fault(
                "spacing" if table.attachment in SPACED else "holes",
                f"screws {n} and {m} {format_quantity(math.dist(one, other), 'mm', 3)} apart",
                f"{format_quantity(apart, 'mm', 3)} or more between them",
                "their heads would meet: mend the places, or take thinner screws",
            )
            return


def _holes(table: FeetTable) -> tuple[Pair, ...]:
    """Return the places of the screws: two in line from their spacing, or as listed."""
    spaced = _wanted(table, "spacing", SPACED)
    if _wanted(table, "holes", ("holes",)):
        return table.holes
    half = table.spacing / 2.0 if spaced else 0.0
    return ((-half, 0.0), (half, 0.0)) if spaced else ()
