"""How much louder or quieter it is heard than before, over print speed."""

from __future__ import annotations

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, MultipleLocator

from isolator.report.figures.figure import (
    BLUE,
    HATCHED,
    INK,
    PALE,
    PAPER,
    RED,
    ROSE,
    SHORT,
    SOFT,
    Style,
    box,
    chart,
    spread,
)
from isolator.report.figures.key import Entry, key
from isolator.report.sentences.heard_words import damped
from isolator.report.sentences.numbers import number
from isolator.report.sentences.speeds import merged
from isolator.vibration.results import Evaluation, HeardOver

_WIDE, _TALL, _NARROW_TALL = 1000.0, 232.0, 300.0  # [px]
_SOUNDS = (
    (10.0, "twice as loud"),
    (0.0, "as before"),
    (-10.0, "half as loud"),
    (-20.0, "a quarter as loud"),
)
ROOM = 0.08
"""Below a lowest level that words stand beside, as a share of the axis."""
_STEP = 5.0  # between ticks [dB]
LINE = "change heard"
WITH_DAMPERS = "change heard, with these feet and motor dampers"


def heard_over(found: Evaluation, over: HeardOver) -> str:
    """Return the chart of change [dB(A)] over speed [mm/s], and what its marks mean."""

    def paint(figure: Figure, narrow: bool) -> None:
        left, top = (58.0, 56.0) if narrow else (92.0, 40.0)
        axes = figure.add_axes(box(left, 48.0, 74.0 if narrow else 136.0, top, figure))
        _frame(axes, over)
        speed = over.speed * 1e3
        axes.fill_between(speed, over.low, over.high, color=PALE, lw=0, zorder=1.5)
        axes.plot(speed, over.nominal, color=BLUE, zorder=3)
        _avoid(axes, found)
        _own(axes, found, over, narrow)
        _sounds(axes, narrow)

    entries = [
        Entry("line", BLUE, WITH_DAMPERS if damped(found) else LINE),
        Entry("band", PALE, "where nine of ten printers like yours lie"),
        Entry("line", INK, f"as loud as {found.baseline}", width=1.4),
    ]
    if found.avoid:
        entries.append(Entry("hatch", RED, "speeds to avoid"))
    drawn = chart("change heard over speed", _TALL, paint, narrow=_NARROW_TALL, wide=_WIDE)
    return drawn + key(entries)


def _frame(axes: Axes, over: HeardOver) -> None:
    low = min(-_STEP, _STEP * np.floor(float(over.low.min()) / _STEP))
    high = max(_STEP, _STEP * np.ceil(float(over.high.max()) / _STEP))
    axes.set_xlim(0.0, float(over.speed[-1]) * 1e3)
    # words beside the lowest level need room over the speeds
    axes.set_ylim(low - (ROOM if low in dict(_SOUNDS) else 0.0) * (high - low), high)
    axes.axhspan(0.0, high, facecolor=ROSE, edgecolor="none", zorder=0)
    axes.axhline(0.0, color=INK, lw=1.4, zorder=2)
    axes.yaxis.set_major_locator(MultipleLocator(_STEP if high - low <= 35 else 2 * _STEP))
    axes.yaxis.set_major_formatter(FuncFormatter(lambda level, _: _signed(level)))
    axes.set_xlabel("print speed [mm/s]")
    axes.set_ylabel("change [dB(A)]")


def _avoid(axes: Axes, found: Evaluation) -> None:
    for low, high, _ in merged(found.avoid):
        # one speed of the grid alone would not be seen
        span = (low * 1e3 - 0.5, high * 1e3 + 0.5)
        axes.axvspan(*span, edgecolor=RED, zorder=1.8, **HATCHED)
        axes.axvspan(*span, facecolor=RED, alpha=0.12, lw=0, zorder=1.7)


def _own(axes: Axes, found: Evaluation, over: HeardOver, narrow: bool) -> None:
    """Mark the speeds of the brief, each with its change."""
    left, right = axes.get_xlim()
    told = [each for each in found.speeds if each.heard and left <= each.speed * 1e3 <= right]
    gap = (right - left) * (0.115 if narrow else 0.045)
    places = _kept_in([each.speed * 1e3 for each in told], gap, (left, right))
    over_top: Style = {"transform": axes.get_xaxis_transform(), "clip_on": False}
    for each, place in zip(told, places, strict=True):
        assert each.heard is not None
        x = each.speed * 1e3
        axes.axvline(x, color=INK, lw=1.0, ls=SHORT, zorder=2.5)
        axes.plot((x, place), (1.0, 1.05), color=SOFT, lw=0.8, **over_top)
        style: Style = {"ha": "center", "va": "bottom", "fontweight": "bold"}
        axes.text(place, 1.06, number(x), **style, **over_top)
        style = {"color": BLUE, "mec": PAPER, "mew": 1.4, "zorder": 4}
        axes.plot(x, each.heard.desk.nominal, marker="o", ms=9, **style)
    axes.annotate(
        "your\nspeeds" if narrow else "your speeds",
        (0.0, 1.06),
        (-8.0, 0.0),
        xycoords="axes fraction",
        textcoords="offset points",
        ha="right",
        va="bottom",
    )


def _signed(level: float) -> str:
    return f"{level:+.0f}".replace("-", "−") if level else "0"


def _kept_in(places: list[float], gap: float, ends: tuple[float, float]) -> list[float]:
    moved = spread(places, gap)
    return [min(max(place, ends[0] + gap / 2), ends[1] - gap / 2) for place in moved]


def _sounds(axes: Axes, narrow: bool) -> None:
    """Say beside round levels what they sound like."""
    low, high = axes.get_ylim()
    for level, words in _SOUNDS:
        if low <= level <= high:
            axes.annotate(
                words.replace(" as ", "\nas ") if narrow else words,
                (1.0, level),
                (8.0, 0.0),
                xycoords=axes.get_yaxis_transform(),
                textcoords="offset points",
                va="center",
                color=SOFT,
            )
