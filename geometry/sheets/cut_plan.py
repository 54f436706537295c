"""The cutting plan of one kind of foot: every pad of all its feet in one piece of sheet [mm]."""

from __future__ import annotations

from geometry.sheets.flat_drawing import Flat, Shape, joined, legend
from geometry.solids.outline import Outline, pad_outlines
from geometry.solids.part import mm
from isolator.design import Foot
from isolator.design.nesting import KNIFE, middles, nested

UNDER = 8.0  # from the sheet down to the ruler [mm]


def cut_plan(foot: Foot) -> Flat:
    """Return the plan of a foot whose pads are cut from sheet: all layers of all its feet.

    The sheet's lower left corner is the origin. Layer CUT holds the pads, EDGE the sheet, NOTE the
    rest. Raises ValueError for a printed pad or half a ball.
    """
    if foot.pad.printed or not foot.build.cut_pad:
        raise ValueError(f"the pads of {foot.name!r} are not cut from sheet")
    outer, inner = pad_outlines(foot.pad)
    count = foot.pad.layers * len(foot.positions)
    nest = nested(*outer.size, count, mm(KNIFE))
    sheet = Outline(core_x=nest.wide, core_y=nest.high, offset=0.0)
    pads = [
        Shape(each, x, y, "CUT")
        for x, y in middles(nest, count)
        for each in (outer, inner)
        if each is not None
    ]
    thick = mm(foot.pad.thickness) / foot.pad.layers
    lines = (
        f"{foot.name}: {count} {'pad' if count == 1 else 'pads'} of {foot.pad.material}, "
        f"{thick:.4g} mm, {foot.pad.layers} per foot",
        f"sheet of {nest.wide:g} x {nest.high:g} mm, {nest.gap:g} mm round every pad",
    )
    edge = Shape(sheet, nest.wide / 2, nest.high / 2, "EDGE")
    drawn = Flat(shapes=(edge, *pads), strokes=(), words=())
    return joined(drawn, legend(0.0, -UNDER, lines))
