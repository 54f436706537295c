"""Flat drawings at true scale on the user's paper, over several sheets where one is too small [mm].

Every sheet has a scale bar. Sheets of one drawing overlap; crosses with letters lie in the same
places of the drawing on both sides of a joint, and a dashed line shows where to cut.
"""

from __future__ import annotations

import io
import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from typing import Any, NamedTuple

from geometry.finish.page_files import INK, POINT, put_words
from isolator.design.paper import PAPERS

EDGE = 10.0  # of paper that printers leave white [mm]; common practice, no source
FOOTER = 16.0  # for scale bar and words [mm]
OVERLAP = 12.0  # of two sheets [mm]
CROSS = 4.0  # half of a joining mark [mm]
BAR = 100.0  # the scale bar [mm]
TEXT = 3.5  # height of the writing [mm]
PEN = 0.25  # [mm]
LAYERS = {"CUT": ("#000", 7), "EDGE": ("#777", 8), "PAD": ("#0057a8", 5), "NOTE": ("#555", 8)}
"""Colour on paper, and number of the colour in DXF."""

Point = tuple[float, float]


class Line(NamedTuple):
    """A polyline on a layer of `LAYERS`."""

    points: tuple[Point, ...]
    layer: str


class Written(NamedTuple):
    """A line of text: its baseline starts, has its middle or ends at (x, y)."""

    x: float
    y: float
    text: str
    anchor: str
    height: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Ink:
    """All that is printed of a drawing, x to the right, y up."""

    lines: tuple[Line, ...]
    words: tuple[Written, ...]
    bounds: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One sheet of paper: its size, and the window of the drawing that it shows.

    `window` is least x, least y, greatest x, greatest y of the drawing; what lies there is printed
    `EDGE` from the left and `EDGE` and `FOOTER` from the lower edge. `marks` are the joining
    crosses with their letters, `cuts` the lines along which it is joined.
    """

    size: Point
    window: tuple[float, float, float, float]
    name: str
    marks: tuple[tuple[float, float, str], ...]
    cuts: tuple[tuple[Point, Point], ...]


def sheets(ink: Ink, paper: str) -> tuple[Sheet, ...]:
    """Return the sheets that a drawing takes on `paper`, upright or lying, whichever is fewer."""
    short, long = (round(1e3 * side, 9) for side in PAPERS[paper])
    ways = [_tiled(ink, size) for size in ((short, long), (long, short))]
    return min(ways, key=len)


def _tiled(ink: Ink, size: Point) -> tuple[Sheet, ...]:
    low_x, low_y, high_x, high_y = ink.bounds
    room = size[0] - 2 * EDGE, size[1] - 2 * EDGE - FOOTER
    columns, across = _spread(low_x, high_x, room[0])
    rows, up = _spread(low_y, high_y, room[1])
    joints_x = [x + OVERLAP / 2 for x in across[1:]]
    joints_y = [y + OVERLAP / 2 for y in up[1:]]
    found = []
    for row, column in product(range(rows), range(columns)):
        window = (across[column], up[row], across[column] + room[0], up[row] + room[1])
        found.append(
            Sheet(
                size=size,
                window=window,
                name=f"sheet {row * columns + column + 1} of {rows * columns}"
                + (
                    f": row {row + 1} from below, column {column + 1}" if rows * columns > 1 else ""
                ),
                marks=_marks(window, joints_x, joints_y),
                cuts=_cuts(window, joints_x, joints_y),
            )
        )
    return tuple(found)


def _spread(low: float, high: float, room: float) -> tuple[int, list[float]]:
    """Return how many sheets a length takes, and where each one's window begins."""
    if high - low <= room + 1e-9:
        return 1, [(low + high - room) / 2]
    count = math.ceil((high - low - OVERLAP) / (room - OVERLAP) - 1e-9)
    step = room - OVERLAP
    first = (low + high - (count * step + OVERLAP)) / 2
    return count, [first + step * number for number in range(count)]


