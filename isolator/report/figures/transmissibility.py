"""Transmissibility over frequency, with every tone of every speed beneath it."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.patches import Patch

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
    RED,
    SHORT,
    SOFT,
    Style,
    dot,
    draw,
    legend,
    log_axis,
    log_ticks,
    spread,
    stroke,
)
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
_WIDTH, _PANEL, _TOP, _BOTTOM, _ROW = 9.2, 1.75, 0.45, 0.78, 0.21  # [in]
_FLOOR, _ROOF = 0.008, 14.0  # shown range of transmissibility


def transmissibility(curves: Sequence[Curve], speeds: Sequence[Speed], ceiling: float) -> str:
    """Return the picture of what reaches the desk over frequency, one panel an axis of push.

    No more than a loss of `ceiling` [dB] is promised.
    """
    rows = max(len(speeds), 1)
    strip = _ROW * rows + 0.12
    height = _TOP + len(curves) * _PANEL + strip + _BOTTOM

    def paint(figure: Figure) -> None:
        low = min(float(curve.frequency[curve.frequency > 0][0]) for curve in curves)
        high = max(float(curve.frequency[-1]) for curve in curves)
        for index, curve in enumerate(curves):
            bottom = height - _TOP - (index + 1) * _PANEL
            axes = figure.add_axes(_box(bottom + 0.14, _PANEL - 0.14, height))
            _panel(axes, curve, (low, high), least_ratio(ceiling))
            _speed_marks(axes, speeds, (low, high), labelled=index == 0)
        _key(figure, curves, ceiling)
        axes = figure.add_axes(_box(_BOTTOM, strip, height))
        _tones(axes, speeds, (low, high))
        _tone_key(figure, speeds)

    return draw("transmissibility over frequency", (_WIDTH, height), paint)


def _box(bottom: float, tall: float, height: float) -> tuple[float, float, float, float]:
    left, right = 0.95, 0.68
    return (left / _WIDTH, bottom / height, (_WIDTH - left - right) / _WIDTH, tall / height)


def _panel(axes: Axes, curve: Curve, span: tuple[float, float], least: float) -> None:
    f = curve.frequency
    log_axis(axes, "x", log_ticks(*span))
    log_axis(axes, "y", (0.01, 0.03, 0.1, 0.3, 1, 3, 10))
    axes.set_xlim(*span)
    axes.set_ylim(_FLOOR, _ROOF)
    axes.tick_params(labelbottom=False, length=0)
    axes.axhspan(_FLOOR, least, facecolor=BEYOND, edgecolor="none")
    low, high = np.minimum(curve.low, curve.high), np.maximum(curve.low, curve.high)
    axes.fill_between(f, low, np.maximum(high, curve.nominal), color=PALE, lw=0)
    axes.plot(f, curve.nominal, color=BLUE)
    if curve.now is not None:
        axes.plot(f, curve.now, color=ORANGE, lw=1.4, ls=DASHED)
    axes.axhline(1.0, color=INK, lw=0.9)
    axes.axhline(least, color=SOFT, lw=0.9, ls=DOTTED)
    axes.set_ylabel(f"transmissibility\n(push along {curve.axis}) [–]")
    decibels = (20, 10, 0, -10, -20, -30, -40)
    right = axes.twinx()
    right.grid(False)
    log_axis(right, "y", [10 ** (level / 20) for level in decibels])
    right.set_ylim(_FLOOR, _ROOF)
    right.set_yticklabels([f"{level}".replace("-", "−") for level in decibels])
    right.tick_params(length=0)
    right.set_ylabel("level [dB]")


def _speed_marks(
    axes: Axes, speeds: Sequence[Speed], span: tuple[float, float], *, labelled: bool
) -> None:
    """Mark each speed's electrical tone along an axis, the one that the target is set by."""
    marks = []
    for speed in speeds:
        tones = [x.frequency for x in speed.lines if x.source == "electrical"]
        if tones and span[0] <= min(tones) <= span[1]:
            marks.append((min(tones), speed.speed))
    decade = math.log10(span[1] / span[0])
    places = spread([math.log10(tone) for tone, _ in marks], 0.04 * decade)
    for (tone, speed_value), place in zip(marks, places, strict=True):
        axes.axvline(tone, color=SOFT, lw=0.8, ls=SHORT, zorder=1.5)
        if labelled:
            axes.annotate(
                number(speed_value * 1e3),
                xy=(tone, _ROOF),
                xytext=(10**place, _ROOF * 1.45),
                ha="center",
                va="bottom",
                fontsize=8.5,
                annotation_clip=False,
                arrowprops=LEADER,
            )
    if labelled and marks:
        text = "speeds in mm/s, each at its electrical tone"
        axes.text(span[0], _ROOF * 1.45, text, va="bottom", fontsize=8.5, color=SOFT)


def _key(figure: Figure, curves: Sequence[Curve], ceiling: float) -> None:
    keys: list[Line2D | Patch] = [
        stroke("these feet", BLUE, 1.8),
        Patch(facecolor=PALE, label="their band"),
    ]
    if any(curve.now is not None for curve in curves):
        keys.append(stroke("feet now", ORANGE, 1.4, ls=DASHED))
    beyond = f"beyond {ceiling:.0f} dB: no promise"
    keys += [
        stroke("as if bolted down (T = 1)", INK, 0.9),
        Patch(facecolor=BEYOND, edgecolor=SOFT, ls=":", label=beyond),
    ]
    spacing = {"borderaxespad": 0, "handlelength": 1.8, "columnspacing": 1.6}
    legend(figure, keys, "upper left", (0.95 / _WIDTH, 1.0), **spacing)


def _tones(axes: Axes, speeds: Sequence[Speed], span: tuple[float, float]) -> None:
    """One row a speed, one mark a tone; filled where the feet make it worse."""
    log_axis(axes, "x", log_ticks(*span))
    axes.set_xlim(*span)
    axes.set_ylim(len(speeds) - 0.4, -0.6)
    for row, speed in enumerate(speeds):
        axes.axhline(row, color=FAINT, lw=0.6)
        for line in speed.lines:
            worse = line.insertion_loss.nominal < WORSE_DB
            colours: Style = {"mec": RED, "mfc": RED} if worse else {"mec": BLUE, "mfc": "white"}
            mark = _MARKS.get(line.source, _FAN)
            axes.plot([line.frequency], [row], marker=mark, ms=5.2, ls="none", mew=1.0, **colours)
    axes.set_yticks(range(len(speeds)), [f"{number(one.speed * 1e3)} mm/s" for one in speeds])
    axes.tick_params(axis="y", length=0)
    axes.grid(False, axis="y")
    axes.set_xlabel("frequency [Hz]")


def _tone_key(figure: Figure, speeds: Sequence[Speed]) -> None:
    present = {line.source for speed in speeds for line in speed.lines}
    shapes = {name: mark for name, mark in _MARKS.items() if name in present}
    if present - set(_MARKS):
        shapes["fan"] = _FAN
    keys = [dot(name, mark, 5.2, mec=INK, mfc="white") for name, mark in shapes.items()]
    keys.append(dot("filled: made worse", "o", 5.2, mec=RED, mfc=RED))
    spacing = {"borderaxespad": 0.2, "handletextpad": 0.1, "columnspacing": 1.2}
    legend(figure, keys, "lower center", (0.5, 0.0), **spacing)
