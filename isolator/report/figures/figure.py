"""One style for every picture of the report, and the way from a figure to inline SVG."""

from __future__ import annotations

import io
import re
from collections.abc import Callable, Sequence
from typing import Any

import matplotlib as mpl
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FixedLocator, FuncFormatter, NullLocator

INK = "#22262b"
SOFT = "#5c646d"  # secondary text
FAINT = "#d5d9dd"  # grid, frames
BLUE = "#1f5f8b"  # what was designed
PALE = "#c5d8e6"  # its band
ORANGE = "#c96f12"  # what stands there now, limits
RED = "#a3200d"  # made worse
ROSE = "#fbe6e1"  # a field in which it is worse
BEYOND = "#eceff1"  # what is not promised
METAL = "#e8e4da"
PAPER = "#ffffff"
THEME = {
    INK: "ink",
    SOFT: "soft",
    FAINT: "line",
    BLUE: "blue",
    PALE: "pale",
    ORANGE: "orange",
    RED: "red",
    ROSE: "rose",
    BEYOND: "beyond",
    METAL: "metal",
    PAPER: "paper",
}
"""Colours that the page sets, light or dark, by the name of its variable."""

Style = dict[str, Any]  # of the plotting library's own options
DASHED, SHORT, DOTTED = (0, (5, 2)), (0, (4, 3)), (0, (1, 2))  # patterns of strokes [px]
HATCHED: Style = {"facecolor": "none", "hatch": "////", "lw": 0}
LEADER: Style = {"arrowstyle": "-", "color": SOFT, "lw": 0.8, "shrinkB": 0}  # to its label
TEXT = 13.0
"""Size of writing [px] where a chart is shown at its own size."""
UNITS = 72.0
"""A drawing's units an inch: one is a pixel of a page at the drawing's own size."""
WIDE, NARROW = 880.0, 360.0
"""Widths of a chart [px] for a desk's screen and paper, and for a hand's."""

LARGEST = 1.25
"""A chart is shown no larger than so many times its own size."""

STYLE: dict[Any, Any] = {  # keys: the plotting library's own names of settings
    "font.family": "DejaVu Sans",  # its metrics; the page sets its own face
    "font.size": TEXT,
    "text.parse_math": False,  # a name may hold a dollar sign
    "text.color": INK,
    "axes.edgecolor": SOFT,
    "axes.labelcolor": INK,
    "axes.labelsize": TEXT,
    "axes.linewidth": 0.9,
    "axes.spines.top": False,
    "axes.spines.right": False,
    "axes.grid": True,
    "axes.axisbelow": True,
    "grid.color": FAINT,
    "grid.linewidth": 0.8,
    "xtick.color": SOFT,
    "ytick.color": SOFT,
    "xtick.labelsize": TEXT,
    "ytick.labelsize": TEXT,
    "lines.linewidth": 2.4,
    "hatch.linewidth": 0.8,
    "svg.fonttype": "none",
    "path.simplify": True,
    "path.simplify_threshold": 0.3,
}

_LADDER = (1, 2, 3, 5)


Paint = Callable[[Figure, bool], None]
"""Draws into a figure, for a narrow screen or not."""


def chart(name: str, tall: float, paint: Paint, *, narrow: float = 0.0, wide: float = WIDE) -> str:
    """Return a chart `tall` [px] for a page, drawn for a wide and for a narrow screen.

    `narrow` is its height on the narrow one, where that differs. The page shows one of the two.
    """
    sizes = {"wide": (wide, tall), "narrow": (NARROW, narrow or tall)}
    drawn = (_shown(name, kind, size, paint) for kind, size in sizes.items())
    return f'<div class="chart">{"".join(drawn)}</div>'


def _shown(name: str, kind: str, size: tuple[float, float], paint: Paint) -> str:
    def painted(figure: Figure) -> None:
        paint(figure, kind == "narrow")

    return draw(f"{name}, {kind}", size, painted, kind, name)


def draw(
    salt: str,
    size: tuple[float, float],
    paint: Callable[[Figure], None],
    kind: str = "",
    label: str = "",
) -> str:
    """Return a figure [px] as SVG for a page; the same input gives the same text.

    `salt` goes into identifiers, so that figures on one page do not share any; `kind` is the
    figure's class on the page and `label` what it is read out as.
    """
    return _for_page(alone(salt, size, paint), kind, label or salt, size[0])


def alone(
    salt: str, size: tuple[float, float], paint: Callable[[Figure], None], paper: str = "none"
) -> str:
    """Return a figure [px] as an SVG file of its own; the same input gives the same text.

    `salt` goes into identifiers; `paper` is the colour behind it.
    """
    with mpl.rc_context():
        mpl.rcdefaults()  # a user's own plotting settings must not change the report
        mpl.rcParams.update({**STYLE, "svg.hashsalt": salt})
        figure = Figure(figsize=(size[0] / UNITS, size[1] / UNITS))
        paint(figure)
        out = io.StringIO()
        nothing = {"Creator": None, "Date": None, "Format": None, "Type": None}
        figure.savefig(
            out,
            format="svg",
            metadata=nothing,
            transparent=paper == "none",
            facecolor=paper,
            dpi=150,
        )
    return out.getvalue()


def _for_page(svg: str, kind: str, label: str, wide: float) -> str:
    """Cut the XML prologue and every identifier that nothing refers to; colours go by name."""
    svg = svg[svg.index("<svg") :]
    used = set(re.findall(r"#([\w.-]+)", svg))

    def keep(match: re.Match[str]) -> str:
        return match.group(0) if match.group(1) in used else ""

    svg = re.sub(r' id="([^"]*)"', keep, svg)
    for colour, name in THEME.items():
        svg = svg.replace(colour, f"var(--{name})")
    # one picture of two is shown: what a reader hears of both is the same
    size = f' style="max-width:{LARGEST * wide:.0f}px"' if kind else ""
    head = f'<svg class="{kind}"{size} role="img" aria-label="{label}" '
    return svg.replace("<svg ", head, 1)


def box(left: float, bottom: float, right: float, top: float, figure: Figure) -> Box:
    """Return where axes go in a figure (left, bottom, width, height) from margins [px]."""
    wide, tall = (side * UNITS for side in figure.get_size_inches())
    return (left / wide, bottom / tall, (wide - left - right) / wide, (tall - bottom - top) / tall)


Box = tuple[float, float, float, float]


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
