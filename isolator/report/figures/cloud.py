"""Quiet against sway: every candidate that could be worked out, and the one that was chosen."""

from __future__ import annotations

import math
from collections.abc import Sequence
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from numpy.typing import NDArray

from isolator.report.figures.figure import (
    DASHED,
    INK,
    ORANGE,
    PAPER,
    RED,
    SOFT,
    Style,
    box,
    chart,
    log_axis,
    log_ticks,
)
from isolator.report.figures.key import Entry, key
from isolator.report.findings import Cloud
from isolator.report.sentences.numbers import readable

Span = tuple[float, float]

_TALL, _NARROW_TALL = 430.0, 380.0  # [px]
_LABEL: Style = {
    "textcoords": "offset points",
    "fontweight": "bold",
    "bbox": {"facecolor": PAPER, "edgecolor": "none", "pad": 1, "alpha": 0.85},
}
_QUIETER = "heard quieter than before, mean over the speeds [dB(A)]"
_CELLS = (150, 84)  # as fine as marks can lie side by side
# these marks are a picture of points: they keep their colours, which show on light and on dark
_FAMILIES = {"rubber": ("o", "#3d86bd"), "foam": ("^", "#c9752f"), "printed": ("s", "#2f9a72")}
_OTHER = ("D", "#8468ad")
_FAIL = "#a3abb3"
_MIX = tuple(  # odd factors without pattern: neighbours in the list must land far apart
    np.uint64(factor) for factor in (0x9E3779B97F4A7C15, 0xD1B54A32D192ED03, 0x8CB92BA72F3D8DD7)
)


def quiet_against_sway(cloud: Cloud, sway_limit: float) -> str:
    """Return the chart of what each candidate gains [dB] and what it costs in sway [mm]."""

    def paint(figure: Figure, narrow: bool) -> None:
        axes = figure.add_axes(box(76.0, 50.0, 14.0, 14.0, figure))
        shown = np.isfinite(cloud.gain_db) & np.isfinite(cloud.sway) & (cloud.sway > 0)
        _frame(axes, cloud, shown, sway_limit)
        axes.set_xlabel("quieter than before [dB(A)]" if narrow else _QUIETER)
        _failing(axes, cloud, shown & ~cloud.passed)
        _passing(axes, cloud, shown & cloud.passed)
        if math.isfinite(sway_limit):
            _limit(axes, sway_limit)
        if cloud.chosen >= 0 and shown[cloud.chosen]:
            _chosen(axes, float(cloud.gain_db[cloud.chosen]), float(cloud.sway[cloud.chosen]))

    families = sorted({str(name) for name in cloud.family})
    drawn = chart("quiet against sway", _TALL, paint, narrow=_NARROW_TALL)
    return drawn + _key(families, math.isfinite(sway_limit))


def thinned(
    x: NDArray[np.float64], y: NDArray[np.float64], spans: tuple[Span, Span]
) -> NDArray[np.intp]:
    """Return the indices of one point a cell of a fixed grid over `spans`; none outside it.

    The point that a cell keeps is picked without pattern, the same in every run: were it the first
    of the list, one family would cover the others.
    """

    def cell(values: NDArray[np.float64], span: Span, count: int) -> NDArray[np.int64]:
        rank: NDArray[np.int64] = np.floor((values - span[0]) / (span[1] - span[0]) * count).astype(
            np.int64
        )
        return rank

    order = _scrambled(len(x))
    column, row = (cell(v, s, n) for v, s, n in zip((x, y), spans, _CELLS, strict=True))
    inside = (column >= 0) & (column < _CELLS[0]) & (row >= 0) & (row < _CELLS[1])
    order = order[inside[order]]
    code = column[order] * _CELLS[1] + row[order]
    kept: NDArray[np.intp] = order[np.unique(code, return_index=True)[1]]
    return kept


def _scrambled(count: int) -> NDArray[np.intp]:
    """Return 0 … count−1 in an order without pattern, always the same."""
    code = (np.arange(count, dtype=np.uint64) + _MIX[0]) * _MIX[0]
    for factor in _MIX[1:]:
        code = (code ^ (code >> np.uint64(29))) * factor
    return np.argsort(code ^ (code >> np.uint64(32)), kind="stable")


