"""Where the feet go: the printer's underside from above, to scale."""

from __future__ import annotations

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.patches import Circle, Patch, Rectangle

from isolator.brief.metal import Strip
from isolator.design import Design, Foot, Pad, Slab
from isolator.design.beyond import half_widths, screw_places
from isolator.report.figures.figure import (
    BLUE,
    INK,
    METAL,
    NARROW,
    ORANGE,
    PALE,
    PAPER,
    SOFT,
    box,
    chart,
)
from isolator.report.figures.key import Entry, key
from isolator.report.sentences.numbers import banded
from isolator.vibration.band import Band
from isolator.vibration.results import FootState

_WIDE = 640.0  # [px]
Point = tuple[float, float]


def feet_plan(
    feet: Sequence[FootState],
    design: Design | None,
    com_range: Sequence[Point] = (),
    metal: Sequence[Strip] = (),
) -> str:
    """Return the plan of the feet with the load on each [N] and the centre of mass.

    `metal` are the rails, edges or brackets that feet are fixed to [m]. The centre of mass is where
    the nominal loads balance; `com_range` holds the places [m] it takes as extras such as the spool
    come and go.
    """

    def paint(figure: Figure, narrow: bool) -> None:
        axes = figure.add_axes(box(62.0, 50.0, 8.0, 8.0, figure))
        half = _half(feet, design)
        axes.set_aspect("equal")
        if design is not None:
            x, y = design.frame_size[0] * 500, design.frame_size[1] * 500
            axes.add_patch(Rectangle((-x, -y), 2 * x, 2 * y, fill=False, ec=SOFT, lw=1.1, ls="--"))
            if design.slab is not None:
                _slab(axes, design.slab)
            for strip in metal:
                axes.add_patch(_strip(strip))
            for foot in design.feet:
                for place in foot.positions:
                    axes.add_patch(_outside(foot, place))
                    axes.add_patch(_footprint(foot.pad, place))
                    _screws(axes, foot, place)
        for index, state in enumerate(feet):
            _foot(axes, index + 1, state, _reach(design))
        _centre(axes, feet, com_range)
        axes.set_xlim(-half[0], half[0])
        axes.set_ylim(-half[1], half[1])
        axes.set_xlabel(
            "x, to the right [mm]" if narrow else "x, to the right [mm]; front edge below"
        )
        axes.set_ylabel("y, to the back [mm]")

    width, height = _half(feet, design)
    tall, low = (
        min(max((wide - 70.0) * height / width, 150.0), 620.0) + 58.0 for wide in (_WIDE, NARROW)
    )
    entries = [Entry("+", INK, "centre of mass")]
    if len(com_range) > 1:
        entries.append(Entry("line", ORANGE, "where it lies as extras come and go", 5.0))
    if design is not None:
        entries.append(Entry("line", SOFT, "printer's outside", 1.4, "4 3"))
        if design.slab is not None:
            entries.append(Entry("line", SOFT, "slab", 1.4))
        if metal:
            entries.append(Entry("band", METAL, "metal that feet are fixed to"))
    return chart("where the feet go", tall, paint, narrow=low, wide=_WIDE) + key(entries)


def _half(feet: Sequence[FootState], design: Design | None) -> Point:
    """Half width and depth of the picture [mm]."""
    x = [abs(foot.position[0]) for foot in feet]
    y = [abs(foot.position[1]) for foot in feet]
    if design is not None:
        x.append(design.frame_size[0] / 2)
        y.append(design.frame_size[1] / 2)
        if design.slab is not None:
            x.append(abs(design.slab.position[0]) + design.slab.size[0] / 2)
            y.append(abs(design.slab.position[1]) + design.slab.size[1] / 2)
    return max(x) * 1e3 + 35, max(y) * 1e3 + 35


def _slab(axes: Axes, slab: Slab) -> None:
    wide, deep = slab.size[0] * 1e3, slab.size[1] * 1e3
    x, y = slab.position[0] * 1e3 - wide / 2, slab.position[1] * 1e3 - deep / 2
    axes.add_patch(Rectangle((x, y), wide, deep, fill=False, ec=SOFT, lw=1.1))


def _strip(strip: Strip) -> Patch:
    """Return a rail, an edge or a bracket."""
    corner = (strip.left * 1e3, strip.front * 1e3)
    wide, deep = (strip.right - strip.left) * 1e3, (strip.back - strip.front) * 1e3
    return Rectangle(corner, wide, deep, fc=METAL, ec=SOFT, lw=0.8)


def _screws(axes: Axes, foot: Foot, place: Point) -> None:
    for x, y in screw_places(foot):
        at = ((place[0] + x) * 1e3, (place[1] + y) * 1e3)
        axes.add_patch(Circle(at, foot.thread * 500, fc=INK, ec=PAPER, lw=0.6, zorder=4))


def _outside(foot: Foot, place: Point) -> Patch:
    """Return a foot's body, which is what is glued where glue holds it."""
    wide, deep = (width * 1e3 for width in foot.widths)
    x, y = place[0] * 1e3, place[1] * 1e3
    if foot.pad.outline.round:
        return Circle((x, y), wide / 2, fc=PAPER, ec=BLUE, lw=0.8)
    return Rectangle((x - wide / 2, y - deep / 2), wide, deep, fc=PAPER, ec=BLUE, lw=0.8)


def _footprint(pad: Pad, place: Point) -> Patch:
    x, y = place[0] * 1e3, place[1] * 1e3
    wide, deep = (width * 1e3 for width in pad.widths)
    if pad.outline.round:
        return Circle((x, y), wide / 2, fc=PALE, ec=BLUE, lw=1.4)
    return Rectangle((x - wide / 2, y - deep / 2), wide, deep, fc=PALE, ec=BLUE, lw=1.4)


def _reach(design: Design | None) -> float:
    """Half the width of the widest foot [mm], or of the number where none is known."""
    return max((half_widths(foot)[0] * 1e3 for foot in design.feet), default=6.0) if design else 6.0


def _foot(axes: Axes, rank: int, state: FootState, reach: float) -> None:
    """Write a foot's number, and its load beside it, towards the middle."""
    x, y = state.position[0] * 1e3, state.position[1] * 1e3
    axes.text(x, y, f"{rank}", ha="center", va="center", fontweight="bold", zorder=5)
    load = state.load
    inwards = -1 if x > 0 else 1
    axes.text(
        x + inwards * (reach + 4),
        y,
        _load(load),
        ha="right" if x > 0 else "left",
        va="center",
        linespacing=1.3,
        zorder=5,
        bbox={"facecolor": PAPER, "edgecolor": "none", "pad": 1.5, "alpha": 0.9},
    )


def _load(load: Band) -> str:
    low, middle, high = banded(load)
    return f"{middle} N" if low == high else f"{middle} N\n{low} to {high}"


def _centre(axes: Axes, feet: Sequence[FootState], com_range: Sequence[Point]) -> None:
    total = sum(foot.load.nominal for foot in feet)
    if total <= 0:
        return
    x = sum(foot.load.nominal * foot.position[0] for foot in feet) / total * 1e3
    y = sum(foot.load.nominal * foot.position[1] for foot in feet) / total * 1e3
    if len(com_range) > 1:
        axes.plot(
            [point[0] * 1e3 for point in com_range],
            [point[1] * 1e3 for point in com_range],
            color=ORANGE,
            lw=5,
            alpha=0.55,
            solid_capstyle="round",
        )
    axes.plot([x], [y], marker="+", ms=15, mew=1.8, color=INK, zorder=6)
