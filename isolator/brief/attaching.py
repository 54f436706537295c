"""Reading how feet are held: the attachment of [feet] and what it needs."""

from __future__ import annotations

import math
from itertools import combinations
from typing import NamedTuple

from isolator.brief.feet import FeetTable
from isolator.design import ATTACHMENTS
from isolator.design.attachment import HEAD_GAP
from isolator.design.attachment_room import head
from isolator.design.axes import Pair
from isolator.design.screws import INSERTS, SCREWS, SELF_TAPPING
from isolator.reading.units import format_quantity

WIDEST_KEY = 10.3e-3
"""Slot whose key's groove can still be bridged [m]."""
LEAST_ROD = 6e-3
"""A thinner rod finds nothing to stand on round the socket's screw [m]."""


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
    fixing = table.fixing if _wanted(table, "fixing") else "screw"
    bolt = 0.0
    if _wanted(table, "bolt"):
        bolt = table.bolt
        _judge_thread(table, fixing)
    tube = table.tube if _wanted(table, "tube") else 0.0
    rod = table.rod if _wanted(table, "rod") else 0.0
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
        grip=table.grip if _wanted(table, "grip") else 0.0,
        fixing=fixing,
        slot_along=table.slot_along if _wanted(table, "slot_along") else "x",
        slot_key=_slot_key(table) if _wanted(table, "slot_key") else 0.0,
    )


def _wanted(table: FeetTable, key: str) -> bool:
    """Return whether the attachment uses a key; one typed in vain is warned of."""
    if key in ATTACHMENTS[table.attachment].keys:
        return True
    if table.has(key):
        table.warn(key, f'is ignored: "{table.attachment}" has none')
    return False


def _judge_thread(table: FeetTable, fixing: str) -> None:
    """Refuse a thread that nothing is known of."""
    bolt = table.bolt
    if math.isnan(bolt):
        return
    rows, kind = tuple(row.thread for row in SCREWS.values()), ATTACHMENTS[table.attachment]
    if kind.tapping:
        rows = tuple(SELF_TAPPING)
    elif kind.slot is not None:
        rows = kind.slot.threads
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
                "spacing" if "spacing" in ATTACHMENTS[table.attachment].keys else "holes",
                f"screws {n} and {m} {format_quantity(math.dist(one, other), 'mm', 3)} apart",
                f"{format_quantity(apart, 'mm', 3)} or more between them",
                "their heads would meet: mend the places, or take thinner screws",
            )
            return


def _holes(table: FeetTable) -> tuple[Pair, ...]:
    """Return the places of the screws: two in line from their spacing, or as listed."""
    spaced = _wanted(table, "spacing")
    if _wanted(table, "holes"):
        return table.holes
    half = table.spacing / 2.0 if spaced else 0.0
    return ((-half, 0.0), (half, 0.0)) if spaced else ()