def _marks(
    window: tuple[float, float, float, float], joints_x: list[float], joints_y: list[float]
) -> tuple[tuple[float, float, str], ...]:
    """Return the crosses that a window shows: on every joint, a quarter and three along it."""
    low_x, low_y, high_x, high_y = window
    across, up = (high_x - low_x) / 4, (high_y - low_y) / 4
    found = []
    for joint, x in enumerate(joints_x):
        if low_x < x < high_x:
            found += [(x, y, f"{joint + 1}") for y in (low_y + up, high_y - up)]
    for joint, y in enumerate(joints_y):
        if low_y < y < high_y:
            found += [(x, y, chr(ord("A") + joint)) for x in (low_x + across, high_x - across)]
    return tuple(found)


def _cuts(
    window: tuple[float, float, float, float], joints_x: list[float], joints_y: list[float]
) -> tuple[tuple[Point, Point], ...]:
    low_x, low_y, high_x, high_y = window
    upright = [((x, low_y), (x, high_y)) for x in joints_x if low_x < x < high_x]
    lying = [((low_x, y), (high_x, y)) for y in joints_y if low_y < y < high_y]
    return (*upright, *lying)


def paper_pdf(ink: Ink, paper: str, title: str) -> bytes:
    """Return the PDF of a drawing on sheets of `paper` at true scale; it carries no date."""
    from matplotlib import rc_context
    from matplotlib.backends.backend_pdf import PdfPages

    out = io.BytesIO()
    told = {"Title": title, "Creator": "isolator", "CreationDate": None}
    with rc_context({"pdf.fonttype": 3}), PdfPages(out, metadata=told) as pages:
        for sheet in sheets(ink, paper):
            pages.savefig(_page(ink, sheet, title))
    return out.getvalue()


def _page(ink: Ink, sheet: Sheet, title: str) -> Any:
    """Return a sheet as a figure: the window, and under it the scale bar and what it is."""
    from matplotlib.figure import Figure

    wide, high = sheet.size
    low_x, low_y, high_x, high_y = sheet.window
    figure = Figure(figsize=(wide / 25.4, high / 25.4))
    place = (
        EDGE / wide,
        (EDGE + FOOTER) / high,
        (high_x - low_x) / wide,
        (high_y - low_y) / high,
    )
    axes = figure.add_axes(place, xlim=(low_x, high_x), ylim=(low_y, high_y))
    axes.set_axis_off()
    for layer, (colour, _) in LAYERS.items():
        for line in ink.lines:
            if line.layer == layer:
                axes.plot(*_apart(line.points), color=colour, lw=PEN / POINT)
    for x, y, text, anchor, tall in ink.words:
        _write(axes, (x, y), text, tall, anchor)
    for start, end in sheet.cuts:
        axes.plot(*_apart((start, end)), color="#777", lw=PEN / POINT, ls=(0, (8, 6)))
    for x, y, name in sheet.marks:
        axes.plot(*_apart(((x - CROSS, y), (x + CROSS, y))), color=INK, lw=PEN / POINT)
        axes.plot(*_apart(((x, y - CROSS), (x, y + CROSS))), color=INK, lw=PEN / POINT)
        _write(axes, (x + 1.0, y + 1.0), name, TEXT, "start")
    foot = figure.add_axes((0.0, 0.0, 1.0, 1.0), xlim=(0, wide), ylim=(0, high))
    foot.set_axis_off()
    _bar(foot, title, sheet.name)
    return figure


def _bar(axes: Any, title: str, name: str) -> None:
    y = EDGE + 9.0
    axes.plot(*_apart(((EDGE, y), (EDGE + BAR, y))), color=INK, lw=PEN / POINT)
    for number in range(11):
        x, tall = EDGE + number * BAR / 10, 3.0 if number % 5 == 0 else 1.5
        axes.plot(*_apart(((x, y), (x, y + tall))), color=INK, lw=PEN / POINT)
    _write(axes, (EDGE + BAR + 3.0, y), f"{BAR:g} mm: hold a rule against it", 2.8, "start")
    _write(axes, (EDGE, EDGE + 2.0), f"{title}, {name}; print at 100 %", 2.8, "start")


def _write(axes: Any, at: Point, text: str, tall: float, anchor: str) -> None:
    put_words(axes, at, text, tall, anchor, clip_on=True)


def _apart(points: Sequence[Point]) -> tuple[list[float], list[float]]:
    return [x for x, _ in points], [y for _, y in points]
