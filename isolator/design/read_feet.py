"""Reading what stands under the printer: [[foot]], [slab]."""

from __future__ import annotations

import math

from isolator.design import ATTACHMENTS, BALL, KINDS, OUTLINES, SHAPES, Foot, Pad, Slab
from isolator.design.attachment import FIXINGS
from isolator.design.read_motors import judge_below
from isolator.reading.notes import shown
from isolator.reading.table import Section
from isolator.reading.values import Sign, read_quantities

MOST_PLACES = 100
MOST_HOLES = 12
ALONG = ("x", "y")


def read_foot(table: Section) -> Foot:
    """Return one kind of foot; what is wrong becomes faults."""
    kind = table.choice("kind", KINDS)
    pad = _read_pad(table.section("pad"), kind)
    foot = Foot(
        name=table.text("name"),
        kind=kind,
        pad=pad,
        positions=_read_places(table, "positions", 1, MOST_PLACES),
        attachment=table.choice("attachment", ATTACHMENTS),
        bolt=table.quantity("bolt", "m", sign="not negative"),
        tube=table.quantity("tube", "m", sign="not negative"),
        cap=table.quantity("cap", "m"),
        # a ball stands on the desk by itself, and so does a bare pad
        sole=table.quantity("sole", "m", sign=_sign(kind not in ("ball", "bare"))),
        wall=table.quantity("wall", "m", sign="not negative"),
        side_room=table.quantity("side_room", "m", sign="not negative"),
        sag=table.quantity("sag", "m", sign="not negative"),
        stop=table.quantity("stop", "m", sign="not negative"),
        holes=_read_places(table, "holes", 0, MOST_HOLES) if table.has("holes") else (),
        rod=_length(table, "rod"),
        grip=_length(table, "grip"),
        fixing=table.choice("fixing", FIXINGS) if table.has("fixing") else "screw",
        along=table.choice("along", ALONG) if table.has("along") else "x",
        key=_length(table, "key"),
        tread=_length(table, "tread"),
        label=table.text("label", "", most=40),
    )
    table.done()
    if foot.kind in ("cup", "ball"):
        judge_below(table, "stop", foot.stop, "pad.thickness", pad.thickness)
    _judge_holes(table, foot)
    return foot


def read_slab(table: Section) -> Slab:
    """Return the slab; what is wrong becomes faults."""
    x, y = table.quantities("position", "m", lengths=(2,), sign="any")
    slab = Slab(
        size=table.triple("size", "m", sign="positive"),
        position=(x, y),
        gap=table.quantity("gap", "m", sign="not negative"),
        lip=table.quantity("lip", "m", sign="not negative"),
    )
    table.done()
    return slab


def _length(table: Section, name: str) -> float:
    """Return a length that may be left out, 0 then."""
    return table.quantity(name, "m", sign="not negative") if table.has(name) else 0.0


def _read_pad(table: Section, kind: str) -> Pad:
    shape = table.choice("shape", (BALL,) if kind == "ball" else SHAPES)
    outline = OUTLINES[shape]
    hole = (outline.holed or outline.oblong) and not outline.halved
    pad = Pad(
        shape=shape,
        first=table.quantity("first", "m"),
        second=table.quantity("second", "m", sign=_sign(hole)),
        thickness=table.quantity("thickness", "m"),
        layers=table.integer("layers", None, within=(1, 50)),
        material=table.text("material"),
        printed=kind == "printed",
    )
    table.done()
    if outline.holed:
        judge_below(table, "second", pad.second, "first", pad.first)
    if outline.halved and not math.isclose(pad.thickness, pad.first / 2.0, rel_tol=1e-6):
        table.notes.fault(
            table.path("thickness"),
            shown(table.raw("thickness")),
            "half of the diameter",
            "a half-ball is as high as half its diameter",
        )
    return pad


def _sign(positive: bool) -> Sign:
    return "positive" if positive else "not negative"


def _judge_holes(table: Section, foot: Foot) -> None:
    """Refuse an attachment whose screws have no places."""
    wanted = {"two-bolts": 2, "self-tapping": 2, "holes": 1}.get(foot.attachment)
    if wanted is not None and len(foot.holes) < wanted:
        table.notes.fault(
            table.path("holes"),
            f"{len(foot.holes)} places of screws",
            f"{wanted} or more",
            'write them like [["-15 mm", "0 mm"], ["15 mm", "0 mm"]]',
        )


def _read_places(
    table: Section, name: str, least: int, most: int
) -> tuple[tuple[float, float], ...]:
    key = table.path(name)
    raw = table.raw(name) if table.has(name) else []
    if not isinstance(raw, list) or not least <= len(raw) <= most:
        table.notes.fault(
            key,
            shown(raw) if raw else "nothing",
            f"a list of {least} to {most} places",
            'write it like [["180 mm", "190 mm"]]',
        )
        return ()
    rows = [
        read_quantities(table.notes, f"{key}[{index}]", row, "m", (2,), "any")
        for index, row in enumerate(raw, 1)
    ]
    return tuple((row[0], row[1]) for row in rows)
