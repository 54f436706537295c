"""Transmissibility over frequency, with every tone of every speed beneath it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from isolator.report.figures.figure import (
    BEYOND,
    BLUE,
    DASHED,
    DOTTED,
    FAINT,
    INK,
    LEADER,
    ORANGE,
    PALE,
    PAPER,
    RED,
    SHORT,
    SOFT,
    TEXT,
    Style,
    box,
    chart,
    log_axis,
    log_ticks,
    spread,
)
from isolator.report.figures.key import Entry, key
from isolator.report.sentences.numbers import least_ratio, number
from isolator.report.sentences.speeds import WORSE_DB
from isolator.vibration.results import Curve, Speed

_MARKS = {
    "turn": "o",
    "belt tooth": "s",
    "electrical": "D",
    "twice electrical": "^",
    "full step": "v",
    "microstep": "P",
}
_FAN = "*"
_PANEL, _TOP, _BOTTOM, _ROW, _GAP = 165.0, 44.0, 46.0, 22.0, 26.0  # [px]
_FLOOR, _ROOF = 0.008, 14.0  # shown range of transmissibility


def transmissibility(curves: Sequence[Curve], speeds: Sequence[Speed], ceiling: float) -> str:
    """Return the picture of what reaches the desk over frequency, one panel an axis of push.

    No more than a loss of `ceiling` [dB] is promised.
    """
    strip = _ROW * max(len(speeds), 1) + 10.0
    height = _TOP + len(curves) * (_PANEL + _GAP) + strip + _BOTTOM

    def paint(figure: Figure, narrow: bool) -> None:
        low = min(float(curve.frequency[curve.frequency > 0][0]) for curve in curves)
        high = max(float(curve.frequency[-1]) for curve in curves)
        left, right = (62.0, 58.0) if narrow else (84.0, 64.0)
        ticks = log_ticks(low, high, (1,) if narrow else (1, 2, 5))
        for index, curve in enumerate(curves):
            top = _TOP + index * (_PANEL + _GAP)
            axes = figure.add_axes(box(left, height - top - _PANEL, right, top, figure))
            _panel(axes, curve, (low, high), ticks, least_ratio(ceiling))
            _speed_marks(axes, speeds, (low, high), labelled=index == 0, narrow=narrow)
        axes = figure.add_axes(box(left, _BOTTOM, right, height - _BOTTOM - strip, figure))
        _tones(axes, speeds, (low, high), ticks, narrow)

    return chart("transmissibility over frequency", height, paint) + _key(speeds, curves, ceiling)


def _panel(
    axes: Axes, curve: Curve, span: tuple[float, float], ticks: Sequence[float], least: float
) -> None:
    f = curve.frequency
    log_axis(axes, "x", ticks)
    log_axis(axes, "y", (0.01, 0.1, 1, 10))
    axes.set_xlim(*span)
    axes.set_ylim(_FLOOR, _ROOF)
    axes.tick_params(labelbottom=False, length=0)
    axes.axhspan(_FLOOR, least, facecolor=BEYOND, edgecolor="none")
    low, high = np.minimum(curve.low, curve.high), np.maximum(curve.low, curve.high)
    axes.fill_between(f, low, np.maximum(high, curve.nominal), color=PALE, lw=0)
    axes.plot(f, curve.nominal, color=BLUE)
    if curve.now is not None:
        axes.plot(f, curve.now, color=ORANGE, lw=1.8, ls=DASHED)
    axes.axhline(1.0, color=INK, lw=0.9)
    axes.axhline(least, color=SOFT, lw=0.9, ls=DOTTED)
    axes.set_title(f"push along {curve.axis}", loc="left", fontsize=TEXT, pad=5, color=INK)
    axes.set_ylabel("T [–]")
    decibels = (20, 0, -20, -40)
    right = axes.twinx()
    right.grid(False)
    log_axis(right, "y", [10 ** (level / 20) for level in decibels])
    right.set_ylim(_FLOOR, _ROOF)
    right.set_yticklabels([f"{level} dB".replace("-", "−") for level in decibels])
    right.tick_params(length=0)


def _speed_marks(
    axes: Axes,
    speeds: Sequence[Speed],
    span: tuple[float, float],
    *,
    labelled: bool,
    narrow: bool,
) -> None:
    """Mark each speed's electrical tone along an axis, the one that the target is set by."""
    marks = []
    for speed in speeds:
        tones = [
            x.frequency for x in speed.lines if x.source == "electrical" and x.worst is not None
        ]
        if tones and span[0] <= min(tones) <= span[1]:
            marks.append((min(tones), speed.speed))
    decade = math.log10(span[1] / span[0])
    places = spread([math.log10(tone) for tone, _ in marks], (0.13 if narrow else 0.05) * decade)
    for (tone, speed_value), place in zip(marks, places, strict=True):
        axes.axvline(tone, color=SOFT, lw=1.0, ls=SHORT, zorder=1.5)
        if labelled:
            axes.annotate(
                number(speed_value * 1e3),
                xy=(tone, _ROOF),
                xytext=(10**place, _ROOF * 1.9),
                ha="center",
                va="bottom",
                fontweight="bold",
                annotation_clip=False,
                arrowprops=LEADER,
            )


def _key(speeds: Sequence[Speed], curves: Sequence[Curve], ceiling: float) -> str:
    present = {line.source for speed in speeds for line in speed.lines}
    shapes = {name: mark for name, mark in _MARKS.items() if name in present}
    if present - set(_MARKS):
        shapes["fan"] = _FAN
    entries = [Entry("line", BLUE, "these feet"), Entry("band", PALE, "their band")]
    if any(curve.now is not None for curve in curves):
        entries.append(Entry("line", ORANGE, "feet now", 1.8, "5 2"))
    entries += [
        Entry("line", INK, "as if bolted down (T = 1)", 1.2),
        Entry("band", BEYOND, f"beyond {ceiling:.0f} dB: no promise"),
        Entry("line", SOFT, "your speeds [mm/s], each at its electrical tone", 1.0, "4 3"),
        *(Entry(mark, INK, name, filled=False) for name, mark in shapes.items()),
        Entry("o", RED, "filled: made worse"),
    ]
    return key(entries)


def _tones(
    axes: Axes,
    speeds: Sequence[Speed],
    span: tuple[float, float],
    ticks: Sequence[float],
    narrow: bool,
) -> None:
    """One row a speed, one mark a tone; filled where the feet make it worse."""
    log_axis(axes, "x", ticks)
    axes.set_xlim(*span)
    axes.set_ylim(len(speeds) - 0.4, -0.6)
    for row, speed in enumerate(speeds):
        axes.axhline(row, color=FAINT, lw=0.8)
        for line in speed.lines:
            if not span[0] <= line.frequency <= span[1]:
                continue
            worse = line.insertion_loss.nominal < WORSE_DB
            colours: Style = {"mec": RED, "mfc": RED} if worse else {"mec": BLUE, "mfc": PAPER}
            mark = _MARKS.get(line.source, _FAN)
            axes.plot([line.frequency], [row], marker=mark, ms=7, ls="none", mew=1.2, **colours)
    unit = "" if narrow else " mm/s"
    axes.set_yticks(range(len(speeds)), [f"{number(one.speed * 1e3)}{unit}" for one in speeds])
    axes.tick_params(axis="y", length=0)
    axes.grid(False, axis="y")
    axes.set_xlabel("frequency [Hz]")
