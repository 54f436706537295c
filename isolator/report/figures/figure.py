"""One style for every picture of the report, and the way from a figure to inline SVG."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Sequence
from typing import Any

import matplotlib as mpl
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.ticker import FixedLocator, FuncFormatter, NullLocator

INK = "#22262b"
SOFT = "#5c646d"  # secondary text
FAINT = "#d5d9dd"  # grid, frames
BLUE = "#1f5f8b"  # what was designed
PALE = "#c5d8e6"  # its band
ORANGE = "#c96f12"  # what stands there now, limits
RED = "#a3200d"  # made worse

BEYOND = "#eceff1"  # what is not promised
Style = dict[str, Any]  # of the plotting library's own options
DASHED, SHORT, DOTTED = (0, (5, 2)), (0, (4, 3)), (0, (1, 2))  # patterns of strokes [pt]
HATCHED: Style = {"facecolor": "none", "hatch": "////", "lw": 0}
LEADER: Style = {"arrowstyle": "-", "color": SOFT, "lw": 0.6, "shrinkB": 0}  # to its label

STYLE: dict[Any, Any] = {  # keys: the plotting library's own names of settings
    "font.family": "DejaVu Sans",  # its metrics; the page sets its own face
    "font.size": 9.0,
    "text.parse_math": False,  # a name may hold a dollar sign
    "text.color": INK,
    "axes.edgecolor": SOFT,
    "axes.labelcolor": INK,
    "axes.labelsize": 9.0,
    "axes.linewidth": 0.7,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "axes.axisbelow": True,
    "grid.color": FAINT,
    "grid.linewidth": 0.6,
    "xtick.color": SOFT,
    "ytick.color": SOFT,
    "xtick.labelsize": 8.5,
    "ytick.labelsize": 8.5,
    "lines.linewidth": 1.8,
    "hatch.linewidth": 0.6,
    "legend.frameon": False,
    "legend.fontsize": 8.5,
    "svg.fonttype": "none",
    "path.simplify": True,
    "path.simplify_threshold": 0.3,
}

_LADDER = (1, 2, 3, 5)


def draw(name: str, size: tuple[float, float], paint: Callable[[Figure], None]) -> str:
    """Return a figure [in] as SVG for a page; the same input gives the same text.

    `name` salts the identifiers, so that figures on one page do not share any.
    """
    with mpl.rc_context():
        mpl.rcdefaults()  # a user's own plotting settings must not change the report
        mpl.rcParams.update({**STYLE, "svg.hashsalt": name})
        figure = Figure(figsize=size)
        paint(figure)
        out = io.StringIO()
        nothing = {"Creator": None, "Date": None, "Format": None, "Type": None}
        figure.savefig(out, format="svg", metadata=nothing, transparent=True, dpi=150)
    return _for_page(out.getvalue(), name)


def _for_page(svg: str, name: str) -> str:
    """Cut the XML prologue and every identifier that nothing refers to."""
    svg = svg[svg.index("<svg") :]
    used = set(re.findall(r"#([\w.-]+)", svg))

    def keep(match: re.Match[str]) -> str:
        return match.group(0) if match.group(1) in used else ""

    svg = re.sub(r' id="([^"]*)"', keep, svg)
    return svg.replace("<svg ", f'<svg role="img" aria-label="{name}" ', 1)


def stroke(label: str, colour: str, width: float, **style: Any) -> Line2D:
    """Return a legend's sample of a line `width` [pt] wide."""
    return Line2D([], [], color=colour, lw=width, label=label, **style)


def dot(label: str, mark: str, size: float, **style: Any) -> Line2D:
    """Return a legend's sample of a mark `size` [pt] wide."""
    return Line2D([], [], marker=mark, ls="none", ms=size, label=label, **style)


def legend(
    on: Axes | Figure,
    keys: Sequence[Artist],
    corner: str,
    place: tuple[float, float],
    **spacing: Any,
) -> None:
    """Put samples side by side, their `corner` such as "lower left" at `place` [share of `on`]."""
    style = {"loc": corner, "bbox_to_anchor": place, "ncols": len(keys), **spacing}
    on.legend(handles=keys, **style)


def log_ticks(low: float, high: float, per_decade: Sequence[float] = _LADDER) -> list[float]:
    """Return round values between two positive numbers, such as 20, 30, 50, 100."""
    return [
        step * 10.0**decade
        for decade in range(-9, 10)
        for step in per_decade
        if low <= step * 10.0**decade <= high
    ]


def log_axis(axes: Axes, which: str, ticks: Sequence[float]) -> None:
    """Make one axis logarithmic with plainly written ticks."""
    (axes.set_xscale if which == "x" else axes.set_yscale)("log")
    axis = axes.xaxis if which == "x" else axes.yaxis
    axis.set_major_locator(FixedLocator(list(ticks)))
    axis.set_minor_locator(NullLocator())
    axis.set_major_formatter(FuncFormatter(lambda value, _: f"{value:g}"))


def spread(places: Sequence[float], gap: float) -> list[float]:
    """Return places moved as little as needed so that neighbours are `gap` apart, order kept.

    >>> [round(place, 3) for place in spread([1.0, 1.1, 4.0], 0.5)]
    [0.8, 1.3, 4.0]
    """
    order = sorted(range(len(places)), key=lambda i: places[i])
    blocks: list[tuple[float, list[int]]] = []  # (mean of place less rank·gap, members)
    for i in order:
        start, members = places[i], [i]
        while blocks and blocks[-1][0] + gap * len(blocks[-1][1]) > start:
            before, others = blocks.pop()
            count = len(others) + len(members)
            start = (before * len(others) + (start - gap * len(others)) * len(members)) / count
            members = [*others, *members]
        blocks.append((start, members))
    moved = [0.0] * len(places)
    for start, members in blocks:
        for rank, i in enumerate(members):
            moved[i] = start + gap * rank
    return moved
