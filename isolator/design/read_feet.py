"""Reading what stands under the printer: [[foot]], [slab]."""

from __future__ import annotations

import math

from isolator.design import FOOT_KINDS, Ends, Foot, Pad, Slab
from isolator.design.ends import STUD, THREAD
from isolator.design.read_motors import judge_below
from isolator.design.sheet import FootTable, PadTable, SlabTable
from isolator.reading.notes import shown


def read_foot(table: FootTable) -> Foot:
    """Return one kind of foot; what is wrong becomes faults."""
    pad = _read_pad(table.pad, printed=FOOT_KINDS[table.kind].soft_body)
    foot = table.whole(Foot, pad=pad, ends=_read_ends(table))
    if foot.build.rimmed:
        judge_below(table, "stop", foot.stop, "pad.thickness", pad.thickness)
    _judge_holes(table, foot)
    return foot


def read_slab(table: SlabTable) -> Slab:
    """Return the slab; what is wrong becomes faults."""
    table.check("position")
    return table.whole(Slab)


def _read_ends(table: FootTable) -> Ends | None:
    """Return what a ready-made mount ends in; None for other feet."""
    screwed = FOOT_KINDS[table.kind].screwed_pad
    if not screwed and table.has("ends"):
        table.fault("ends", "it", f"none: a {table.kind} foot has no ready-made mount", "remove it")
    if not screwed:
        return None
    ends = table.ends.whole(Ends)
    for name, kind in (("stud", STUD), ("depth", THREAD)):
        if kind in (ends.upper, ends.lower) and getattr(ends, name) == 0:
            table.ends.fault(
                name, "nothing", f"how long its {kind} is", f'add {name} = "10 mm", as measured'
            )
    return ends


def _read_pad(table: PadTable, printed: bool) -> Pad:
    pad = table.whole(Pad, printed=printed)
    if pad.outline.holed:
        judge_below(table, "second", pad.second, "first", pad.first)
    if pad.outline.ready:
        judge_below(table, "second", pad.second, "thickness", pad.thickness)
    if pad.outline.halved and not math.isclose(pad.thickness, pad.first / 2.0, rel_tol=1e-6):
        table.fault(
            "thickness",
            shown(table.raw("thickness")),
            "half of the diameter",
            "a half-ball is as high as half its diameter",
        )
    return pad


def _judge_holes(table: FootTable, foot: Foot) -> None:
    """Refuse an attachment whose screws have no places."""
    wanted = foot.fastening.least_holes
    if len(foot.holes) < wanted:
        table.fault(
            "holes",
            f"{len(foot.holes)} places of screws",
            f"{wanted} or more",
            'write them like [["-15 mm", "0 mm"], ["15 mm", "0 mm"]]',
        )
