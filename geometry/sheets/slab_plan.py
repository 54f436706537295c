"""The plan of a slab at true scale, seen from below: where every pad is glued [mm]."""

from __future__ import annotations

from geometry.finish.paper import TEXT
from geometry.sheets.flat_drawing import (
    Flat,
    Shape,
    Straight,
    Word,
    joined,
    legend,
)
from geometry.solids.outline import Outline, pad_outlines
from geometry.solids.part import CannotDraw, mm
from isolator.design import Design, Foot, Slab
from isolator.design.naming import slug

MARK = 6.0  # half of a centre mark [mm]
UNDER = 14.0  # from the slab down to the ruler [mm]
BESIDE = 2.0  # from the slab's edge to a distance [mm]


def slab_plan(design: Design) -> Flat:
    """Return the plan of a design's slab, its middle at the origin, the printer's back upwards.

    Seen from below: the printer's left is on the right. Every pad has its outline, a centre mark
    and its middle's distances from the two nearest edges. Layer EDGE holds the slab, PAD the pads,
    NOTE the rest. Raises ValueError where there is no
    slab, CannotDraw where a pad reaches beyond it.
    """
    slab = design.slab
    if slab is None:
        raise ValueError(f"{design.name!r} stands on no slab")
    wide, deep, thick = (mm(side) for side in slab.size)
    edge = Shape(Outline(core_x=wide, core_y=deep, offset=0.0), 0.0, 0.0, "EDGE")
    pads = [
        _pad(foot, number, x, y, (wide, deep))
        for foot in design.feet
        if not foot.build.hung
        for number, (x, y) in enumerate(seen_from_below(foot, slab), 1)
    ]
    lines = (
        f"{design.name}: slab of {wide:g} x {deep:g} x {thick:g} mm, seen from below",
        "the printer's front is at the lower edge, its left on the right",
        "distances in mm from a pad's middle to the edge",
    )
    whole = Flat(shapes=(edge,), strokes=(), words=())
    return joined(whole, *pads, legend(-wide / 2, -deep / 2 - UNDER, lines))


def seen_from_below(foot: Foot, slab: Slab) -> tuple[tuple[float, float], ...]:
    """Return a foot's places from the slab's middle [mm], x to the left."""
    middle_x, middle_y = slab.position
    return tuple((mm(middle_x - x), mm(y - middle_y)) for x, y in foot.positions)


def _pad(foot: Foot, number: int, x: float, y: float, slab: tuple[float, float]) -> Flat:
    outlines = [each for each in pad_outlines(foot.pad) if each is not None]
    for at, side, own in zip((x, y), slab, outlines[0].size, strict=True):
        beyond = abs(at) + own / 2 - side / 2
        if beyond > 1e-6:
            raise CannotDraw(
                slug(foot.name, "pad"),
                "positions",
                f"pad {number} reaches {beyond:.1f} mm beyond the slab",
            )
    to_x, to_y = (side / 2 if at >= 0 else -side / 2 for at, side in zip((x, y), slab, strict=True))
    reach = outlines[0].size[1] / 2
    inwards = -1.0 if y >= 0 else 1.0  # the name goes on the side where the slab goes on
    strokes = (
        Straight((x - MARK, y), (x + MARK, y)),
        Straight((x, y - MARK), (x, y + MARK)),
        Straight((x, y), (to_x, y)),
        Straight((x, y), (x, to_y)),
    )
    right, back = to_x > 0, to_y > 0
    words = (
        Word(
            to_x + (BESIDE if right else -BESIDE),
            y,
            f"{abs(to_x - x):.1f}",
            "start" if right else "end",
        ),
        Word(x, to_y + (BESIDE if back else -BESIDE - TEXT), f"{abs(to_y - y):.1f}", "middle"),
        Word(x, y + inwards * (reach + 2 * TEXT), f"{foot.name} {number}", "middle"),
    )
    return Flat(
        shapes=tuple(Shape(each, x, y, "PAD") for each in outlines), strokes=strokes, words=words
    )