def _frame(axes: Axes, cloud: Cloud, shown: NDArray[np.bool_], sway_limit: float) -> None:
    x, y = cloud.gain_db[shown], cloud.sway[shown] * 1e3
    left, right = np.percentile(x, (0.5, 100.0)) if len(x) else (-1.0, 1.0)
    low, high = np.percentile(y, (0.5, 99.5)) if len(y) else (0.1, 10.0)
    if math.isfinite(sway_limit):
        low, high = min(low, sway_limit * 1e3), max(high, 2e3 * sway_limit)
    if cloud.chosen >= 0 and shown[cloud.chosen]:
        chosen = float(cloud.sway[cloud.chosen]) * 1e3
        left = min(left, float(cloud.gain_db[cloud.chosen]))
        low, high = min(low, chosen), max(high, chosen)
    low, high = 0.7 * float(low), 1.5 * float(high)
    log_axis(axes, "y", log_ticks(low, high))
    axes.set_ylim(low, high)
    axes.set_xlim(float(left) - 1.0, max(float(right), 0.0) + 1.5)
    axes.set_ylabel("sway at the tool [mm]")


def _kept(axes: Axes, cloud: Cloud, picked: NDArray[np.bool_]) -> NDArray[np.intp]:
    index = np.flatnonzero(picked)
    low, high = (math.log(edge * 1e-3) for edge in axes.get_ylim())
    x, y = cloud.gain_db[index], np.log(cloud.sway[index])
    return index[thinned(x, y, (axes.get_xlim(), (low, high)))]


def _failing(axes: Axes, cloud: Cloud, picked: NDArray[np.bool_]) -> None:
    kept = _kept(axes, cloud, picked)
    _marks(axes, cloud, kept, s=6, c=_FAIL, zorder=2)


def _passing(axes: Axes, cloud: Cloud, picked: NDArray[np.bool_]) -> None:
    kept = _kept(axes, cloud, picked)
    for family in sorted({str(name) for name in cloud.family[kept]}):
        mark, colour = _FAMILIES.get(family, _OTHER)
        ours = kept[cloud.family[kept] == family]
        _marks(axes, cloud, ours, s=13, marker=mark, c=colour, zorder=3)


def _marks(axes: Axes, cloud: Cloud, kept: NDArray[np.intp], **style: Any) -> None:
    axes.scatter(cloud.gain_db[kept], cloud.sway[kept] * 1e3, lw=0, rasterized=True, **style)


def _key(families: Sequence[str], limited: bool) -> str:
    kinds = [(family, *_FAMILIES.get(family, _OTHER)) for family in families]
    entries = [Entry(mark, colour, family) for family, mark, colour in kinds]
    entries.append(Entry("o", _FAIL, "fails a limit"))
    if limited:
        entries.append(Entry("line", ORANGE, "sway limit", 1.8, "5 2"))
    entries.append(Entry("o", RED, "chosen", filled=False))
    return key(entries)


def _limit(axes: Axes, sway_limit: float) -> None:
    axes.axhline(sway_limit * 1e3, color=ORANGE, lw=1.8, ls=DASHED, zorder=4)
    axes.annotate(
        f"sway limit {readable(sway_limit, 'm')}",
        xy=(0.0, sway_limit * 1e3),
        xycoords=axes.get_yaxis_transform(),
        xytext=(6, 4),
        color=ORANGE,
        zorder=5,
        **_LABEL,
    )
    axes.annotate(
        "↘ better",
        xy=(0.985, 0.03),
        xycoords="axes fraction",
        ha="right",
        color=SOFT,
    )


def _chosen(axes: Axes, x: float, y: float) -> None:
    ring: Style = {"ms": 13, "mfc": "none"}
    axes.plot([x], [y * 1e3], "o", mec=PAPER, mew=4.2, zorder=6, **ring)
    axes.plot([x], [y * 1e3], "o", mec=RED, mew=2.2, zorder=7, **ring)
    axes.annotate("chosen", xy=(x, y * 1e3), xytext=(-12, -28), color=INK, zorder=8, **_LABEL)
